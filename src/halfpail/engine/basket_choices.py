"""The choices of mixes that one basket leaves open: bounded by whole rounds, then planned.

Choices go by what they cost in parts of rounds. The first of them are bounded, and the best of
these planned, before the others are looked at: a better plan leaves fewer of them.
"""

from math import inf

import numpy as np

from halfpail.engine.bed_tables import exact_costs
from halfpail.engine.few_recipes import bound_on_choices, choices_below
from halfpail.engine.figures import Floats, Wholes
from halfpail.engine.recipes import Mixes
from halfpail.engine.search import Search
from halfpail.engine.stock import fixed_part, only_there, stock_of
from halfpail.engine.whole_rounds import WholeRounds

_MOST_CHOICES = 1_000_000
_MOST_RECIPES = {1: 100_000, 2: 5000, 3: 240}
"""Recipes of which every choice is written out, by the number of mixes; the likeliest."""
_MORE = 1.5
_AT_ONCE = {1: 20_000, 2: 20_000, 3: 3000}
_FIRST_PLANS = 8
_MOST_PLANS = 400
_NODES = 200


class BasketChoices:
    """Choices of `count` recipes of `mixes` out of one basket, its bags priced by `worth`.

    Each step `harder` takes in more recipes.
    """

    def __init__(
        self,
        search: Search,
        basket: Wholes,
        mixes: Mixes,
        worth: Floats,
        *,
        count: int,
        harder: int = 0,
    ) -> None:
        self.search, self.basket, self.worth = search, basket, worth
        self.figures = only_there(search.figures, basket)
        self.count = count
        self.fixed = fixed_part(search.figures, basket, worth)
        table = exact_costs(self.figures, mixes, worth)
        _, with_each = bound_on_choices(table, self.count, self._room)
        most = int(_MOST_RECIPES.get(self.count, 60) * _MORE**harder)
        order = np.argsort(with_each, kind="stable")
        self.left_out = float(with_each[order[most:]].min(initial=inf)) + self.fixed
        kept = order[:most][with_each[order[:most]] < self._room]
        self.mixes, self.table = mixes.only(kept), table[kept]

    @property
    def _room(self) -> float:
        return self.search.cutoff - self.fixed

    def run(self) -> float:
        """Plan what is open; answers a bound on every plan with this basket.

        Raises:
            Stopped: the clock or the caller ends the search now.
        """
        search = self.search
        dropped = search.cutoff
        choices, costs = choices_below(
            self.table, self.count, self._room, _MOST_CHOICES, search.pace.go_on
        )
        bounds = costs + self.fixed
        if len(choices) > _MOST_CHOICES:
            self.left_out = min(self.left_out, float(bounds[-1]))
            choices, bounds = choices[:-1], bounds[:-1]
        planned = self._first(choices, bounds)
        order = [int(n) for n in np.argsort(bounds, kind="stable") if int(n) not in planned]
        for place in order[:_MOST_PLANS]:
            if bounds[place] >= self._target or search.pace.over():
                break
            bounds[place] = self._plan(choices[place], bounds[place])
        return min(dropped, self.left_out, float(bounds.min(initial=inf)))

    def begin(self) -> None:
        """Plan the likeliest only.

        Raises:
            Stopped: the clock or the caller ends the search now.
        """
        choices, costs = choices_below(
            self.table,
            self.count,
            self._room,
            _AT_ONCE.get(self.count, 500),
            self.search.pace.go_on,
        )
        self._first(choices, costs + self.fixed)

    @property
    def _target(self) -> float:
        """Bounds above this lift nothing."""
        return min(self.search.cutoff, self.left_out)

    def _first(self, choices: Wholes, bounds: Floats) -> set[int]:
        """Bound all choices by their whole rounds and plan the best of each lot."""
        planned: set[int] = set()
        if not len(choices):
            return planned
        stock = stock_of(self.figures, self.basket, self.worth)
        rounds = WholeRounds(self.figures, self.mixes, stock, self.worth)
        for start in range(0, len(choices), at_once := _AT_ONCE.get(self.count, 500)):
            lot = np.arange(start, min(start + at_once, len(choices)))
            lot = lot[bounds[lot] < self.search.cutoff]
            if not len(lot) or (bounds[lot[0]] >= self._target and planned):
                break
            bounds[lot] = np.maximum(
                bounds[lot], rounds.bounds(choices[lot], self.search.pace.go_on)
            )
            self.search.pace.spend(len(lot) * 1e-3 * self.count**2)
            for place in lot[np.argsort(bounds[lot], kind="stable")][:_FIRST_PLANS]:
                if self.search.pace.over():
                    return planned
                if bounds[place] < self.search.cutoff:
                    bounds[place] = self._plan(choices[place], float(bounds[place]))
                    planned.add(int(place))
        return planned

    def _plan(self, choice: Wholes, bound: float) -> float:
        """Plan with these mixes and this basket; answers what no such plan is below."""
        recipes = [tuple(int(n) for n in self.mixes.scoops[row]) for row in choice]
        proven = self.search.plan(recipes, basket=self.basket.tolist(), nodes=_NODES)
        return max(bound, proven)
