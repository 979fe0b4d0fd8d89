"""One mix: every recipe that could pay, each with a bound that knows whole bags and measures.

A recipe with its number of rounds settles which bags the mix takes. How its measures are shared
out among the beds is a matter of taking the largest gains first. Without straight bags that is
the exact cost; with them their whole bags are bounded and the few best recipes are solved.
"""

from itertools import combinations
from math import inf

import numpy as np

from halfpail.engine.bed_tables import MOST_MEASURES, BedTable, most_measures
from halfpail.engine.figures import Figures, Floats, Wholes
from halfpail.engine.recipes import Mixes, may_meet, mixes_of, parts

_CHUNK = 400


def supports(figures: Figures, limit: float) -> list[tuple[float, tuple[int, ...]]]:
    """Sets of bags that may share a mix at less than `limit` for a scoop each, cheapest first."""
    lacking = np.array([figures.lacks(bag) for bag in range(figures.bags)], dtype=bool)
    entry = np.where(lacking, figures.price, 0.0)
    bags = [int(i) for i in np.flatnonzero(figures.may_mix & ~(lacking & (figures.offered == 0)))]
    found = []
    for size in range(1, min(figures.problem.most_bags, len(bags)) + 1):
        for chosen in combinations(bags, size):
            cost = float(entry[list(chosen)].sum())
            if cost < limit and may_meet(figures.problem, chosen):
                found.append((cost, chosen))
    return sorted(found)


def recipes_over(figures: Figures, chosen: tuple[int, ...]) -> Wholes:
    """All recipes that hold exactly these bags."""
    shape = parts(len(chosen), figures.problem.most_scoops)
    rows = np.zeros((len(shape), figures.bags), dtype=np.int64)
    rows[:, chosen] = shape
    return rows


def straight_sets(figures: Figures) -> list[tuple[float, tuple[int, ...]]]:
    """Sets of straight bags that might be at hand, with one of each bought where none is there."""
    every = sorted({bag for bags in figures.straight for bag in bags})
    kept = [bag for bag in every if figures.shed_kg[bag] > 0]
    bought = [bag for bag in every if figures.shed_kg[bag] <= 0]
    return [
        (float(figures.price[list(chosen)].sum()), tuple(sorted((*kept, *chosen))))
        for size in range(len(bought) + 1)
        for chosen in combinations(bought, size)
    ]


def bounds(figures: Figures, scoops: Wholes, straight: tuple[int, ...], cutoff: float) -> Floats:
    """A lower bound on the best one-mix plan of each recipe with these straight bags at hand.

    Where it is above `cutoff` it may be lower than it could be.
    """
    best = np.full(len(scoops), inf)
    for at in range(0, len(scoops), _CHUNK):
        mixes = mixes_of(figures, scoops[at : at + _CHUNK])
        best[at : at + _CHUNK] = _bounded(figures, mixes, straight, cutoff)
    return best


def _bounded(figures: Figures, mixes: Mixes, bags: tuple[int, ...], cutoff: float) -> Floats:
    """The bound with these straight bags at hand: free beyond the first bag, or at their price."""
    found = _shared_out(figures, mixes, bags, np.zeros(figures.bags))
    if bags:
        natural = figures.price * figures.measure_kg / figures.bag_kg
        open_rows = found < cutoff
        if open_rows.any():
            priced = _shared_out(figures, mixes.only(open_rows), bags, natural)
            found[open_rows] = np.maximum(found[open_rows], priced)
    return found


