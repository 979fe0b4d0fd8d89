"""Every recipe in whole scoops, tried in bulk: floating point sieves, exact numbers decide.

All demands, costs and distances are sums over scoops, so a block of bag sets times all scoop
counts is one matrix product. What is clearly not allowed or clearly beaten falls through; what
is within a hair of staying is kept for the exact look of the caller.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import chain, combinations, pairwise
from math import comb, gcd

import numpy as np
from numpy.typing import NDArray

from halfpail.blending.ports import Shortlist
from halfpail.blending.scoops import (
    ScoopProblem,
    Scoops,
    truly_different,
    weigh,
    whole_numbers,
)

Numbers = NDArray[np.float64]
Indices = NDArray[np.intp]
Whole = NDArray[np.int16]

_HAIR = 1e-9
_BLOCK = 50_000
_EXACT = 2**53


class EveryRecipe:
    """Tries every recipe there is; the work grows with their number and with nothing else."""

    def most_recipes(self, problem: ScoopProblem) -> int:
        """How many recipes there are to try, in lowest terms or not."""
        bags, scoops = len(problem.bags), problem.most_scoops
        return sum(comb(bags, k) * comb(scoops, k) for k in _bag_counts(problem))

    def sift(self, problem: ScoopProblem, different: int) -> Shortlist:
        """Every undominated recipe, and the best of `different` truly different sets of bags.

        The sets are chosen twice, by cost and by distance.
        """
        figures = _figures(problem)
        front = _Front(figures)
        cheap = _BestOfEachSet(figures.cost_hair, figures.distance_hair)
        close = _BestOfEachSet(figures.distance_hair, figures.cost_hair)
        for sets, counts in _blocks(problem, figures):
            found = _allowed(problem, figures, sets, counts)
            if len(found.cost):
                front.take(found)
                cheap.take(found, found.cost, found.distance)
                close.take(found, found.distance, found.cost)
        recipes = [
            *front.recipes(),
            *cheap.recipes(problem, different),
            *close.recipes(problem, different),
        ]
        return Shortlist(recipes=tuple(dict.fromkeys(recipes)), tried=_in_lowest_terms(problem))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Figures:
    """The problem in floating point; `slack` is nought where the sums come out exactly."""

    demands: Numbers
    slack: Numbers
    cost: Numbers
    cost_per: Numbers
    misses: Numbers
    miss_per: Numbers
    cost_hair: float
    distance_hair: float


def _figures(problem: ScoopProblem) -> _Figures:
    """Demands in whole numbers, and cost above the cheapest bag, so that equal prices tie.

    Dividing figures are scaled to about one; neither changes any order.
    """
    rows = [whole_numbers(demand.per_scoop) for demand in problem.demands]
    largest = [max(map(abs, row), default=0) for row in rows]
    slack = [0 if most * problem.most_scoops < _EXACT else _HAIR * most for most in largest]
    priced = [c / q for c, q in zip(problem.cost, problem.cost_per, strict=True) if q]
    least = min(priced, default=Fraction(0))
    above = [c - least * q for c, q in zip(problem.cost, problem.cost_per, strict=True)]
    per_kg = [m / q for m, q in zip(above, problem.cost_per, strict=True) if q]
    sizes = [
        abs(miss / q)
        for row in problem.misses
        for miss, q in zip(row, problem.miss_per, strict=True)
        if q
    ]
    return _Figures(
        demands=_matrix(rows, len(problem.bags)),
        slack=np.array(slack, dtype=float),
        cost=np.array(above, dtype=float),
        cost_per=np.array(problem.cost_per, dtype=float),
        misses=_matrix(problem.misses, len(problem.bags)),
        miss_per=np.array(problem.miss_per, dtype=float),
        cost_hair=_HAIR * float(max(per_kg, default=0)) if any(above) else 0.0,
        distance_hair=_HAIR * float(max(sizes, default=0)),
    )


def _matrix(rows: object, width: int) -> Numbers:
    return np.array(rows, dtype=float).reshape(-1, width)


def _bag_counts(problem: ScoopProblem) -> range:
    most = min(len(problem.bags), problem.most_bags, problem.most_scoops)
    return range(1, most + 1)


def _in_lowest_terms(problem: ScoopProblem) -> int:
    """How many recipes there are, those of sets that are ruled out at once among them."""
    bags, most = len(problem.bags), problem.most_scoops
    return sum(comb(bags, size) * len(_counts(size, most)) for size in _bag_counts(problem))


def _blocks(problem: ScoopProblem, figures: _Figures) -> Iterator[tuple[Indices, Numbers]]:
    """Sets of bags that could be allowed, with every scoop count in lowest terms."""
    for size in _bag_counts(problem):
        counts = _counts(size, problem.most_scoops)
        sets = _sets(problem, figures, size)
        step = max(1, _BLOCK // len(counts))
        for begin in range(0, len(sets), step):
            yield sets[begin : begin + step], counts


@lru_cache(maxsize=32)
def _counts(size: int, most: int) -> Numbers:
    """All ways to take at least one scoop of each of `size` bags, in lowest terms."""
    cuts = combinations(range(1, most + 1), size)
    parts = (tuple(b - a for a, b in zip((0, *cut), cut, strict=False)) for cut in cuts)
    return np.array([part for part in parts if gcd(*part) == 1], dtype=float)


def _sets(problem: ScoopProblem, figures: _Figures, size: int) -> Indices:
    """Sets of bags without forbidden pairs, with a bag on the right side of each demand."""
    bags = len(problem.bags)
    flat = chain.from_iterable(combinations(range(bags), size))
    sets = np.fromiter(flat, dtype=np.intp, count=size * comb(bags, size)).reshape(-1, size)
    for pair in problem.apart:
        first, second = (problem.bags.index(bag) for bag in pair)
        sets = sets[~((sets == first).any(axis=1) & (sets == second).any(axis=1))]
    for row, slack in zip(figures.demands, figures.slack, strict=True):
        sets = sets[row[sets].min(axis=1) <= slack]
    return sets


@dataclass(frozen=True, slots=True, kw_only=True)
class _Found:
    """Allowed recipes of one block: number of the set and of the counts, cost and distance."""

    sets: Indices
    counts: Numbers
    set_number: Indices
    count_number: Indices
    cost: Numbers
    distance: Numbers
    bags: int

    def scoops(self, chosen: Indices | NDArray[np.bool_]) -> Whole:
        """Scoops of every bag of the chosen recipes, a row each."""
        members = self.sets[self.set_number[chosen]]
        rows = np.zeros((len(members), self.bags), dtype=np.int16)
        np.put_along_axis(rows, members, self.counts[self.count_number[chosen]], axis=1)
        return rows


def _allowed(problem: ScoopProblem, figures: _Figures, sets: Indices, counts: Numbers) -> _Found:
    """The recipes of a block that meet every demand; what is on the edge is decided exactly."""
    live = np.arange(len(sets) * len(counts))
    edge = np.zeros(len(live), dtype=bool)
    for row, slack in _strictest_first(figures, sets, counts):
        sums = _sums(row, sets, counts, live)
        meets = sums <= slack
        live, edge = live[meets], edge[meets] | ((sums[meets] > -slack) if slack else False)
    for per in np.unique((figures.cost_per, figures.miss_per), axis=0):
        if not per.all():
            some = _sums(per, sets, counts, live) > 0
            live, edge = live[some], edge[some]
    found = _measured(figures, sets, counts, live)
    if not edge.any():
        return found
    fails = [not problem.allows(recipe) for recipe in _recipes(found.scoops(edge))]
    return _measured(figures, sets, counts, np.delete(live, np.flatnonzero(edge)[fails]))


def _strictest_first(
    figures: _Figures, sets: Indices, counts: Numbers
) -> list[tuple[Numbers, float]]:
    """The demands with their slacks, those that fewest of a thin sample of the block meet first."""
    sample = sets[:: 1 + len(sets) // 10]
    pairs = list(zip(figures.demands, figures.slack.tolist(), strict=True))
    met = [np.count_nonzero(row[sample] @ counts.T <= slack) for row, slack in pairs]
    return [pairs[number] for number in np.argsort(met, kind="stable")]


def _measured(figures: _Figures, sets: Indices, counts: Numbers, live: Indices) -> _Found:
    cost = _sums(figures.cost, sets, counts, live) / _sums(figures.cost_per, sets, counts, live)
    distance = np.zeros(len(live))
    for miss in figures.misses:
        np.maximum(distance, np.abs(_sums(miss, sets, counts, live)), out=distance)
    distance /= _sums(figures.miss_per, sets, counts, live)
    return _Found(
        sets=sets,
        counts=counts,
        set_number=live // len(counts),
        count_number=live % len(counts),
        cost=cost,
        distance=distance,
        bags=len(figures.cost),
    )


def _sums(per_scoop: Numbers, sets: Indices, counts: Numbers, live: Indices) -> Numbers:
    """Sums over the scoops of the live recipes: all of a block at once while most are alive."""
    if 4 * len(live) > len(sets) * len(counts):
        every: Numbers = (per_scoop[sets] @ counts.T).ravel()
        return every if len(live) == len(every) else every[live]
    chosen = per_scoop[sets[live // len(counts)]] * counts[live % len(counts)]
    sums: Numbers = chosen.sum(axis=1)
    return sums


class _Front:
    """Recipes that no recipe met so far clearly beats in both cost and distance."""

    def __init__(self, figures: _Figures) -> None:
        self.hairs = figures.cost_hair, figures.distance_hair
        self.rows: Whole = np.zeros((0, len(figures.cost)), dtype=np.int16)
        self.cost, self.distance = np.zeros(0), np.zeros(0)

    def take(self, found: _Found) -> None:
        """Add what is found, and drop what is beaten."""
        news = ~self._beaten(found.cost, found.distance)
        rows = np.vstack((self.rows, found.scoops(news)))
        self.cost = np.concatenate((self.cost, found.cost[news]))
        self.distance = np.concatenate((self.distance, found.distance[news]))
        stay = ~self._beaten(self.cost, self.distance)
        self.rows, self.cost, self.distance = rows[stay], self.cost[stay], self.distance[stay]

    def _beaten(self, cost: Numbers, distance: Numbers) -> NDArray[np.bool_]:
        """Which of these are clearly dearer (or all cost the same) and clearly further off."""
        cost_hair, distance_hair = self.hairs
        if not len(self.cost) or not (cost_hair or distance_hair):
            return np.zeros(len(cost), dtype=bool)
        order = np.argsort(self.cost, kind="stable")
        closest = np.minimum.accumulate(self.distance[order])
        cheaper = np.searchsorted(self.cost[order], cost - cost_hair, side="right")
        best = np.where(cheaper > 0, closest[cheaper - 1], np.inf)
        beaten: NDArray[np.bool_] = best <= distance - distance_hair
        return beaten

    def recipes(self) -> list[Scoops]:
        return _recipes(self.rows)


class _BestOfEachSet:
    """The best recipe of every set of bags by one aim, then by the other.

    Values within a hair tie; what ties in both is left to the exact look.
    """

    def __init__(self, first_hair: float, second_hair: float) -> None:
        self.hairs = first_hair, second_hair
        self.rows: list[Whole] = []
        self.first: list[Numbers] = []
        self.second: list[Numbers] = []

    def take(self, found: _Found, first: Numbers, second: Numbers) -> None:
        """Keep the best of each set of the block."""
        changes = np.diff(found.set_number, prepend=-1) != 0
        begins, group = np.flatnonzero(changes), np.cumsum(changes) - 1
        near = first <= np.minimum.reduceat(first, begins)[group] + self.hairs[0]
        lowest = np.minimum.reduceat(np.where(near, second, np.inf), begins)
        best = np.flatnonzero(near & (second <= lowest[group] + self.hairs[1]))
        self.rows.append(found.scoops(best))
        self.first.append(first[best])
        self.second.append(second[best])

    def recipes(self, problem: ScoopProblem, most: int) -> list[Scoops]:
        """The best recipes of which no set of bags holds another's."""
        if not self.rows or not most:
            return []
        rows = np.vstack(self.rows)
        first, second = np.concatenate(self.first), np.concatenate(self.second)
        ordered = (
            recipe
            for tied in _tied(np.arange(len(rows)), first, self.hairs[0])
            for same in _tied(tied, second, self.hairs[1])
            for recipe in sorted(weigh(problem, _recipes(rows[same])), key=lambda r: r.plainness)
        )
        return [recipe.scoops for recipe in truly_different(ordered, most)]


def _tied(numbers: Indices, values: Numbers, hair: float) -> Iterator[Indices]:
    """Numbers in the order of their values, those that tie with the one before together."""
    ordered = numbers[np.argsort(values[numbers], kind="stable")]
    breaks = np.flatnonzero(np.diff(values[ordered]) > hair) + 1
    for begin, end in pairwise((0, *breaks.tolist(), len(ordered))):
        yield ordered[begin:end]


def _recipes(rows: Whole) -> list[Scoops]:
    return [tuple(row) for row in rows.tolist()]
