"""From a garden to the season problem: bags as ingredients, ranges as limits, misses as weights."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from halfpail.application.keep_apart import bags_apart
from halfpail.application.pass_gate import stopped_on_all
from halfpail.domain.bed import Bed, Content, NeedRange
from halfpail.domain.garden import Garden, Preferences
from halfpail.domain.matter import Nutrient
from halfpail.domain.season import Ingredient, Limit, Plot, SeasonProblem
from halfpail.domain.stock import Bag
from halfpail.reference.defaults import default

MOST_BAGS_OF_A_KIND = 40

_OTHER = {
    "K2O": Content.K2O,
    "Ca": Content.CA,
    "Mg": Content.MG,
    "S": Content.S,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class MissWeights:
    """What a kilogram missed weighs, in kilograms of product at the price ceiling.

    These are our defaults, not published, and no money. Usable nitrogen short of the least
    weighs most. Short of the aim it weighs about what nitrogen from a 4-4-4 at the ceiling
    costs, so that such a bag is just worth buying for it. Phosphorus above what the crop removes
    weighs so much that nitrogen which brings 1.5 times its weight of it is not worth having for
    the aim, only for the least.
    """

    short_of_least_n: Fraction = Fraction(200)
    short_of_aim_n: Fraction = Fraction(60)
    p2o5_surplus: Fraction = Fraction(40)
    short_of_least_other: Fraction = Fraction(30)
    short_of_aim_other: Fraction = Fraction(12)


MISS_WEIGHTS = MissWeights()


def pose_season(garden: Garden, weights: MissWeights = MISS_WEIGHTS) -> SeasonProblem:
    """The season of a garden as the engine takes it.

    Bags to be avoided, bags that can be neither bought nor found in the shed, and bags that the
    gate of hard limits lets on no bed are left out.
    Without a wished number of mixes the problem is posed for one.
    """
    preferences = garden.preferences
    facts = [bed.facts for bed in garden.beds]
    bags = [bag for bag in garden.bags if is_at_hand(bag) and not stopped_on_all(bag, facts)]
    return SeasonProblem(
        ingredients=tuple(ingredient(bag, garden) for bag in bags),
        plots=tuple(Plot(key=bed.key, straight_ok=bed.straight_ok) for bed in garden.beds),
        limits=tuple(
            limit
            for bed in garden.beds
            for need in bed.needs
            for limit in limits_of(bed, need, weights, price_ceiling(preferences))
        ),
        mixes=preferences.mixes or 1,
        most_scoops=preferences.most_scoops,
        most_bags=preferences.most_bags,
        measure=garden.tools.measure,
        scoop_l=garden.tools.scoop_l,
        apart=bags_apart(bags),
        budget=preferences.budget,
    )


def price_ceiling(preferences: Preferences) -> Fraction:
    """The highest price worth paying [money per kg]: the gardener's own, else the usual one."""
    return preferences.ceiling_per_kg or default("price_ceiling").value


def is_at_hand(bag: Bag) -> bool:
    """Whether a plan may use a bag: not avoided, and in the shed or on offer at a known price."""
    return not bag.avoid and (bag.shed_kg > 0 or is_on_offer(bag))


def is_on_offer(bag: Bag) -> bool:
    """Whether a bag can be bought: price and weight are known and at least one is offered."""
    return bag.price is not None and bool(bag.bag_kg) and bag.offered != 0


def ingredient(bag: Bag, garden: Garden) -> Ingredient:
    """A bag as the engine takes it."""
    shed_is_free = garden.preferences.shed_is_free
    return Ingredient(
        key=bag.key,
        contents=contents(bag),
        scoop_kg=bag.scoop_kg(garden.tools.scoop_l),
        bag_kg=bag.bag_kg or bag.shed_kg,
        price=bag.price or Fraction(0),
        shed_kg=bag.shed_kg,
        shed_price_per_kg=Fraction(0) if shed_is_free else bag.price_per_kg or Fraction(0),
        offered=_offered(bag, garden),
        may_go_straight=bag.straight_ok,
    )


def _offered(bag: Bag, garden: Garden) -> int:
    """Bags that may be bought; where the number is not known, as many as could ever be used."""
    if not is_on_offer(bag):
        return 0
    if bag.offered is not None:
        return bag.offered
    assert bag.bag_kg
    most_kg = sum((_most_kg(bag, bed) for bed in garden.beds), Fraction(0))
    return min(MOST_BAGS_OF_A_KIND, ceil(most_kg / bag.bag_kg))


