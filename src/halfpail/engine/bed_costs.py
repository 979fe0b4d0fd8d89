"""What each recipe costs on each bed when the bags have prices: one matrix, no solver.

With a price on every kilogram of every bag the beds no longer share anything. The best whole
number of measures of one mix on one bed is then the least of a convex function of one number,
which bends only where a side of a range is just met: the least is at one of those places, rounded
down or up, or at an end. So many prices of a mix cost little more than one.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf

import numpy as np

from halfpail.engine.capped_prices import capped_prices
from halfpail.engine.figures import Figures, Floats, Side, Wholes
from halfpail.engine.recipes import Mixes

_SLACK = 1e-9
_BLOCK = 4096
"""Numbers of an array at a time: what the nearest memory of a processor holds of a few of them."""
_IDLE = (0, 1.0, 0.0, 1.0, 0.0)


@dataclass(frozen=True, slots=True)
class _Lines:
    """Sides of beds by place and bed; a bed with few of them has idle ones besides.

    A bed stands here once for each way of capping its prices.
    """

    plot: Wholes
    content: Wholes
    scale: Floats
    bound: Floats
    sign: Floats
    price: Floats

    def only(self, beds: slice) -> "_Lines":
        """The lines of some of the beds."""
        return _Lines(
            self.plot[beds],
            self.content[:, beds],
            self.scale[:, beds],
            self.bound[:, beds],
            self.sign[:, beds],
            self.price[:, beds],
        )


def capped_costs(
    figures: Figures, mixes: Mixes, worth: Floats, mix_price: Floats | None = None
) -> Floats:
    """A bound on what each recipe costs on each bed (inf where it cannot serve it).

    `worth` is money per kilogram of each bag. Straight bags only cap what a short-fall may cost,
    which is never too much; without straight bags the bound is the least cost itself. A measure
    of a recipe costs `mix_price`, or what its bags are worth.
    """
    if mix_price is None:
        mix_price = mixes.share @ (worth * figures.measure_kg)
    found: Floats = capped_costs_at(figures, mixes, worth, mix_price[None, :])[0]
    return found


def capped_costs_at(figures: Figures, mixes: Mixes, worth: Floats, mix_prices: Floats) -> Floats:
    """The same for several prices of a measure of each recipe (rows of `mix_prices`).

    Answers an array by price, recipe and bed.
    """
    table = np.full((len(mix_prices), figures.plots, len(mixes.contents)), -inf)
    lines = _lines(figures, worth * figures.measure_kg)
    for recipes, beds in _blocks(len(mixes.contents), len(lines.plot)):
        here = lines.only(beds)
        least = _least(here, mixes.contents[recipes].T, mix_prices[:, recipes])
        for place, plot in enumerate(here.plot):
            part = table[:, plot, recipes]
            np.maximum(part, least[:, place], out=part)
    return table.transpose(0, 2, 1)


def _lines(figures: Figures, per_measure: Floats) -> _Lines:
    beds = [
        (plot, [_line(side, price) for side, price in zip(sides, prices, strict=True)])
        for plot, sides in enumerate(figures.sides)
        for prices in capped_prices(figures, plot, per_measure)
    ]
    most = max((len(lines) for _, lines in beds), default=0) or 1
    rows = [[*sorted(lines, key=_is_hard), *[_IDLE] * (most - len(lines))] for _, lines in beds]
    table = np.array(rows, dtype=float).reshape(len(beds), most, 5)
    content, scale, bound, sign, price = table.transpose(2, 1, 0)
    plots = np.array([plot for plot, _ in beds], dtype=np.int64)
    return _Lines(plots, content.astype(np.int64), scale, bound, sign, price)


def _line(side: Side, price: float) -> tuple[float, float, float, float, float]:
    return (side.content, side.scale, side.bound, side.sign, price)


def _is_hard(line: tuple[float, float, float, float, float]) -> bool:
    return line[-1] == inf


def _blocks(recipes: int, beds: int) -> Iterator[tuple[slice, slice]]:
    """All recipes by all beds, a block at a time."""
    high = max(1, min(recipes, _BLOCK))
    wide = max(1, _BLOCK // high)
    for top in range(0, recipes, high):
        for left in range(0, beds, wide):
            yield slice(top, min(top + high, recipes)), slice(left, min(left + wide, beds))


def _least(lines: _Lines, contents: Floats, mix_prices: Floats) -> Floats:
    """Least over whole measures of mix price and misses: by price, bed and recipe."""
    slopes = contents[lines.content] / lines.scale[:, :, None]
    reaches = np.where(lines.bound > _SLACK, inf, 0.0)[:, :, None].repeat(contents.shape[1], axis=2)
    np.divide(lines.bound[:, :, None], slopes, out=reaches, where=slopes > 0)
    low, high = _range(lines, slopes, reaches)
    possible = np.isfinite(low) & (low <= high)
    low, high = np.where(possible, low, 0.0), np.where(possible, high, 0.0)
    price = np.where(lines.price < inf, lines.price, 0.0) * lines.sign
    soft = np.flatnonzero(price.any(axis=1))
    slopes, bounds = slopes[soft] * price[soft, :, None], (lines.bound * price)[soft, :, None]
    best = np.full((len(mix_prices), *low.shape), inf)
    for amount in _amounts(low, high, reaches[soft]):
        missed = np.zeros(low.shape)
        for slope, bound in zip(slopes, bounds, strict=True):
            miss = slope * amount
            miss -= bound
            missed += np.maximum(miss, 0.0, out=miss)
        for at, mix_price in zip(best, mix_prices, strict=True):
            np.minimum(at, missed + mix_price * amount, out=at)
    best[:, ~possible] = inf
    return best


def _amounts(low: Floats, high: Floats, reaches: Floats) -> Iterator[Floats]:
    """Whole measures one of which is the best: both ends, and where a line bends or next to it."""
    yield low
    yield high
    for reach in reaches:
        below = np.floor(reach)
        yield np.clip(below, low, high)
        yield np.clip(below + 1.0, low, high)


def _range(lines: _Lines, slopes: Floats, reaches: Floats) -> tuple[Floats, Floats]:
    """Fewest and most whole measures that hard sides allow; more than any need is never of use."""
    shape = slopes.shape[1:]
    low, high, useful = np.zeros(shape), np.full(shape, inf), np.zeros(shape)
    lower, hard = lines.sign[:, :, None] < 0, lines.price[:, :, None] == inf
    for n, (slope, reach) in enumerate(zip(slopes, reaches, strict=True)):
        if lower[n].any():
            need = np.ceil(reach - _SLACK)
            np.maximum(useful, np.where(lower[n] & (slope > 0), need, 0.0), out=useful)
            np.maximum(low, np.where(lower[n] & hard[n], need, 0.0), out=low)
        if (hard[n] & ~lower[n]).any():
            above = np.where(slope > 0, np.floor(reach + _SLACK), inf)
            above[lines.bound[n] < -_SLACK] = -1.0
            np.minimum(high, np.where(hard[n] & ~lower[n], above, inf), out=high)
    return low, np.minimum(high, np.maximum(useful, low))
