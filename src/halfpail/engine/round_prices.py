"""A bound on a single mix that knows whole rounds and whole bags, and asks no table of the beds.

Where measures of the mix have a price, the beds no longer share anything; whatever the price, what
the beds then miss and pay, less the price of all that is stirred, is never more than what they
miss. So for each number of rounds the best of a few prices is a bound, and the bags of so many
rounds cost what they cost. Straight bags go by their worth.
"""

from math import inf

import numpy as np

from halfpail.engine.bed_costs import capped_costs_at
from halfpail.engine.figures import Figures, Floats
from halfpail.engine.mix_sets import Hand
from halfpail.engine.recipes import Mixes
from halfpail.engine.round_money import money_of_rounds, round_numbers

_PRICES = (0.0, 0.5, 1.0, 2.0)
"""Prices of a measure tried, as shares of what its bags are worth; nought must be among them."""
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
    for rounds in round_numbers():
        money = money_of_rounds(figures, mixes.scoops[rows], chosen, hand, worth, rounds)
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
