"""What a choice of mixes costs at least when each is stirred in whole rounds out of one basket.

With the rounds known, what they take out of the bags is known exactly, and a measure of each mix
may have any price: whatever the price, the beds together get no more than is stirred. Each recipe
is priced on every bed at a few prices once; the highest bound over these prices counts.
"""

from collections.abc import Callable

import numpy as np

from halfpail.engine.bed_tables import costs_at, most_measures
from halfpail.engine.figures import Figures, Floats, Wholes
from halfpail.engine.recipes import Mixes
from halfpail.engine.stock import Stock

_PRICES = {
    1: (0.0, 0.25, 0.5, 0.75, 1.0, 1.3, 1.75, 2.5, 4.0, 8.0),
    2: (0.0, 0.25, 0.5, 0.75, 1.0, 1.3, 1.75, 2.5, 4.0, 8.0),
    3: (0.0, 0.5, 1.0, 1.75, 4.0),
}
"""Prices of a measure by the number of mixes, in what its bags are worth."""

_LEAST_PRICE = 0.25
"""Of the middle one: a mix of bags worth nothing is priced by this."""

_AT_ONCE = 400_000


class WholeRounds:
    """Bounds on choices of the recipes of `mixes`, for as many mixes as the problem has."""

    def __init__(self, figures: Figures, mixes: Mixes, stock: Stock, worth: Floats) -> None:
        self.stock, self.scoops = stock, mixes.scoops
        size = mixes.scoops.sum(axis=1)
        worth_each = mixes.share @ (worth * figures.measure_kg)
        some = worth_each[worth_each > 0]
        middle = float(np.median(some)) if some.size else 1.0
        unit = np.maximum(worth_each, _LEAST_PRICE * middle)
        steps = np.array(_PRICES[min(figures.problem.mixes, max(_PRICES))])
        prices = steps[:, None] * unit
        prices[steps == 1.0] = worth_each
        self.beds = costs_at(figures, mixes, worth, prices)
        per_round = mixes.scoops @ stock.scoop_price
        self.round_cost = per_round - prices * size / figures.measure
        self.most = self._most_rounds(figures, mixes)

    def _most_rounds(self, figures: Figures, mixes: Mixes) -> Wholes:
        """Most rounds that the stock allows and all beds together can use."""
        there = np.where(mixes.scoops > 0, self.stock.scoops // np.maximum(mixes.scoops, 1), 10**6)
        useful = sum(most_measures(figures, mixes.contents, b) for b in range(figures.plots))
        size = np.maximum(mixes.scoops.sum(axis=1), 1)
        wanted = np.ceil(np.asarray(useful) * figures.measure / size - 1e-9)
        most: Wholes = np.minimum(there.min(axis=1), wanted).astype(np.int64)
        return np.where(mixes.scoops.sum(axis=1) > 0, most, 0)

    def bounds(self, choices: Wholes, go_on: Callable[[], None]) -> Floats:
        """The least of each choice (rows of recipe numbers) over all its whole rounds.

        `go_on` is called now and then and may raise.
        """
        found = np.full(len(choices), np.inf)
        ways = int((self.most[choices][:, :-1] + 1).prod(axis=1).max(initial=1))
        step = max(1, _AT_ONCE // (ways * len(self.beds) ** choices.shape[1]))
        for start in range(0, len(choices), step):
            go_on()
            found[start : start + step] = self._bounds(choices[start : start + step])
        return found

    def _bounds(self, choices: Wholes) -> Floats:
        order = np.argsort(self.most[choices], axis=1, kind="stable")
        choices = np.take_along_axis(choices, order, axis=1)
        prices = self._priced(choices)
        owner, rounds = self._rounds(choices)
        total = prices[:, owner]
        for place in range(choices.shape[1]):
            cost = self.round_cost[:, choices[owner, place]] * rounds[:, place]
            if place == choices.shape[1] - 1:
                cost = np.minimum(cost, 0.0)
            total += self._spread(cost, place, choices.shape[1])
        least = total.max(axis=0) + self.stock.fixed
        found = np.full(len(choices), np.inf)
        np.minimum.at(found, owner, least)
        return found

    def _priced(self, choices: Wholes) -> Floats:
        """What the beds cost at all prices of the chosen mixes: prices (all combined) by choice."""
        count, prices = choices.shape[1], len(self.beds)
        best = self.beds[:, choices[:, 0]]
        for place in range(1, count):
            other = self.beds[:, choices[:, place]]
            best = np.minimum(best[:, None], other[None]).reshape(-1, *other.shape[1:])
        costs: Floats = best.sum(axis=-1)
        return costs.reshape(prices**count, len(choices))

    def _spread(self, cost: Floats, place: int, count: int) -> Floats:
        """What one mix costs at each of its prices, said for all prices combined."""
        prices = len(self.beds)
        before, after = prices**place, prices ** (count - 1 - place)
        return np.tile(np.repeat(cost, after, axis=0), (before, 1))

    def _rounds(self, choices: Wholes) -> tuple[Wholes, Wholes]:
        """All whole rounds that the stock allows, the last mix in as many as are left for it.

        Fewer of the last one are spoken for: the bound is straight in its rounds, so that nought
        or the most is the least. Answers the choice each belongs to, and the rounds of its mixes.
        """
        owner = np.arange(len(choices))
        rounds = np.zeros((len(choices), 0), dtype=np.int64)
        left = np.tile(self.stock.scoops, (len(choices), 1))
        for place in range(choices.shape[1]):
            recipe = self.scoops[choices[owner, place]]
            there = np.where(recipe > 0, left // np.maximum(recipe, 1), 10**6).min(axis=1)
            most = np.minimum(there, self.most[choices[owner, place]])
            if place == choices.shape[1] - 1:
                return owner, np.column_stack([rounds, most])
            times = most + 1
            first = np.repeat(np.cumsum(times) - times, times)
            rows = np.repeat(np.arange(len(owner)), times)
            number = np.arange(len(rows)) - first
            rounds = np.column_stack([rounds[rows], number])
            left = left[rows] - self.scoops[choices[owner[rows], place]] * number[:, None]
            owner = owner[rows]
        return owner, rounds
