"""The dates and doses of a bed's feedings that leave least short and least waiting.

The doses for given dates are shared out lot by lot where each helps most, then moved while that
helps; the best set of dates is gone over measure by measure. Dates are added one at a time to the
best few sets of dates. It is a search of good plans, not a proof.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

from halfpail.domain.feeding_times import Food, GrowingSeason, Visit, came_of_one

_SETS_KEPT = 6
_POINTS = 50
_LOTS = 12
# What is short weighs four times what waits, and a visit more must better the plan by a twentieth.
SHORT_WEIGHS = 4.0
_WORTH_A_VISIT = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """What may be done: the dates, how many of them, and the cap on quick N in a dose [kg/m²]."""

    dates: tuple[date, ...]
    least_visits: int
    most_visits: int
    quick_cap_kg_per_m2: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Timed:
    """Dates and doses; `unplaced` measures found no dose under the cap."""

    visits: tuple[Visit, ...]
    worth: float
    unplaced: int


@dataclass(slots=True)
class _Bench:
    """What the search needs at hand: a few days, what is wanted, and what each measure brings."""

    foods: Mapping[str, Food]
    ask: Ask
    wanted: list[float]
    harvest: int
    came: dict[tuple[str, date], list[float]] = field(repr=False)

    def worth(self, supply: Sequence[float]) -> float:
        """Less is better: what is short, weighed, and what waits; after harvest nothing is wanted.

        What had not come by harvest is lost to the crop, and what comes later only waits.
        """
        growing = sum(
            SHORT_WEIGHS * (want - came) if want > came else came - want
            for want, came in zip(self.wanted, supply[: self.harvest], strict=True)
        )
        taken = min(self.wanted[-1], supply[self.harvest - 1])
        return growing + sum(came - taken for came in supply[self.harvest :])

    def lot(self, key: str) -> int:
        """How many measures of a food are moved together at first."""
        return max(1, self.foods[key].measures // _LOTS)


@dataclass(slots=True)
class _Doses:
    """Measures on each date while they are being shared out, and what they bring."""

    bench: _Bench
    measures: dict[tuple[str, date], int]
    supply: list[float]

    def fits(self, place: tuple[str, date], times: int = 1) -> bool:
        """Whether so many more measures keep the cap on quick nitrogen."""
        key, on = place
        quick = sum(
            (
                count * self.bench.foods[food].quick_n_kg_per_m2
                for (food, day), count in self.measures.items()
                if day == on
            ),
            times * self.bench.foods[key].quick_n_kg_per_m2,
        )
        return quick <= self.bench.ask.quick_cap_kg_per_m2

    def worth_with(self, place: tuple[str, date], times: int = 1) -> float:
        """What the plan would be worth with a measure more (or fewer) at a place."""
        return self.bench.worth(self._with(place, times))

    def put(self, place: tuple[str, date], times: int = 1) -> None:
        """Put a measure at a place, or take it away."""
        self.supply = self._with(place, times)
        self.measures[place] = self.measures.get(place, 0) + times

    def _with(self, place: tuple[str, date], times: int) -> list[float]:
        came = self.bench.came[place]
        return [now + times * more for now, more in zip(self.supply, came, strict=True)]


def best_times(season: GrowingSeason, foods: Sequence[Food], ask: Ask) -> Timed:
    """The best dates and doses found, with no more visits than are worth their trouble.

    >>> whole = Ask(dates=(season.planted,), least_visits=1, most_visits=1,
    ...             quick_cap_kg_per_m2=Fraction(1))
    >>> [dict(visit.measures) for visit in best_times(season, [food("salt", 3)], whole).visits]
    [{'salt': 3}]
    """
    bench = _bench(season, foods, ask)
    by_count: list[Timed] = []
    sets: list[tuple[date, ...]] = [()]
    for _ in range(ask.most_visits):
        wider = {tuple(sorted({*kept, on})) for kept in sets for on in ask.dates if on not in kept}
        tried = sorted(
            ((_shared_out(bench, dates), dates) for dates in sorted(wider)),
            key=lambda pair: (pair[0].unplaced, pair[0].worth, pair[1]),
        )
        if not tried:
            break
        sets = [dates for _, dates in tried[:_SETS_KEPT]]
        by_count.append(_shared_out(bench, sets[0], finely=True))
    return _fewest_worth_it(by_count, ask.least_visits)


def _fewest_worth_it(by_count: Sequence[Timed], least: int) -> Timed:
    allowed = [timed for timed in by_count if len(timed.visits) >= least] or list(by_count[-1:])
    fewest_unplaced = min(timed.unplaced for timed in allowed)
    placed = [timed for timed in allowed if timed.unplaced == fewest_unplaced]
    best = min(timed.worth for timed in placed)
    return next(timed for timed in placed if timed.worth <= best * (1 + _WORTH_A_VISIT))


def _bench(season: GrowingSeason, foods: Sequence[Food], ask: Ask) -> _Bench:
    days = len(season.temperatures_c)
    step = max(1, days // _POINTS)
    harvest = season.day(season.harvest)
    points = sorted({*range(0, days, step), harvest, days - 1})
    came = {}
    for food in foods:
        for on in ask.dates:
            of_one = came_of_one(season, food, on)
            came[food.key, on] = [of_one.get(point, 0.0) for point in points]
    return _Bench(
        foods={food.key: food for food in foods},
        ask=ask,
        wanted=[season.wanted_kg_per_m2[point] for point in points if point <= harvest],
        harvest=points.index(harvest) + 1,
        came=came,
    )


def _shared_out(bench: _Bench, dates: Sequence[date], *, finely: bool = False) -> Timed:
    """The doses for given dates, at least one measure on each while there are enough."""
    doses = _Doses(bench, {}, [0.0] * len(next(iter(bench.came.values()))))
    left = {key: food.measures for key, food in bench.foods.items()}
    for on in dates:
        _put_one_of(doses, left, [on])
    while _put_one_of(doses, left, dates):
        pass
    while _moved(doses, dates, finely=False):
        pass
    while finely and _moved(doses, dates, finely=True):
        pass
    return Timed(
        visits=_visits(doses), worth=bench.worth(doses.supply), unplaced=sum(left.values())
    )


def _put_one_of(doses: _Doses, left: dict[str, int], dates: Sequence[date]) -> bool:
    """Put a lot of what is left where it helps most, or a measure where a lot is over the cap."""
    for lots in (True, False):
        sizes = {
            key: min(count, doses.bench.lot(key) if lots else 1) for key, count in left.items()
        }
        places = [
            place
            for key, size in sizes.items()
            if size
            for place in _places(doses.bench, key, dates)
            if doses.fits(place, size)
        ]
        if places:
            best = min(places, key=lambda place: doses.worth_with(place, sizes[place[0]]))
            doses.put(best, sizes[best[0]])
            left[best[0]] -= sizes[best[0]]
            return True
    return False


def _places(bench: _Bench, key: str, dates: Sequence[date]) -> list[tuple[str, date]]:
    """The dates on which a food may be given."""
    until = bench.foods[key].until
    return [(key, on) for on in dates if until is None or on <= until]


def _moved(doses: _Doses, dates: Sequence[date], *, finely: bool) -> bool:
    """Move a lot, or one measure, to another date if that betters the plan."""
    before = doses.bench.worth(doses.supply)
    for origin, goal, most in _moves(doses, dates):
        size = 1 if finely else min(most, doses.bench.lot(origin[0]))
        doses.put(origin, -size)
        if doses.fits(goal, size) and doses.worth_with(goal, size) < before * (1 - 1e-9):
            doses.put(goal, size)
            return True
        doses.put(origin, size)
    return False


def _moves(
    doses: _Doses, dates: Sequence[date]
) -> Iterator[tuple[tuple[str, date], tuple[str, date], int]]:
    """From where to where how many measures may go; the last one of a date stays."""
    on_date = Counter[date]()
    for (_, on), count in doses.measures.items():
        on_date[on] += count
    for origin, count in list(doses.measures.items()):
        spare = min(count, on_date[origin[1]] - 1)
        if spare > 0:
            goals = _places(doses.bench, origin[0], dates)
            yield from ((origin, goal, spare) for goal in goals if goal != origin)


def _visits(doses: _Doses) -> tuple[Visit, ...]:
    given = sorted({on for (_, on), count in doses.measures.items() if count})
    return tuple(
        Visit(
            on=on,
            measures={
                key: count for (key, day), count in doses.measures.items() if day == on and count
            },
        )
        for on in given
    )
