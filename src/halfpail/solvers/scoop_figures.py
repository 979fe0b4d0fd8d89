"""A recipe problem in floating point: sums over scoops that may be at most nought, or a hair above.

Demands are such sums. So is what a recipe may cost and how far it may be off: to cost at most `c`,
its sum of `cost - c * cost_per` may be at most nought.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import inf
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from halfpail.blending.scoops import ScoopProblem, whole_numbers

Numbers = NDArray[np.float64]
Indices = NDArray[np.intp]
Whole = NDArray[np.int16]

HAIR = 1e-9
_EXACT = 2**53


class Window(NamedTuple):
    """What a recipe may cost at most, and how far it may be off; `inf` where it may be anything."""

    cost: float = inf
    distance: float = inf


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """Sums over scoops, a row of figures for each: what is above `slack` is too much for certain.

    `slack` is nought where the sums come out exactly; what is above `-slack` is on the edge.
    """

    rows: Numbers
    slack: Numbers

    def __len__(self) -> int:
        return len(self.rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """The problem in floating point.

    `demands` are in whole numbers, so that most come out exactly; `bounds` are the same on the
    scale of the misses, but for those that another one implies.
    """

    demands: Limits
    bounds: Limits
    cost: Numbers
    cost_per: Numbers
    misses: Numbers
    miss_per: Numbers
    cost_hair: float
    distance_hair: float

    def within(self, window: Window) -> Limits:
        """What keeps a recipe in a window."""
        rows = [np.zeros((0, len(self.cost)))]
        if window.cost < inf:
            rows.append((self.cost - window.cost * self.cost_per)[None])
        if window.distance < inf:
            off = window.distance * self.miss_per
            rows += [self.misses - off, -self.misses - off]
        return _with_a_hair(np.vstack(rows))

    def bounds_beside(self, limits: Limits) -> Limits:
        """The demands that a recipe within these limits may still fail."""
        open_ones = [n for n, row in enumerate(self.bounds.rows) if not _implied(row, limits.rows)]
        return Limits(rows=self.bounds.rows[open_ones], slack=self.bounds.slack[open_ones])


def figures_of(problem: ScoopProblem) -> Figures:
    """Cost is counted above the cheapest bag, so that equal prices tie; that changes no order."""
    rows = [whole_numbers(demand.per_scoop) for demand in problem.demands]
    largest = [max(map(abs, row), default=0) for row in rows]
    slack = [0 if most * problem.most_scoops < _EXACT else HAIR * most for most in largest]
    priced = [c / q for c, q in zip(problem.cost, problem.cost_per, strict=True) if q]
    least = min(priced, default=Fraction(0))
    above = [c - least * q for c, q in zip(problem.cost, problem.cost_per, strict=True)]
    width = len(problem.bags)
    return Figures(
        demands=Limits(rows=_matrix(rows, width), slack=np.array(slack, dtype=float)),
        bounds=_with_a_hair(_bounds(problem)),
        cost=np.array(above, dtype=float),
        cost_per=np.array(problem.cost_per, dtype=float),
        misses=_matrix(problem.misses, width),
        miss_per=np.array(problem.miss_per, dtype=float),
        cost_hair=_hair(above, problem.cost_per),
        distance_hair=max((_hair(row, problem.miss_per) for row in problem.misses), default=0.0),
    )


def _hair(above: Sequence[Fraction], below: Sequence[Fraction]) -> float:
    """What is too little to tell two quotients apart by: a small part of the largest there is."""
    largest = max(map(abs, above)) / (max(below) or 1)
    single = (abs(a / b) for a, b in zip(above, below, strict=True) if b)
    return HAIR * float(max((largest, *single)))


def _bounds(problem: ScoopProblem) -> Numbers:
    """The demands, each once, without those that another one implies."""
    figures = dict.fromkeys(demand.per_scoop for demand in problem.demands)
    rows = _matrix(list(figures), len(problem.bags))
    others = (np.delete(rows, number, axis=0) for number in range(len(rows)))
    return rows[[not _implied(row, rest) for row, rest in zip(rows, others, strict=True)]]


def _implied(row: Numbers, rows: Numbers) -> bool:
    """Whether one of the rows is never below this one, and so says at least as much."""
    return bool((row <= rows).all(axis=1).any())


def _with_a_hair(rows: Numbers) -> Limits:
    return Limits(rows=rows, slack=HAIR * np.abs(rows).max(axis=1, initial=0))


def _matrix(rows: object, width: int) -> Numbers:
    return np.array(rows, dtype=float).reshape(-1, width)
