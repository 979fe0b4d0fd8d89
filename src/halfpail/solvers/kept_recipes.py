"""What is kept while recipes are tried: the front, and the best of truly different sets of bags."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import inf
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

from halfpail.blending.scoops import ScoopProblem, Scoops, Weighed, truly_different, weigh
from halfpail.solvers.scoop_figures import Figures, Indices, Numbers, Whole, Window

_LOOKS = 6
"""How many windows look between the ends of a front: more are tighter, and take longer."""

Limit = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Allowed recipes: number of the set and of the counts of each, its cost and distance."""

    sets: Indices
    counts: Numbers
    set_number: Indices
    count_number: Indices
    cost: Numbers
    distance: Numbers
    bags: int

    def scoops(self, chosen: Indices | NDArray[np.bool_]) -> Whole:
        """Scoops of every bag of the chosen recipes, a row each."""
        members = self.sets[:, self.set_number[chosen]].T
        rows = np.zeros((len(members), self.bags), dtype=np.int16)
        np.put_along_axis(rows, members, self.counts[self.count_number[chosen]], axis=1)
        return rows


class Keeper(Protocol):
    """Keeps some of what is found, and says where more of it could be."""

    def take(self, found: Found) -> None:
        """Keep what is wanted of these."""
        ...

    def settle(self) -> None:
        """Work out, between blocks, what is no longer wanted."""
        ...

    def windows(self) -> list[Window]:
        """What is wanted lies in one of these at least."""
        ...


class Front:
    """Recipes that no recipe met so far clearly beats in both cost and distance."""

    def __init__(self, figures: Figures) -> None:
        self.hairs = figures.cost_hair, figures.distance_hair
        self.rows: Whole = np.zeros((0, len(figures.cost)), dtype=np.int16)
        self.cost, self.distance = np.zeros(0), np.zeros(0)

    def take(self, found: Found) -> None:
        """Add what is found, unless it is beaten."""
        news = ~self._beaten(found.cost, found.distance)
        if news.any():
            self.rows = np.vstack((self.rows, found.scoops(news)))
            self.cost = np.concatenate((self.cost, found.cost[news]))
            self.distance = np.concatenate((self.distance, found.distance[news]))

    def settle(self) -> None:
        """Drop what is beaten by what came later."""
        stay = ~self._beaten(self.cost, self.distance)
        self.rows, self.cost, self.distance = self.rows[stay], self.cost[stay], self.distance[stay]

    def _beaten(self, cost: Numbers, distance: Numbers) -> NDArray[np.bool_]:
        """Which of these are clearly dearer, and clearly further off.

        What costs nothing above the cheapest bag is nowhere beaten in cost, without a hair.
        """
        if not len(self.cost):
            return np.zeros(len(cost), dtype=bool)
        order = np.argsort(self.cost, kind="stable")
        in_order = self.cost[order]
        closest = np.minimum.accumulate(self.distance[order])
        cheaper = np.searchsorted(in_order, cost - self.hairs[0], side="right")
        cheaper = np.maximum(cheaper, np.searchsorted(in_order, 0, side="right"))
        best = np.where(cheaper > 0, closest[cheaper - 1], np.inf)
        beaten: NDArray[np.bool_] = best < distance - self.hairs[1]
        return beaten

    def windows(self) -> list[Window]:
        """Cheaper than the cheapest, closer than the closest, and between steps of the front."""
        if not len(self.cost):
            return [Window()]
        order = np.lexsort((self.distance, self.cost))
        steps = order[np.diff(np.minimum.accumulate(self.distance[order]), prepend=inf) < 0]
        cost = (self.cost[steps] + self.hairs[0]).tolist()
        distance = (self.distance[steps] + self.hairs[1]).tolist()
        between = np.arange(len(steps) - 1)
        groups = np.array_split(between, min(_LOOKS, len(between))) if len(between) else []
        return [
            *([Window(cost=cost[0])] if self.cost[steps[0]] > 0 else []),
            Window(distance=distance[-1]),
            *(Window(cost=cost[g[-1] + 1], distance=distance[g[0]]) for g in groups),
        ]

    def recipes(self) -> list[Scoops]:
        """What no other beats, as far as can be told without exact numbers."""
        return _recipes(self.rows)


