"""What each recipe costs on each bed when the bags have prices: one matrix, no solver.

With a price on every kilogram of every bag the beds no longer share anything. The best whole
number of measures of one mix on one bed is then the least of a convex function of one number.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import inf

import numpy as np

from halfpail.engine.figures import Figures, Floats, Side
from halfpail.engine.recipes import Mixes

_SLACK = 1e-9


def capped_costs(
    figures: Figures, mixes: Mixes, worth: Floats, mix_price: Floats | None = None
) -> Floats:
    """A bound on what each recipe costs on each bed (inf where it cannot serve it).

    `worth` is money per kilogram of each bag. Straight bags only cap what a short-fall may cost,
    which is never too much; without straight bags the bound is the least cost itself. A measure
    of a recipe costs `mix_price`, or what its bags are worth.
    """
    per_measure = worth * figures.measure_kg
    if mix_price is None:
        mix_price = mixes.share @ per_measure
    table = np.full((len(mix_price), figures.plots), -inf)
    for plot in range(figures.plots):
        for sides in _capped(figures, plot, per_measure):
            np.maximum(table[:, plot], _least(mixes, mix_price, sides), out=table[:, plot])
    return table


def _capped(figures: Figures, plot: int, per_measure: Floats) -> Iterator[list[Side]]:
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
        yield [replace(side, price=price[n]) for n, side in enumerate(sides)]


def _least(mixes: Mixes, mix_price: Floats, lines: Sequence[Side]) -> Floats:
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


def _range(mixes: Mixes, lines: Sequence[Side]) -> tuple[Floats, Floats]:
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
