"""Sets of bags, and which of them cannot keep to limits in whatever scoops: ruled out in bulk.

A set is a column of the numbers of its bags.
"""

from functools import lru_cache
from math import comb

import numpy as np
from numpy.typing import NDArray

from halfpail.blending.scoops import ScoopProblem
from halfpail.solvers.scoop_figures import Figures, Indices, Limits, Numbers

_NEARLY = 1 - 1e-9
_TINY = 1e-300


def bag_counts(problem: ScoopProblem) -> range:
    """How many bags a recipe can have."""
    most = min(len(problem.bags), problem.most_bags, problem.most_scoops)
    return range(1, most + 1)


@lru_cache(maxsize=32)
def scoop_counts(size: int, most: int) -> Numbers:
    """All ways to take at least one scoop of each of `size` bags, in lowest terms, a row each."""
    cuts = _every_set(most, size) + 1
    parts = np.diff(cuts, axis=0, prepend=0)
    return parts[:, np.gcd.reduce(parts, axis=0) == 1].T.astype(float)


def sets_of_bags(
    problem: ScoopProblem, figures: Figures, size: int, first: int, many: int
) -> Indices:
    """Of all sets those from the first on, so many, but for some that can hold no recipe.

    Left out are those with a forbidden pair, or with nothing to divide cost or distance by.
    """
    bags = len(problem.bags)
    sets = _some_sets(bags, size, first, min(first + many, comb(bags, size)))
    for pair in problem.apart:
        one, other = (problem.bags.index(bag) for bag in pair)
        sets = sets[:, ~((sets == one).any(axis=0) & (sets == other).any(axis=0))]
    for per in (figures.cost_per, figures.miss_per):
        if not per.all():
            sets = sets[:, (per.take(sets) > 0).any(axis=0)]
    return sets


def _some_sets(bags: int, size: int, begin: int, end: int) -> Indices:
    """Sets in their order: the lowest bag before all sets of one bag less that are above it."""
    number = np.arange(begin, end)
    if size == 1:
        return number[None]
    smaller = _every_set(bags, size - 1)
    above = smaller.shape[1] - np.searchsorted(smaller[0], np.arange(bags), side="right")
    ends = np.cumsum(above)
    lowest = np.searchsorted(ends, number, side="right")
    rest = smaller[:, number - ends[lowest] + smaller.shape[1]]
    return np.vstack((lowest, rest))


@lru_cache(maxsize=16)
def _every_set(bags: int, size: int) -> Indices:
    return _some_sets(bags, size, 0, comb(bags, size))


def could_keep(limits: Limits, sets: Indices, most: int, known: int = 0) -> Indices:
    """Numbers of the sets of which a recipe of `most` scoops could keep to all limits.

    Looked at are single limits and pairs of them; the first `known` ones were looked at before.
    A set is ruled out where a limit is broken at all its ends (one scoop of each bag, and all the
    rest of one bag): every other recipe of it lies between these. So it is where a mixture of two
    limits is broken at all its ends, since no recipe then keeps to both.
    """
    live = np.arange(sets.shape[1])
    slack = most * limits.slack
    for row, more in zip(limits.rows[known:], slack[known:], strict=True):
        scoops = row.take(sets if len(live) == sets.shape[1] else sets[:, live])
        lowest = scoops.sum(axis=0) + (most - len(sets)) * scoops.min(axis=0)
        live = live[lowest <= more]
    ends = _Ends(limits.rows, slack, sets[:, live], most)
    for first, second in _pairs(limits.rows, known):
        stay = np.flatnonzero(_meet(ends.of(first), ends.of(second)))
        if len(stay) < len(live):
            live = live[stay]
            ends.keep(stay)
    return live


def _pairs(rows: Numbers, known: int) -> list[tuple[int, int]]:
    """Pairs of which a mixture may say more than either: not those that can offset each other."""
    return [
        (first, second)
        for second in range(known, len(rows))
        for first in range(second)
        if (rows[first] + rows[second] > 0).any()
    ]


class _Ends:
    """By how much limits are broken at the ends of sets, worked out when it is asked for."""

    def __init__(self, rows: Numbers, slack: Numbers, sets: Indices, most: int) -> None:
        self.rows, self.slack, self.sets, self.most = rows, slack, sets, most
        self.known: dict[int, Numbers] = {}

    def of(self, number: int) -> Numbers:
        """Of one limit: a row for each end, a column for each set."""
        if number not in self.known:
            ends = self.rows[number].take(self.sets)
            one_of_each = ends.sum(axis=0) - self.slack[number]
            ends *= self.most - len(self.sets)
            ends += one_of_each
            self.known[number] = ends
        return self.known[number]

    def keep(self, stay: Indices) -> None:
        """Forget the other sets."""
        self.sets = self.sets.take(stay, axis=1)
        self.known = {number: ends.take(stay, axis=1) for number, ends in self.known.items()}


def _meet(first: Numbers, second: Numbers) -> NDArray[np.bool_]:
    """Which sets keep to every mixture of two limits, at one end at least.

    The mixture with the share `s` of the second is broken where `first + s (second - first) > 0`:
    an end where the second is broken more asks for a larger share, another one for a smaller.
    """
    share = first - second
    larger = share <= 0
    share -= _TINY
    np.divide(first, share, out=share)
    least = np.where(larger, share, 0).max(axis=0)
    most = np.where(larger, 1, share).min(axis=0)
    kept: NDArray[np.bool_] = least >= most * _NEARLY
    return kept
