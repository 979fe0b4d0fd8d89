"""One mix: every recipe that could pay, each with a bound that knows whole bags and measures.

A recipe with its number of rounds settles which bags the mix takes. How its measures are shared
out among the beds is a matter of taking the largest gains first. Without straight bags that is
the exact cost; with them their whole bags are bounded and the few best recipes are solved.
"""

from math import inf

import numpy as np

from halfpail.engine.bed_tables import MOST_MEASURES, BedTable, most_measures
from halfpail.engine.figures import Figures, Floats, Wholes
from halfpail.engine.mix_sets import Hand
from halfpail.engine.recipes import Mixes, mixes_of
from halfpail.engine.round_money import Counted, money_of_rounds, round_numbers
from halfpail.engine.search import Search

_CHUNK = 100
_SHARES = (1.0, 0.5, 2.0, 4.0)
"""Prices tried of a straight bag's weight, as shares of what it costs by the bag."""
_MOST_COUNTS = 6


def bounds(
    figures: Figures,
    scoops: Wholes,
    chosen: tuple[int, ...],
    hand: Hand,
    worth: Floats,
    search: Search,
) -> Floats:
    """A lower bound on the best one-mix plan of each recipe of the `chosen` bags with this hand.

    `worth` is money per kilogram of each bag, among the prices tried for straight ones. Where the
    bound is above the cutoff of the search it may be lower than it could be; what a stopped search
    did not come to is unbounded.
    """
    best = np.full(len(scoops), -inf)
    for at in range(0, len(scoops), _CHUNK):
        if search.pace.over():
            break
        mixes = mixes_of(figures, scoops[at : at + _CHUNK])
        best[at : at + _CHUNK] = _bounded(figures, mixes, chosen, hand, worth, search.cutoff)
        search.pace.spend(len(mixes.contents) * figures.plots * 0.01)
    return best


def _bounded(
    figures: Figures,
    mixes: Mixes,
    chosen: tuple[int, ...],
    hand: Hand,
    worth: Floats,
    cutoff: float,
) -> Floats:
    """The best bound over several prices of the straight bags, whose weight is then paid.

    Each number of rounds, and each number of one straight bag, has its own best price.
    """
    f = figures
    straights = {bag for bags in f.straight for bag in bags}
    straight = tuple(sorted({*hand.straight, *chosen} & straights))
    counts = _counts(f, [bag for bag in straight if bag not in hand.closed], hand)
    rounds, beyond = _rounds(f, mixes, chosen, hand, cutoff)
    cells = np.full((len(counts), len(mixes.contents), len(rounds)), -inf)
    found, rows = np.full(len(mixes.contents), -inf), np.arange(len(mixes.contents))
    for share in (None, *_SHARES) if straight else (0.0,):
        paid = np.zeros(f.bags)
        for bag in straight:
            paid[bag] = worth[bag] if share is None else share * f.price[bag] / f.bag_kg[bag]
        missed = _missed(f, mixes.only(rows), straight, paid, rounds)
        for cell, counted in zip(cells, counts, strict=True):
            money = money_of_rounds(f, mixes.scoops[rows], chosen, hand, paid, rounds, counted)
            np.maximum(cell[rows], money + missed, out=money)
            cell[rows] = money
        found[rows] = np.minimum(cells[:, rows].min(axis=(0, 2)), beyond[rows])
        rows = rows[found[rows] < cutoff]
        if not len(rows):
            break
    return found


def _counts(figures: Figures, bought: list[int], hand: Hand) -> list[Counted | None]:
    """Every number of one straight bag that may be bought, if they are few."""
    few = [bag for bag in bought if figures.offered[bag] <= _MOST_COUNTS]
    if not few:
        return [None]
    bag = max(few, key=lambda bag: float(figures.price[bag]))
    least = 1 if bag in hand.opened else 0
    return [(bag, count) for count in range(least, int(figures.offered[bag]) + 1)]


def _rounds(
    figures: Figures, mixes: Mixes, chosen: tuple[int, ...], hand: Hand, cutoff: float
) -> tuple[Floats, Floats]:
    """Numbers of rounds to look at, none among them, and a bound on plans with more by recipe."""
    beyond = np.full(len(mixes.contents), inf)
    if not chosen:
        return np.zeros(1), beyond
    useful = sum(most_measures(figures, mixes.contents, plot) for plot in range(figures.plots))
    most = np.ceil(useful * figures.measure / mixes.scoops.sum(axis=1))
    for rounds in round_numbers():
        money = money_of_rounds(
            figures, mixes.scoops, chosen, hand, np.zeros(figures.bags), rounds
        )[:, -1]
        open_to = rounds[-1] < most
        if not (open_to & (money < cutoff)).any():
            break
    beyond[open_to] = money[open_to]
    return np.arange(rounds[-1] + 1.0), beyond


def _missed(
    figures: Figures, mixes: Mixes, straight: tuple[int, ...], paid: Floats, rounds: Floats
) -> Floats:
    """What the beds miss at least, by recipe and rounds, with straight bags at their price."""
    base, taken, gains = _gains(figures, mixes, straight, paid * figures.measure_kg)
    saved = np.concatenate([np.zeros((len(base), 1)), -np.cumsum(np.sort(-gains), axis=1)], axis=1)
    per_round = mixes.scoops.sum(axis=1) / figures.measure
    left = np.floor(rounds * per_round[:, None] + 1e-9) - taken[:, None]
    place = np.clip(left, 0, saved.shape[1] - 1).astype(int)
    missed = base[:, None] - np.take_along_axis(saved, place, axis=1)
    return np.where(left >= 0, missed, inf)


def _gains(
    figures: Figures, mixes: Mixes, straight: tuple[int, ...], price: Floats
) -> tuple[Floats, Floats, Floats]:
    """What all beds miss at their fewest measures, those measures, and the gain of each more."""
    base, taken = np.zeros(len(mixes.contents)), np.zeros(len(mixes.contents))
    columns = [np.zeros((len(base), 0))]
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
