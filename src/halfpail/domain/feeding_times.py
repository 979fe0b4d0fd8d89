"""Nitrogen that comes against nitrogen that a crop wants, day by day, for feedings on dates.

What has come by a day and was not wanted yet waits in the ground and may wash down; what was
wanted and has not come is short. Curves are floats; doses are whole measures, and the limit of
quick nitrogen in a dose is kept exactly.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from fractions import Fraction

from halfpail.domain.release import ReleaseCurve, released_by_day


@dataclass(frozen=True, slots=True, kw_only=True)
class Food:
    """What a bed gets over the season of one mix or bag, in whole measures.

    `n_kg_per_m2` is the label nitrogen of one measure on this bed [kg/m²], `quick_n_kg_per_m2` the
    part of it that is quick [kg/m²]. After `until` it may not be given.
    """

    key: str
    measures: int
    n_kg_per_m2: Fraction
    quick_n_kg_per_m2: Fraction
    curve: ReleaseCurve
    until: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GrowingSeason:
    """A bed from the first day it may be fed to its harvest, and some time after.

    `temperatures_c` are the soil's daily means from `start` on, beyond harvest as far as one looks
    [°C]; `wanted_kg_per_m2` is the nitrogen wanted by the end of each day from `start` to
    harvest, all of it so far [kg/m²].
    """

    start: date
    planted: date
    harvest: date
    temperatures_c: tuple[float, ...]
    wanted_kg_per_m2: tuple[float, ...]

    def day(self, on: date) -> int:
        """Days from the start to a date [days]."""
        return (on - self.start).days


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """One day of feeding: whole measures of each food."""

    on: date
    measures: Mapping[str, int] = field(hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """How what comes meets what is wanted [all kg/m²].

    `mean_short` and `mean_waiting` are means over the days; `short` is the most that is short on
    a day, `short_on` that day; `waiting` the most that waits, `waiting_on` that day; `left` is
    what has come by the end, some time after harvest, and was not taken up.
    """

    mean_short: float
    mean_waiting: float
    short: float
    short_on: date
    waiting: float
    waiting_on: date
    left: float


def supply_kg_per_m2(
    season: GrowingSeason, foods: Sequence[Food], visits: Sequence[Visit]
) -> tuple[float, ...]:
    """Nitrogen that has come by the end of each day from the start on [kg/m²].

    >>> two = Visit(on=season.planted, measures={"salt": 2})
    >>> supply_kg_per_m2(season, [food("salt", 4)], [two])
    (0.0, 0.002, 0.002, 0.002)
    """
    supply = [0.0] * len(season.temperatures_c)
    for visit in visits:
        for food in (food for food in foods if visit.measures.get(food.key)):
            for day, came in came_of_one(season, food, visit.on).items():
                supply[day] += came * visit.measures[food.key]
    return tuple(supply)


def came_of_one(season: GrowingSeason, food: Food, on: date) -> dict[int, float]:
    """What one measure given on a date has brought by the end of each later day [kg/m²].

    >>> came_of_one(season, food("salt", 1), season.harvest)
    {3: 0.001}
    """
    first = season.day(on)
    shares = released_by_day(food.curve, season.temperatures_c[first:])
    whole = float(food.n_kg_per_m2)
    return {first + later: whole * share for later, share in enumerate(shares[1:])}


def balance(season: GrowingSeason, supply: Sequence[float]) -> Balance:
    """What comes against what is wanted, in figures [kg/m²].

    >>> balance(season, (0.0, 0.002, 0.002, 0.002)).short
    0.001
    """
    wanted = season.wanted_kg_per_m2
    growing, after = supply[: len(wanted)], supply[len(wanted) :]
    taken = min(wanted[-1], growing[-1])
    short = [max(0.0, want - came) for want, came in zip(wanted, growing, strict=True)]
    waiting = [max(0.0, came - want) for want, came in zip(wanted, growing, strict=True)]
    waiting += [came - taken for came in after]
    worst, fullest = short.index(max(short)), waiting.index(max(waiting))
    return Balance(
        mean_short=sum(short) / len(short),
        mean_waiting=sum(waiting) / len(waiting),
        short=short[worst],
        short_on=season.start + timedelta(days=worst),
        waiting=waiting[fullest],
        waiting_on=season.start + timedelta(days=fullest),
        left=waiting[-1],
    )


def least_visits(foods: Sequence[Food], quick_cap_kg_per_m2: Fraction) -> int | None:
    """The fewest days of feeding that keep the quick nitrogen of each under its cap [kg/m²].

    Counted as if quick nitrogen could be shared out freely, so a few more may be needed. None
    where one measure alone is over the cap.

    >>> least_visits([food("salt", 5)], Fraction(2, 1000))
    3
    """
    if any(food.measures and food.quick_n_kg_per_m2 > quick_cap_kg_per_m2 for food in foods):
        return None
    quick = sum((food.measures * food.quick_n_kg_per_m2 for food in foods), Fraction(0))
    return max(1, -(-quick // quick_cap_kg_per_m2))
