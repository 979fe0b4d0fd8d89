"""What a bed misses for every whole number of measures of every recipe.

Straight bags are at their best amount. Those that lift different contents do not get in each
other's way, so each such group is settled by itself; within a group the last bag's best amount is
the least of a convex function.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from math import ceil, floor, inf

import numpy as np

from halfpail.engine.bed_costs import capped_costs_at
from halfpail.engine.figures import Figures, Floats, Side
from halfpail.engine.recipes import Mixes

MOST_MEASURES = 160
"""Tables end here; what a bed could still gain beyond is counted as gained."""

_SLACK = 1e-9


@dataclass(frozen=True, slots=True)
class Group:
    """Straight bags that lift the same contents, their most measures and the lines they touch."""

    bags: tuple[int, ...]
    most: tuple[int, ...]
    lines: tuple[Side, ...]


class BedTable:
    """One bed with the straight bags at hand, each at a price for a measure."""

    def __init__(self, figures: Figures, plot: int, bags: Sequence[int], price: Floats) -> None:
        self.figures, self.price = figures, price
        self.lines = lines = figures.sides[plot]
        parts = _parts(figures, [bag for bag in bags if bag in figures.straight[plot]])
        self.groups = []
        free = list(lines)
        for part in parts:
            touched = {c for bag in part for c in np.flatnonzero(figures.contents[bag] > 0)}
            own = tuple(line for line in lines if line.content in touched)
            most = tuple(_most_straight(figures, bag, own) for bag in part)
            if any(most):
                free = [line for line in free if line.content not in touched]
                self.groups.append(Group(part, most, own))
        self.free = free

    def missed(self, contents: Floats, amounts: Floats) -> Floats:
        """Least missed and straight cost [money] by recipe (rows) and measures (columns)."""
        slopes = {
            line.content: contents[:, line.content, None] * amounts[None, :] for line in self.lines
        }
        total = np.zeros((len(contents), len(amounts)))
        for line in self.free:
            total += line_cost(line, slopes[line.content] / line.scale)
        for group in self.groups:
            total += self._group(group, slopes)
        return total

    def _group(self, group: Group, slopes: dict[int, Floats]) -> Floats:
        *others, last = group.bags
        best = np.full(next(iter(slopes.values())).shape, inf)
        for counts in product(*(range(most + 1) for most in group.most[:-1])):
            given = np.array(counts, dtype=float) @ self.figures.contents[others]
            extra = float(np.array(counts, dtype=float) @ self.price[others])
            got = [
                (slopes[line.content] + given[line.content]) / line.scale for line in group.lines
            ]
            np.minimum(best, extra + self._last(group, last, got), out=best)
        return best

    def _last(self, group: Group, bag: int, got: list[Floats]) -> Floats:
        """Least over whole measures of the last straight bag."""
        steps = [self.figures.contents[bag, ln.content] / ln.scale for ln in group.lines]
        low = np.zeros(got[0].shape)
        high = np.full(got[0].shape, float(group.most[-1]))
        for line, step, have in zip(group.lines, steps, got, strict=True):
            if line.price == inf and step > 0:
                reach = (line.bound - have) / step
                if line.sign < 0:
                    np.maximum(low, np.ceil(reach - _SLACK), out=low)
                else:
                    np.minimum(high, np.floor(reach + _SLACK), out=high)
        possible = low <= high
        fixed = [n for n, step in enumerate(steps) if step <= 0]
        moving = [n for n, step in enumerate(steps) if step > 0 and group.lines[n].price < inf]

        def cost(amount: Floats) -> Floats:
            total: Floats = amount * self.price[bag]
            for n in moving:
                total += line_cost(group.lines[n], got[n] + steps[n] * amount)
            return total

        left, right = np.where(possible, low, 0.0), np.where(possible, high, 0.0)
        for _ in range(int(group.most[-1]).bit_length()):
            middle = np.floor((left + right) / 2)
            rising = cost(middle + 1) >= cost(middle)
            right = np.where(rising, middle, right)
            left = np.where(rising, left, np.minimum(middle + 1, right))
        found: Floats = np.where(possible, cost(left), inf)
        for n in fixed:
            found += line_cost(group.lines[n], got[n])
        return found


def exact_costs(figures: Figures, mixes: Mixes, worth: Floats) -> Floats:
    """What each recipe costs on each bed, straight bags in whole measures too.

    `worth` is money per kilogram of each bag. Where a bed could use more measures than a table
    has, a bound stands in.
    """
    mix_price = mixes.share @ (worth * figures.measure_kg)
    found: Floats = costs_at(figures, mixes, worth, mix_price[None, :])[0]
    return found


def costs_at(figures: Figures, mixes: Mixes, worth: Floats, mix_prices: Floats) -> Floats:
    """The same for several prices of a measure of each recipe (rows of `mix_prices`).

    Straight bags go by their worth. Answers an array by price, recipe and bed.
    """
    found = capped_costs_at(figures, mixes, worth, mix_prices)
    if not any(figures.straight):
        return found
    per_measure = worth * figures.measure_kg
    for plot in range(figures.plots):
        most = most_measures(figures, mixes.contents, plot)
        amounts = np.arange(int(min(most.max(initial=0.0), MOST_MEASURES)) + 1, dtype=float)
        missed = BedTable(figures, plot, figures.straight[plot], per_measure).missed(
            mixes.contents, amounts
        )
        missed[amounts[None, :] > most[:, None]] = inf
        known = most < len(amounts)
        for at, price in zip(found, mix_prices, strict=True):
            at[known, plot] = (missed[known] + price[known, None] * amounts).min(axis=1)
    return found


def line_cost(line: Side, got: Floats) -> Floats:
    """What a bed that gets so much misses of one side of a range [money]; inf where it is hard."""
    over = (got - line.bound) * line.sign
    if line.price == inf:
        cost: Floats = np.where(over > _SLACK, inf, 0.0)
    else:
        cost = line.price * np.maximum(over, 0.0)
    return cost


def _parts(figures: Figures, bags: list[int]) -> list[tuple[int, ...]]:
    """Straight bags put together where they share a content."""
    parts: list[tuple[set[int], list[int]]] = []
    for bag in bags:
        contents = set(np.flatnonzero(figures.contents[bag] > 0).tolist())
        members = [bag]
        apart = []
        for held, group in parts:
            if held & contents:
                contents |= held
                members = group + members
            else:
                apart.append((held, group))
        parts = [*apart, (contents, members)]
    return [tuple(members) for contents, members in parts if contents]


def _most_straight(figures: Figures, bag: int, lines: Sequence[Side]) -> int:
    """Most measures of a straight bag that a bed can use."""
    useful, cap = 0.0, inf
    for line in lines:
        per_measure = figures.contents[bag, line.content] / line.scale
        if per_measure > 0 and line.sign < 0:
            useful = max(useful, line.bound / per_measure)
        elif per_measure > 0 and line.price == inf:
            cap = min(cap, line.bound / per_measure)
    return max(0, min(ceil(useful - _SLACK), floor(cap + _SLACK) if cap < inf else 10**6))


def most_measures(figures: Figures, contents: Floats, plot: int) -> Floats:
    """Most measures of each recipe a bed can use: more breaks a cap, or meets no further need."""
    useful, cap = np.zeros(len(contents)), np.full(len(contents), inf)
    for side in figures.sides[plot]:
        per = contents[:, side.content] / side.scale
        reach = np.full(len(contents), 0.0 if side.sign < 0 else inf)
        np.divide(side.bound, per, out=reach, where=per > 0)
        if side.sign < 0:
            np.maximum(useful, np.ceil(reach - _SLACK), out=useful)
        elif side.price == inf:
            np.minimum(cap, np.floor(reach + _SLACK), out=cap)
    most: Floats = np.minimum(useful, cap)
    return most
