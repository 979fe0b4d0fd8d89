"""A bound on a single mix that knows whole rounds and whole bags, and asks no table of the beds.

Where measures of the mix have a price, the beds no longer share anything; whatever the price, what
the beds then miss and pay, less the price of all that is stirred, is never more than what they
miss. So for each number of rounds the best of a few prices is a bound, and the bags of so many
rounds cost what they cost. Straight bags go by their worth.
"""

from collections.abc import Iterator
from math import inf

import numpy as np

from halfpail.engine.bed_costs import capped_costs_at
from halfpail.engine.figures import Figures, Floats, Wholes
from halfpail.engine.one_mix import Hand, bag_money, fewest_bags
from halfpail.engine.recipes import Mixes

_PRICES = (0.0, 0.5, 1.0, 2.0)
"""Prices of a measure tried, as shares of what its bags are worth; nought must be among them."""
_ROUNDS = 8
"""Numbers of rounds looked at together."""
_CLOSE = 1e-9


def bounds_by_rounds(
    figures: Figures,
    mixes: Mixes,
    chosen: tuple[int, ...],
    hand: Hand,
    worth: Floats,
    cutoff: float,
) -> Floats:
    """A bound for each recipe of the `chosen` bags with this hand: inf where bags are too few.

    `worth` is money per kilogram of each bag. Where the bound is above the cutoff it may be lower
    than it could be.
    """
    found = np.full(len(mixes.scoops), inf)
    natural = mixes.share @ (worth * figures.measure_kg)
    prices = np.array(_PRICES)[:, None] * natural
    beds = capped_costs_at(figures, mixes, worth, prices).sum(axis=2)
    per_round = mixes.scoops.sum(axis=1) / figures.measure
    rows = np.arange(len(found))
    for rounds in _rounds():
        money = _money(figures, mixes.scoops[rows], chosen, hand, worth, rounds)
        measures = np.floor(rounds * per_round[rows, None] + _CLOSE)
        missed = beds[0, rows, None].repeat(len(rounds), axis=1)
        for bed, price in zip(beds[1:], prices[1:], strict=True):
            np.maximum(missed, bed[rows, None] - price[rows, None] * measures, out=missed)
        found[rows] = np.minimum(found[rows], (money + missed).min(axis=1))
        # More rounds cost no less and can do no better than to miss what is missed for nothing.
        beyond = money[:, -1] + beds[0, rows]
        over = beyond >= np.minimum(found[rows], cutoff)
        found[rows[over]] = np.minimum(found[rows[over]], beyond[over])
        rows = rows[~over]
        if not len(rows):
            break
    return found


def _rounds() -> Iterator[Floats]:
    start = 1
    while True:
        yield np.arange(start, start + _ROUNDS, dtype=float)
        start += _ROUNDS


def _money(
    figures: Figures,
    scoops: Wholes,
    chosen: tuple[int, ...],
    hand: Hand,
    worth: Floats,
    rounds: Floats,
) -> Floats:
    """Least money for the bags by recipe and rounds; a straight bag is paid for what it is worth.

    It never falls with the rounds, and is inf where too few bags are there or can be paid.
    """
    f = figures
    straights = {bag for bags in f.straight for bag in bags}
    money, spent = np.zeros((2, len(scoops), len(rounds)))
    for bag in {*chosen, *hand.straight}:
        used = scoops[:, bag, None] * (rounds * f.measure_kg[bag] / f.measure)
        count = fewest_bags(f, used, bag)
        offered = 0 if bag in hand.closed else f.offered[bag]
        if bag in straights:
            count = np.maximum(count, 1.0 if bag in hand.opened else 0.0)
            each = f.price[bag] - worth[bag] * f.bag_kg[bag]
            shed = min(0.0, f.shed_price[bag] - worth[bag]) * f.shed_kg[bag]
            bought = each * (count if each > 0 else np.maximum(count, offered))
            cost = bought + shed + worth[bag] * used
        else:
            cost = bag_money(f, used, count, bag)
        money += np.where(count > offered, inf, cost)
        spent += count * f.price[bag]
    money[spent > f.budget * (1 + _CLOSE)] = inf
    return money