class Different:
    """The best recipes of truly different sets of bags by one aim, then by the other.

    Values within a hair tie; what ties in both is left to the exact look. Once enough different
    sets are met, recipes clearly worse than the last of them are let go. A set met later can keep
    that one from being chosen: then all must be looked through again, no less far than `least`.
    """

    def __init__(
        self, figures: Figures, most: int, *, by_cost: bool, least: Limit = (-inf, -inf)
    ) -> None:
        hairs = figures.cost_hair, figures.distance_hair
        self.figures, self.most, self.by_cost, self.least = figures, most, by_cost, least
        self.hairs = hairs if by_cost else hairs[::-1]
        self.rows: Whole = np.zeros((0, len(figures.cost)), dtype=np.int16)
        self.first, self.second = np.zeros(0), np.zeros(0)
        self.limits: list[Limit] = [(inf, inf)]
        self.news = False

    def take(self, found: Found) -> None:
        """Keep the best of each set."""
        first, second = found.cost, found.distance
        if not self.by_cost:
            first, second = second, first
        near = np.flatnonzero(self._near(first, second, self.limits[-1], 2))
        if not len(near):
            return
        best = near[self._best_of_each(found.set_number[near], first[near], second[near])]
        self.rows = np.vstack((self.rows, found.scoops(best)))
        self.first = np.concatenate((self.first, first[best]))
        self.second = np.concatenate((self.second, second[best]))
        self.news = True

    def _near(self, first: Numbers, second: Numbers, limit: Limit, hairs: int) -> NDArray[np.bool_]:
        """Which values are no worse than a limit, give or take so many hairs."""
        most, tied = limit[0] - hairs * self.hairs[0], limit[0] + hairs * self.hairs[0]
        near: NDArray[np.bool_] = (first < most) | (
            (first <= tied) & (second <= limit[1] + hairs * self.hairs[1])
        )
        return near

    def _best_of_each(self, sets: Indices, first: Numbers, second: Numbers) -> Indices:
        changes = np.diff(sets, prepend=-1) != 0
        begins, group = np.flatnonzero(changes), np.cumsum(changes) - 1
        near = first <= np.minimum.reduceat(first, begins)[group] + self.hairs[0]
        lowest = np.minimum.reduceat(np.where(near, second, np.inf), begins)
        return np.flatnonzero(near & (second <= lowest[group] + self.hairs[1]))

    def settle(self) -> None:
        """Bring the limit to the last of enough different sets."""
        last = self._last() if self.news else None
        self.news = False
        if last is not None:
            limit = float(self.first[last]), float(self.second[last])
            self.limits.append(self._worse(limit, self.least))

    def _worse(self, one: Limit, other: Limit) -> Limit:
        """The limit that lets more through; where they tie in the first aim, what both let."""
        if abs(one[0] - other[0]) > 2 * self.hairs[0]:
            return max(one, other)
        return max(one[0], other[0]), max(one[1], other[1])

    def _last(self) -> int | None:
        """Number of the last of enough different sets, chosen without exact numbers."""
        order = np.lexsort((self.second, self.first))
        used = self.rows > 0
        enough = self.most
        for chosen in range(1, enough + 1):
            if not len(order):
                return None
            best = int(order[0])
            if chosen == enough:
                return best
            among = used[order]
            holds, held = (among | ~used[best]).all(axis=1), (~among | used[best]).all(axis=1)
            order = order[~(holds | held)]
        return None

    def windows(self) -> list[Window]:
        """Clearly better than the limit by the first aim, or tied and no worse by the other."""
        first, second = self.limits[-1]
        if not self.most:
            return []
        if first == inf:
            return [Window()]
        better = first - 2 * self.hairs[0], inf
        tied = first + 2 * self.hairs[0], second + 2 * self.hairs[1]
        return [Window(*(one if self.by_cost else one[::-1])) for one in (better, tied)]

    def chosen(self, problem: ScoopProblem) -> list[Scoops]:
        """The best recipes of which no set of bags holds another's."""
        ordered = (
            recipe
            for tied in _tied(np.arange(len(self.rows)), self.first, self.hairs[0])
            for same in _tied(tied, self.second, self.hairs[1])
            for recipe in sorted(weigh(problem, _recipes(self.rows[same])), key=self._exactly)
        )
        return [recipe.scoops for recipe in truly_different(ordered, self.most)]

    def _exactly(self, recipe: Weighed) -> Any:
        return recipe.by_cost if self.by_cost else recipe.by_distance

    def once_more(self, chosen: list[Scoops]) -> "Different | None":
        """Who looks through all again; None where nothing that could be chosen was let go."""
        if min(self.limits)[0] == inf:
            return None
        least = inf, inf
        if len(chosen) == self.most:
            at = np.flatnonzero((self.rows == np.array(chosen[-1])).all(axis=1))[:1]
            first, second = self.first[at], self.second[at]
            if all(self._near(first, second, limit, 1).all() for limit in self.limits):
                return None
            least = self._worse((float(first[0]), float(second[0])), self.least)
        return Different(self.figures, self.most, by_cost=self.by_cost, least=least)


def _tied(numbers: Indices, values: Numbers, hair: float) -> Iterator[Indices]:
    """Numbers in the order of their values, those that tie with the one before together."""
    ordered = numbers[np.argsort(values[numbers], kind="stable")]
    breaks = np.flatnonzero(np.diff(values[ordered]) > hair) + 1
    for begin, end in pairwise((0, *breaks.tolist(), len(ordered))):
        yield ordered[begin:end]


def _recipes(rows: Whole) -> list[Scoops]:
    return [tuple(row) for row in rows.tolist()]
