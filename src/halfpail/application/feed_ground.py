"""How much of a mix a piece of ground may get, alone and beside a straight nitrogen source.

Everything here is for one square metre of ground. A way to feed gives each of its foods up to
the first limit it meets; the limit that stopped it is told.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from halfpail.domain.bed import Fit, NeedRange, fit
from halfpail.domain.matter import Nutrient
from halfpail.domain.rate import product_for
from halfpail.domain.stock import Bag

NONE = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """Ranges and gates for ground without a soil test [kg/m²], and what a dose may bring.

    `p2o5_loss` is what a bed loses in a year, low, typical and high; `p2o5_stop` the running
    surplus at which phosphorus stops.
    """

    n: NeedRange
    p2o5: NeedRange
    k2o: NeedRange
    label_n_most: Fraction
    quick_n_per_dose: Fraction
    p2o5_loss: tuple[Fraction, Fraction, Fraction]
    p2o5_stop: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """What the ground gets [kg/m²]; usable nitrogen with its low and high figure."""

    n_low: Fraction = NONE
    n: Fraction = NONE
    n_high: Fraction = NONE
    label_n: Fraction = NONE
    quick_n: Fraction = NONE
    p2o5: Fraction = NONE
    p2o5_total: Fraction = NONE
    k2o: Fraction = NONE


@dataclass(frozen=True, slots=True, kw_only=True)
class Portion:
    """So much of one food in a year [kg/m² and L/m²], and the limit that stopped it."""

    food: Bag
    rate_kg_per_m2: Fraction
    stopped_by: str

    @property
    def rate_l_per_m2(self) -> Fraction:
        """The same by volume, on the typical density [L/m²]."""
        return self.rate_kg_per_m2 / self.food.density.typical


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to feed: its portions, what the ground gets, in how many doses, and the fit."""

    portions: tuple[Portion, ...]
    given: Given
    doses: int
    n_fit: Fit
    p2o5_fit: Fit
    k2o_fit: Fit
    p2o5_surplus: Fraction
    years_to_stop: int | None


AIM = "the aim for usable N"


def feed(foods: Sequence[Bag], limits: Limits, spare_phosphorus: bool) -> Way:
    """Each food in turn up to its first limit; a food of which none may be given falls out.

    With `spare_phosphorus` no food may bring more P2O5 in all than the range for P2O5 allows;
    without it the phosphorus runs with the nitrogen.
    """
    given = Given()
    portions = []
    for food in foods:
        rate, because = _most(food, given, limits, spare_phosphorus)
        if rate > 0:
            portions.append(Portion(food=food, rate_kg_per_m2=rate, stopped_by=because))
            given = _and(given, food, rate)
    return way_of(portions, limits)


def way_of(portions: Sequence[Portion], limits: Limits) -> Way:
    """What portions give, in how many doses, and how it fits."""
    given = Given()
    for portion in portions:
        given = _and(given, portion.food, portion.rate_kg_per_m2)
    surplus = given.p2o5_total - limits.p2o5_loss[1]
    return Way(
        portions=tuple(portions),
        given=given,
        doses=max(1, ceil(given.quick_n / limits.quick_n_per_dose)),
        n_fit=fit(limits.n, given.n, given.n),
        p2o5_fit=fit(limits.p2o5, given.p2o5, given.p2o5_total),
        k2o_fit=fit(limits.k2o, given.k2o, given.k2o),
        p2o5_surplus=surplus,
        years_to_stop=None if surplus <= 0 else ceil(limits.p2o5_stop / surplus),
    )


def _most(food: Bag, given: Given, limits: Limits, spare_phosphorus: bool) -> tuple[Fraction, str]:
    """The most of a food on top of what is given [kg/m²], and the limit it then meets."""
    rooms = _rooms(food, given, limits, spare_phosphorus)
    met = [(product_for(max(room, NONE), share), name) for room, share, name in rooms if share]
    return min(met, key=lambda rate_and_name: rate_and_name[0], default=(NONE, "nothing in it"))


def _rooms(
    food: Bag, given: Given, limits: Limits, spare_phosphorus: bool
) -> list[tuple[Fraction, Fraction, str]]:
    """Room that is left [kg/m²], share of the food that fills it [kg/kg], and its name.

    A food without nitrogen is given only up to what is aimed at of its P2O5 and K2O.
    """
    usable, k2o, p2o5 = food.usable_n, food.label.analysis.of(Nutrient.K2O), _total_p2o5(food)
    if not usable.typical:
        return [
            (limits.p2o5.aim - given.p2o5_total, p2o5, "the aim for P2O5"),
            (limits.k2o.aim - given.k2o, k2o, "the aim for K2O"),
        ]
    rooms = [
        (limits.n.aim - given.n, usable.typical, AIM),
        (limits.n.most - given.n_high, usable.high, "the most usable N without burn"),
        (limits.label_n_most - given.label_n, usable.label, "the most label N"),
        (limits.k2o.most - given.k2o, k2o, "the most K2O"),
    ]
    if spare_phosphorus:
        rooms.append((limits.p2o5.most - given.p2o5_total, p2o5, "the most P2O5"))
    return rooms


def _and(given: Given, food: Bag, rate: Fraction) -> Given:
    usable, analysis = food.usable_n, food.label.analysis
    return Given(
        n_low=given.n_low + rate * usable.low,
        n=given.n + rate * usable.typical,
        n_high=given.n_high + rate * usable.high,
        label_n=given.label_n + rate * usable.label,
        quick_n=given.quick_n + rate * usable.quick,
        p2o5=given.p2o5 + rate * analysis.of(Nutrient.P2O5),
        p2o5_total=given.p2o5_total + rate * _total_p2o5(food),
        k2o=given.k2o + rate * analysis.of(Nutrient.K2O),
    )


def _total_p2o5(food: Bag) -> Fraction:
    """All P2O5 that reaches the soil [kg/kg]: the total where the label states it."""
    analysis = food.label.analysis
    return max(analysis.total_p2o5 or NONE, analysis.of(Nutrient.P2O5))