def _shared_out(figures: Figures, mixes: Mixes, straight: tuple[int, ...], price: Floats) -> Floats:
    """Least over rounds of money for bags and what the beds miss with so much mix.

    Straight bags cost `price` a measure less what the shed already holds of them, or, at no
    price, one whole bag each.
    """
    priced = bool(price[list(straight)].any()) if straight else False
    base, taken, gains = _gains(figures, mixes, straight, price)
    order = np.sort(-gains, axis=1)
    saved = np.concatenate([np.zeros((len(base), 1)), np.cumsum(-order, axis=1)], axis=1)
    useful = (order < 0).sum(axis=1)
    per_round = mixes.scoops.sum(axis=1) / figures.measure
    needed = np.ceil(np.round((taken + useful) / np.maximum(per_round, 1e-9), 9))
    best = np.full(len(base), inf)
    rounds = 0
    rows = np.flatnonzero(np.isfinite(base))
    nothing = rows[(per_round[rows] == 0) | (taken[rows] == 0)]
    best[nothing] = base[nothing] + _money(figures, mixes, nothing, 0, straight, price, priced)
    rows = rows[per_round[rows] > 0]
    while len(rows):
        rounds += 1
        money = _money(figures, mixes, rows, rounds, straight, price, priced)
        measures = np.floor(rounds * per_round[rows] + 1e-9)
        place = np.clip(measures - taken[rows], 0, saved.shape[1] - 1).astype(int)
        missed = base[rows] - saved[rows, place]
        total = np.where(measures >= taken[rows], money + missed, inf)
        best[rows] = np.minimum(best[rows], total)
        going = (rounds < needed[rows]) & np.isfinite(money)
        rows = rows[going]
    return best


def _gains(
    figures: Figures, mixes: Mixes, straight: tuple[int, ...], price: Floats
) -> tuple[Floats, Floats, Floats]:
    """What all beds miss at their fewest measures, those measures, and the gain of each more."""
    base, taken = np.zeros(len(mixes.contents)), np.zeros(len(mixes.contents))
    columns = []
    for plot in range(figures.plots):
        most = most_measures(figures, mixes.contents, plot)
        width = int(min(most.max(initial=0.0), MOST_MEASURES))
        amounts = np.arange(width + 1, dtype=float)
        table = BedTable(figures, plot, straight, price).missed(mixes.contents, amounts)
        table[amounts[None, :] > most[:, None]] = inf
        np.minimum.accumulate(table, axis=1, out=table)  # a bed need not take all it might
        first = np.isfinite(table).argmax(axis=1)
        start = table[np.arange(len(table)), first]
        beyond = most > width
        start = np.where(beyond & ~np.isfinite(start), 0.0, start)
        base += start
        taken += first
        with np.errstate(invalid="ignore"):
            gain = table[:, :-1] - table[:, 1:]
        gain[~np.isfinite(gain)] = 0.0
        columns.append(gain)
        if beyond.any():
            rest = np.where(np.isfinite(table[:, -1]), table[:, -1], 0.0)
            columns.append(np.where(beyond, rest, 0.0)[:, None])
    return base, taken, np.concatenate(columns, axis=1)


def _money(
    figures: Figures,
    mixes: Mixes,
    rows: np.ndarray,
    rounds: int,
    straight: tuple[int, ...],
    price: Floats,
    priced: bool,
) -> Floats:
    """Least money for the bags of so many rounds; inf where too few are there."""
    f = figures
    used = mixes.scoops[rows] * (rounds * f.measure_kg / f.measure)
    count = np.ceil((used - f.shed_kg) / f.bag_kg - 1e-9)
    count = np.maximum(count, 0.0)
    short = (count > f.offered).any(axis=1)
    rest = np.maximum(used - count * f.bag_kg, 0.0)
    whole = count * f.price
    over = (whole.sum(axis=1) > f.budget * (1 + 1e-9)) if f.budget < inf else np.False_
    with_shed = whole + np.minimum(rest, f.shed_kg) * f.shed_price
    # A dearer shed may be spared by one more bag; the cheaper of the two is a bound.
    spared = np.ceil(used / f.bag_kg - 1e-9) * f.price
    money = np.where(f.shed_price > 0, np.minimum(with_shed, spared), with_shed)
    for bag in straight:
        if priced:
            unit = price[bag] / f.measure_kg[bag]
            money[:, bag] = unit * (used[:, bag] - f.shed_kg[bag])
        elif f.shed_kg[bag] <= 0:
            money[:, bag] = np.maximum(money[:, bag], f.price[bag])
    total = money.sum(axis=1)
    return np.where(short | over, inf, total)
