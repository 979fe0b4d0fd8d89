"""What each recipe costs on each bed when the bags have prices: one matrix, no solver.

With a price on every kilogram of every bag the beds no longer share anything. The best whole
number of measures of one mix on one bed is then the least of a convex function of one number.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from math import ceil, floor, inf

import numpy as np

from halfpail.engine.figures import Figures, Floats, Side, Wholes

MOST_STRAIGHT_PLANS = 150
"""Beyond so many ways of giving straight bags to one bed, only the cheaper bound is used."""

_SLACK = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixes:
    """Recipes with their contents and bag shares in one measure."""

    scoops: Wholes
    share: Floats
    contents: Floats

    def only(self, rows: np.ndarray) -> "Mixes":
        """The recipes in these rows."""
        return Mixes(scoops=self.scoops[rows], share=self.share[rows], contents=self.contents[rows])


def mixes_of(figures: Figures, scoops: Wholes) -> Mixes:
    """Contents and shares of recipes given as rows of scoops; a row of noughts is no mix."""
    share = scoops / np.maximum(scoops.sum(axis=1, keepdims=True), 1)
    return Mixes(scoops=scoops, share=share, contents=share @ figures.contents)


def bed_costs(figures: Figures, mixes: Mixes, worth: Floats, *, exact: bool) -> Floats:
    """Least priced cost of each recipe on each bed (inf where it cannot serve it).

    `worth` is money per kilogram of each bag. Straight bags are given in whole measures when
    `exact`, else their worth only caps what a short-fall may cost, which is never too much.
    """
    per_measure = worth * figures.measure_kg
    mix_price = mixes.share @ per_measure
    table = np.full((len(mix_price), figures.plots), inf)
    for plot in range(figures.plots):
        if exact and straight_plans(figures, plot) <= MOST_STRAIGHT_PLANS:
            for given, cost in _straight_choices(figures, plot, per_measure):
                found = cost + _least(mixes, mix_price, _rest(figures.sides[plot], given))
                np.minimum(table[:, plot], found, out=table[:, plot])
        else:
            found = np.full(len(mix_price), -inf)
            for sides in _capped(figures, plot, per_measure):
                np.maximum(found, _least(mixes, mix_price, sides), out=found)
            table[:, plot] = found
    return table


def straight_plans(figures: Figures, plot: int) -> int:
    """How many ways there are to give straight bags to a bed."""
    total = 1
    for bag in figures.straight[plot]:
        total *= _most_straight(figures, bag, plot) + 1
    return total


def _most_straight(figures: Figures, bag: int, plot: int) -> int:
    """Most measures of a straight bag that a bed can use."""
    useful, cap = 0.0, inf
    for side in figures.sides[plot]:
        per_measure = figures.contents[bag, side.content] / side.scale
        if per_measure > 0 and side.sign < 0:
            useful = max(useful, side.bound / per_measure)
        elif per_measure > 0 and side.price == inf:
            cap = min(cap, side.bound / per_measure)
    return max(0, min(ceil(useful - _SLACK), floor(cap + _SLACK) if cap < inf else 10**6))


def _straight_choices(
    figures: Figures, plot: int, per_measure: Floats
) -> Iterator[tuple[Floats, float]]:
    """Every way of giving straight bags: contents given and what it costs."""
    bags = list(figures.straight[plot])
    ranges = [range(_most_straight(figures, bag, plot) + 1) for bag in bags]
    for counts in product(*ranges):
        times = np.array(counts, dtype=float)
        yield times @ figures.contents[bags], float(times @ per_measure[bags])


@dataclass(frozen=True, slots=True)
class _Line:
    """One side of a range as the matrix sees it."""

    content: int
    scale: float
    sign: int
    bound: float
    price: float


def _rest(sides: Sequence[Side], given: Floats) -> list[_Line]:
    """The sides that are left once straight bags have given their contents."""
    return [
        _Line(s.content, s.scale, s.sign, s.bound - float(given[s.content]) / s.scale, s.price)
        for s in sides
    ]


def _capped(figures: Figures, plot: int, per_measure: Floats) -> Iterator[list[_Line]]:
    """Sides whose short-fall price is capped by the worth of straight bags, one split at a time.

    Any split of a straight bag's worth over the sides it lifts gives a bound that is not too
    high: all to one side first, what is left to the others in turn, and an even split.
    """
    sides, bags = figures.sides[plot], figures.straight[plot]
    lower = [n for n, side in enumerate(sides) if side.sign < 0]
    lifts = {
        n: {
            bag: figures.contents[bag, sides[n].content] / sides[n].scale
            for bag in bags
            if figures.contents[bag, sides[n].content] > 0
        }
        for n in lower
    }
    lifted = [n for n in lower if lifts[n]]
    orders = [[n, *(m for m in lifted if m != n)] for n in lifted] or [[]]
    for order in orders:
        left = {bag: float(per_measure[bag]) for bag in bags}
        price = {n: side.price for n, side in enumerate(sides)}
        for n in order:
            price[n] = min(
                price[n], min(max(left[bag], 0.0) / lift for bag, lift in lifts[n].items())
            )
            for bag, lift in lifts[n].items():
                left[bag] -= price[n] * lift
        yield [_Line(s.content, s.scale, s.sign, s.bound, price[n]) for n, s in enumerate(sides)]


def _least(mixes: Mixes, mix_price: Floats, lines: Sequence[_Line]) -> Floats:
    """Least over whole measures of mix price and misses, for every recipe at once."""
    low, high = _range(mixes, lines)
    possible = np.isfinite(low) & (low <= high)
    if not possible.any():
        return np.full(len(mix_price), inf)
    soft = [line for line in lines if line.price < inf]
    per = [mixes.contents[:, line.content] / line.scale for line in soft]

    def cost(amount: Floats) -> Floats:
        total = mix_price * amount
        for line, slope in zip(soft, per, strict=True):
            if line.sign < 0:
                total += line.price * np.maximum(line.bound - slope * amount, 0.0)
            else:
                total += line.price * np.maximum(slope * amount - line.bound, 0.0)
        return total

    left, right = np.where(possible, low, 0.0), np.where(possible, high, 0.0)
    while (left < right).any():
        middle = np.floor((left + right) / 2)
        rising = cost(middle + 1) >= cost(middle)
        right = np.where(rising, middle, right)
        left = np.where(rising, left, np.minimum(middle + 1, right))
    return np.where(possible, cost(left), inf)


def _range(mixes: Mixes, lines: Sequence[_Line]) -> tuple[Floats, Floats]:
    """Fewest and most whole measures that hard sides allow; more than any need is never of use."""
    count = len(mixes.contents)
    low, high, useful = np.zeros(count), np.full(count, inf), np.zeros(count)
    for line in lines:
        slope = mixes.contents[:, line.content] / line.scale
        reach = np.full(count, inf if line.bound > _SLACK else 0.0)
        np.divide(line.bound, slope, out=reach, where=slope > 0)
        if line.sign < 0:
            np.maximum(useful, np.where(slope > 0, np.ceil(reach - _SLACK), 0.0), out=useful)
            if line.price == inf:
                np.maximum(low, np.ceil(reach - _SLACK), out=low)
        elif line.price == inf:
            if line.bound < -_SLACK:
                high[:] = -1.0
            else:
                above = np.where(slope > 0, np.floor(reach + _SLACK), inf)
                np.minimum(high, above, out=high)
    return low, np.minimum(high, np.maximum(useful, low))
