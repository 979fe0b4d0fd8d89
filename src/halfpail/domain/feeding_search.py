"""The dates and doses of a bed's feedings that leave least short and least waiting.

The doses for given dates are shared out measure by measure where each helps most, then moved one
by one while that helps. Dates are added one at a time to the best few sets of dates. It is a search
of good plans, not a proof.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

from halfpail.domain.feeding_times import Food, GrowingSeason, Visit, came_of_one

_SETS_KEPT = 6
_POINTS = 40
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
    came: dict[tuple[str, date], list[float]] = field(repr=False)

    def worth(self, supply: Sequence[float]) -> float:
        """Less is better: what is short, weighed, and what waits."""
        return sum(
            SHORT_WEIGHS * (want - came) if want > came else came - want
            for want, came in zip(self.wanted, supply, strict=True)
        )


@dataclass(slots=True)
class _Doses:
    """Measures on each date while they are being shared out, and what they bring."""

    bench: _Bench
    measures: dict[tuple[str, date], int]
    supply: list[float]

    def fits(self, key: str, on: date) -> bool:
        """Whether one more measure keeps the cap on quick nitrogen."""
        quick = sum(
            (
                count * self.bench.foods[food].quick_n_kg_per_m2
                for (food, day), count in self.measures.items()
                if day == on
            ),
            self.bench.foods[key].quick_n_kg_per_m2,
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
        by_count.append(tried[0][0])
    return _fewest_worth_it(by_count, ask.least_visits)


def _fewest_worth_it(by_count: Sequence[Timed], least: int) -> Timed:
    allowed = [timed for timed in by_count if len(timed.visits) >= least] or list(by_count[-1:])
    fewest_unplaced = min(timed.unplaced for timed in allowed)
    placed = [timed for timed in allowed if timed.unplaced == fewest_unplaced]
    best = min(timed.worth for timed in placed)
    return next(timed for timed in placed if timed.worth <= best * (1 + _WORTH_A_VISIT))


def _bench(season: GrowingSeason, foods: Sequence[Food], ask: Ask) -> _Bench:
    days = len(season.wanted_kg_per_m2)
    step = max(1, days // _POINTS)
    points = [*range(0, days - 1, step), days - 1]
    came = {}
    for food in foods:
        for on in ask.dates:
            of_one = came_of_one(season, food, on)
            came[food.key, on] = [of_one.get(point, 0.0) for point in points]
    return _Bench(
        foods={food.key: food for food in foods},
        ask=ask,
        wanted=[season.wanted_kg_per_m2[point] for point in points],
        came=came,
    )


def _shared_out(bench: _Bench, dates: Sequence[date]) -> Timed:
    """The doses for given dates, at least one measure on each while there are enough."""
    doses = _Doses(bench, {}, [0.0] * len(bench.wanted))
    left = {key: food.measures for key, food in bench.foods.items()}
    for on in dates:
        _put_one_of(doses, left, [on])
    while any(left.values()):
        if not _put_one_of(doses, left, dates):
            break
    while _moved(doses, dates):
        pass
    return Timed(
        visits=_visits(doses), worth=bench.worth(doses.supply), unplaced=sum(left.values())
    )


def _put_one_of(doses: _Doses, left: dict[str, int], dates: Sequence[date]) -> bool:
    """Put one measure of what is left where it helps most; nothing where the cap allows none."""
    places = [
        place
        for key, count in left.items()
        if count
        for place in _places(doses.bench, key, dates)
        if doses.fits(*place)
    ]
    if not places:
        return False
    best = min(places, key=doses.worth_with)
    doses.put(best)
    left[best[0]] -= 1
    return True


def _places(bench: _Bench, key: str, dates: Sequence[date]) -> list[tuple[str, date]]:
    """The dates on which a food may be given."""
    until = bench.foods[key].until
    return [(key, on) for on in dates if until is None or on <= until]


def _moved(doses: _Doses, dates: Sequence[date]) -> bool:
    """Move one measure to another date if that betters the plan."""
    before = doses.bench.worth(doses.supply)
    for origin, goal in _moves(doses, dates):
        doses.put(origin, -1)
        if doses.fits(*goal) and doses.worth_with(goal) < before * (1 - 1e-9):
            doses.put(goal)
            return True
        doses.put(origin)
    return False


def _moves(
    doses: _Doses, dates: Sequence[date]
) -> Iterator[tuple[tuple[str, date], tuple[str, date]]]:
    """From where to where a measure may go; the last one of a date stays."""
    on_date = Counter[date]()
    for (_, on), count in doses.measures.items():
        on_date[on] += count
    for origin, count in list(doses.measures.items()):
        if count and on_date[origin[1]] > 1:
            goals = _places(doses.bench, origin[0], dates)
            yield from ((origin, goal) for goal in goals if goal != origin)


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
