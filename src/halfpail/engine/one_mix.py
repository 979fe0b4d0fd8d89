"""One mix: every recipe that could pay, each with a bound that knows whole bags and measures.

A recipe with its number of rounds settles which bags the mix takes. How its measures are shared
out among the beds is a matter of taking the largest gains first. Without straight bags that is
the exact cost; with them their whole bags are bounded and the few best recipes are solved.
"""

from collections.abc import Collection
from dataclasses import dataclass
from itertools import combinations
from math import inf

import numpy as np

from halfpail.engine.bed_tables import MOST_MEASURES, BedTable, most_measures
from halfpail.engine.figures import Figures, Floats, Wholes
from halfpail.engine.recipes import Mixes, may_meet, mixes_of, parts
from halfpail.engine.search import Search

_CHUNK = 100
_EVERY = slice(None)


def supports(
    figures: Figures, limit: float, only: Collection[int] | None = None
) -> list[tuple[float, tuple[int, ...]]]:
    """Sets of bags that may share a mix at less than `limit` for a scoop each, cheapest first."""
    lacking = np.array([figures.lacks(bag) for bag in range(figures.bags)], dtype=bool)
    entry = np.where(lacking, figures.price, 0.0)
    mixable = figures.may_mix & ~(lacking & (figures.offered == 0))
    bags = [int(i) for i in np.flatnonzero(mixable) if only is None or int(i) in only]
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


@dataclass(frozen=True, slots=True, order=True)
class Hand:
    """Straight bags at hand beside a mix, and how: bought, or only in the shed.

    A bag that is mixed stands here only if the shed holds some of it; else it is bought anyhow.
    """

    money: float
    opened: tuple[int, ...]
    closed: tuple[int, ...]

    @property
    def straight(self) -> tuple[int, ...]:
        """All of them."""
        return (*self.opened, *self.closed)


def hands(figures: Figures, chosen: tuple[int, ...]) -> list[Hand]:
    """Every way of having straight bags at hand where the `chosen` bags are mixed."""
    bought_anyhow = {bag for bag in chosen if figures.shed_kg[bag] <= 0}
    every = sorted({bag for bags in figures.straight for bag in bags} - bought_anyhow)
    kept = [bag for bag in every if figures.shed_kg[bag] > 0]
    on_offer = [bag for bag in every if figures.offered[bag] > 0]
    return [
        Hand(
            float(figures.price[list(opened)].sum()),
            opened,
            tuple(bag for bag in kept if bag not in opened),
        )
        for size in range(len(on_offer) + 1)
        for opened in combinations(on_offer, size)
    ]


def bounds(
    figures: Figures,
    scoops: Wholes,
    chosen: tuple[int, ...],
    hand: Hand,
    search: Search,
) -> Floats:
    """A lower bound on the best one-mix plan of each recipe of the `chosen` bags with this hand.

    Where it is above the cutoff of the search it may be lower than it could be; what a stopped
    search did not come to is unbounded.
    """
    best = np.full(len(scoops), -inf)
    for at in range(0, len(scoops), _CHUNK):
        if search.pace.over():
            break
        mixes = mixes_of(figures, scoops[at : at + _CHUNK])
        best[at : at + _CHUNK] = _bounded(figures, mixes, chosen, hand, search.cutoff)
        search.pace.spend(len(mixes.contents) * figures.plots * 0.01)
    return best


def _bounded(
    figures: Figures, mixes: Mixes, chosen: tuple[int, ...], hand: Hand, cutoff: float
) -> Floats:
    """The best bound of several prices for a measure of the straight bags.

    What is bought is free beyond its first bag, or costs its share of a bag. What is only in the
    shed may be priced at will: the price of all that is there is taken off again.
    """
    natural = figures.price * figures.measure_kg / figures.bag_kg
    straights = {bag for bags in figures.straight for bag in bags}
    mixed = [bag for bag in chosen if bag in straights and bag not in hand.straight]
    bought, closed = [*hand.opened, *mixed], list(hand.closed)
    found = np.full(len(mixes.contents), -inf)
    for of_opened, of_closed in ((0.0, 1.0), (1.0, 1.0), (0.0, 4.0)):
        rows = found < cutoff
        price = np.zeros(figures.bags)
        price[bought] = of_opened * natural[bought]
        price[closed] = of_closed * natural[closed]
        if rows.any():
            told = _shared_out(figures, mixes.only(rows), (*hand.straight, *mixed), hand, price)
            found[rows] = np.maximum(found[rows], told)
        if not hand.straight and not mixed:
            break
    return found


def _shared_out(
    figures: Figures, mixes: Mixes, straight: tuple[int, ...], hand: Hand, price: Floats
) -> Floats:
    """Least over rounds of money for bags and what the beds miss with so much mix."""
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
    best[nothing] = base[nothing] + _money(figures, mixes, nothing, 0, hand, price)
    rows = rows[per_round[rows] > 0]
    while len(rows):
        rounds += 1
        money = _money(figures, mixes, rows, rounds, hand, price)
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


def _money(
    figures: Figures, mixes: Mixes, rows: np.ndarray, rounds: int, hand: Hand, price: Floats
) -> Floats:
    """Least money for the bags of so many rounds; inf where too few are there."""
    f = figures
    used = mixes.scoops[rows] * (rounds * f.measure_kg / f.measure)
    count = fewest_bags(f, used)
    offered = f.offered.copy()
    offered[list(hand.closed)] = 0
    short = (count > offered).any(axis=1)
    spent = (count * f.price).sum(axis=1)
    over = (spent > f.budget * (1 + 1e-9)) if f.budget < inf else np.False_
    money = bag_money(f, used, count)
    for bag in range(f.bags):
        if price[bag] > 0:
            money[:, bag] = price[bag] / f.measure_kg[bag] * (used[:, bag] - f.shed_kg[bag])
        elif bag in hand.opened:
            money[:, bag] = np.maximum(money[:, bag], f.price[bag])
    total = money.sum(axis=1)
    return np.where(short | over, inf, total)


def fewest_bags(figures: Figures, used_kg: Floats, bag: int | slice = _EVERY) -> Floats:
    """Fewest bags to buy where so much is used, of each bag or of one."""
    f = figures
    count: Floats = np.ceil((used_kg - f.shed_kg[bag]) / f.bag_kg[bag] - 1e-9)
    return np.maximum(count, 0.0)


def bag_money(
    figures: Figures, used_kg: Floats, fewest: Floats, bag: int | slice = _EVERY
) -> Floats:
    """Least money for what is used, of each bag or of one, where at least the `fewest` are bought.

    Where what is in the shed has a price too, more bags may spare it: as far as they are used up,
    or one more.
    """
    size, price, shed = figures.bag_kg[bag], figures.price[bag], figures.shed_price[bag]

    def money(count: Floats) -> Floats:
        rest = np.clip(used_kg - count * size, 0.0, figures.shed_kg[bag])
        total: Floats = count * price + rest * shed
        return total

    least = money(fewest)
    if np.any(shed > 0):
        whole = np.floor(used_kg / size + 1e-9)
        for count in (whole, whole + 1.0):
            np.minimum(least, money(np.maximum(count, fewest)), out=least)
    return least