def _most_kg(bag: Bag, bed: Bed) -> Fraction:
    """The most of one bag that the hard caps of a bed could take [kg]."""
    held = contents(bag)
    rooms = [
        need.cap * bed.area_m2 / held[content]
        for need in bed.needs
        if held.get(content := _capped(need), Fraction(0)) > 0
    ]
    return min(rooms, default=Fraction(0))


def contents(bag: Bag) -> dict[Content, Fraction]:
    """Everything a bed's ranges are counted in, per kilogram of a bag [kg/kg]."""
    analysis, usable = bag.label.analysis, bag.usable_n
    total_p2o5 = analysis.total_p2o5
    available = analysis.of(Nutrient.P2O5)
    return {
        Content.N_LOW: usable.low,
        Content.N_TYPICAL: usable.typical,
        Content.N_HIGH: usable.high,
        Content.N_LABEL: usable.label,
        Content.P2O5: available,
        Content.P2O5_TOTAL: available if total_p2o5 is None else max(total_p2o5, available),
        Content.K2O: analysis.of(Nutrient.K2O),
        Content.CA: analysis.of(Nutrient.CA),
        Content.MG: analysis.of(Nutrient.MG),
        Content.S: analysis.of(Nutrient.S),
    }


def _capped(need: NeedRange) -> Content:
    if need.nutrient == "N":
        return Content.N_HIGH
    return Content.P2O5_TOTAL if need.nutrient == "P2O5" else _OTHER[need.nutrient]


def label_n_basis(need: NeedRange) -> Fraction:
    """The usable nitrogen that label nitrogen is held against [kg/m²].

    It is the aim; a bed that aims at none but may have some goes by its most.
    """
    return need.aim or need.most


def label_n_cap_kg_per_m2(need: NeedRange) -> Fraction:
    """The most label nitrogen under a nitrogen range [kg/m²]."""
    return default("label_n_times_usable_aim").value * label_n_basis(need)


def limits_of(
    bed: Bed, need: NeedRange, weights: MissWeights, ceiling_per_kg: Fraction
) -> Iterator[Limit]:
    """Every limit one range lays on one bed."""
    sides = {"N": _nitrogen, "P2O5": _phosphorus}.get(need.nutrient, _other)
    for content, at_least, at_most, weight, because in sides(need, weights):
        if at_least == 0:
            continue
        yield Limit(
            plot=bed.key,
            content=content,
            at_least=None if at_least is None else at_least * bed.area_m2,
            at_most=None if at_most is None else at_most * bed.area_m2,
            price_per_kg=None if weight is None else weight * ceiling_per_kg,
            because=because,
        )


_Side = tuple[Content, Fraction | None, Fraction | None, Fraction | None, str]


def _nitrogen(need: NeedRange, weights: MissWeights) -> Iterator[_Side]:
    """Least <= low, aim <= typical (both priced); high <= most and label <= 1.5 aim (hard)."""
    yield Content.N_LOW, need.least, None, weights.short_of_least_n, "the least usable N"
    yield Content.N_TYPICAL, need.aim, None, weights.short_of_aim_n, "the aim for usable N"
    yield Content.N_HIGH, None, min(need.most, need.cap), None, "the most usable N without burn"
    label = label_n_cap_kg_per_m2(need)
    yield Content.N_LABEL, None, label, None, "label N at most 1.5 times the aim for usable N"


def _phosphorus(need: NeedRange, weights: MissWeights) -> Iterator[_Side]:
    """Least, aim <= available (priced); all of it <= most (priced) and <= cap (hard)."""
    yield Content.P2O5, need.least, None, weights.short_of_least_other, "the least P2O5"
    yield Content.P2O5, need.aim, None, weights.short_of_aim_other, "the aim for P2O5"
    if need.most < need.cap:
        surplus = "P2O5 above what the crop removes"
        yield Content.P2O5_TOTAL, None, need.most, weights.p2o5_surplus, surplus
    yield Content.P2O5_TOTAL, None, need.cap, None, "the P2O5 stop"


def _other(need: NeedRange, weights: MissWeights) -> Iterator[_Side]:
    """Least, aim <= given (priced), given <= most (hard): only phosphorus has room above it."""
    content, name = _OTHER[need.nutrient], need.nutrient
    yield content, need.least, None, weights.short_of_least_other, f"the least {name}"
    yield content, need.aim, None, weights.short_of_aim_other, f"the aim for {name}"
    yield content, None, need.most, None, f"the most {name}"
