"""Branch on baskets of whole bags, cheapest bound first.

Whole bags are what makes a season hard: once a basket is fixed its bags have prices, and the few
best recipes are read off a matrix of recipes by beds. A box of baskets is bounded by the
programme in which every bed has a mix of its own; a single basket by the matrix, which
knows that there are only few mixes and that measures are whole.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from heapq import heapify, heappop, heappush
from itertools import count
from math import floor, inf

import numpy as np

from halfpail.blending.ports import Solver
from halfpail.engine.basket_choices import BasketChoices
from halfpail.engine.basket_prices import BasketPrices, Look
from halfpail.engine.bed_costs import capped_costs
from halfpail.engine.bed_tables import exact_costs
from halfpail.engine.draft import Settled
from halfpail.engine.few_recipes import (
    bound_on_choices,
    cheapest_choice,
    good_choices,
)
from halfpail.engine.figures import Figures, Floats, Wholes
from halfpail.engine.likely_prices import bags_there, likely_prices, slope_of
from halfpail.engine.own_mixes import OwnMixes, own_mixes, with_basket
from halfpail.engine.pace import Pace, Stopped
from halfpail.engine.recipes import Mixes, Recipe, all_recipes, mixes_of
from halfpail.engine.search import ROUNDED, Search
from halfpail.engine.stock import fixed_part, idle_kg, only_there

_LONG, _WIDE = 4000.0, 0.05
"""Work after which another search is asked for a plan, where the gap is a larger share."""
_LOOKS = 4
"""Looks at prices before choices are tried harder."""
_HARDEST = 3
_WORTH_A_LOOK = 1e-3
_ALL_AT_ONCE = 80
_MANY, _LIKELY = 1500, 250
_CHOICE_NODES = 200
_MOST_CELLS, _SLICE = 50_000_000, 5_000


@dataclass(frozen=True, slots=True, kw_only=True)
class _Node:
    """Baskets between `low` and `high`.

    A single one carries the prices to look at next, how many looks are left and how hard choices
    are tried after them, the prices seen, and the mixes that may still win.
    """

    low: Wholes
    high: Wholes
    bound: float
    stage: int = 0
    looks: int = 0
    harder: int = 0
    worth: Floats | None = None
    prices: BasketPrices | None = None
    mixes: Mixes | None = None
    each: Floats | None = None

    @property
    def single(self) -> bool:
        return bool((self.low == self.high).all())


class BasketSearch(Search):
    """A bound below every plan, better with every step; plans where it comes across them."""

    def __init__(self, figures: Figures, solver: Solver, pace: Pace) -> None:
        super().__init__(figures, solver, pace)
        self.model: OwnMixes = own_mixes(figures, whole=False)
        self.queue: list[tuple[float, int, _Node]] = []
        self.order = count()
        self.recipes: dict[tuple[int, ...], Wholes] = {}
        self.tried: set[frozenset[Recipe]] = set()
        self.seen: set[tuple[int, ...]] = set()

    # -- the search ---------------------------------------------------------------------------

    def run(
        self,
        first: Sequence[int] | None = None,
        other: Callable[[], Settled | None] | None = None,
    ) -> None:
        """Search until the gap asked for is proven or the work is spent.

        A search that takes long and is far from its end asks once what `other` search finds: the
        better the plan, the fewer baskets there are to look into.
        """
        long = self.pace.left - _LONG
        none = np.zeros(self.figures.bags, dtype=np.int64)
        self._look_into(_Node(low=none, high=self.figures.offered.copy(), bound=-inf))
        if first is not None:
            basket = np.array(first, dtype=np.int64)
            self._look_into(_Node(low=basket, high=basket, bound=-inf))
            self._at_once(basket)
        while self.queue and not self.pace.over():
            if self.queue[0][0] >= self.cutoff:
                break
            if other is not None and self.pace.left < long and self._is_wide:
                self.offer(other())
                other = None
                continue
            node = heappop(self.queue)[2]
            self._look_into(node)
            self.pace.tell(None if self.best is None else self.value, self.bound)
        for bound, _, _ in self.queue[:1]:
            self.settle_for(bound)

    def _at_once(self, basket: Wholes) -> None:
        """Plan with a basket before others are bounded: a good plan spares much of that."""
        for _ in range(3):
            for place, (_, _, node) in enumerate(self.queue):
                if node.single and (node.low == basket).all() and not self.pace.over():
                    del self.queue[place]
                    heapify(self.queue)
                    self._look_into(node)
                    self.pace.tell(None if self.best is None else self.value, self.bound)
                    break

    @property
    def bound(self) -> float:
        """No plan is cheaper than this."""
        waiting = self.queue[0][0] if self.queue else inf
        return min(waiting, self.floor, self.value)

    @property
    def _is_wide(self) -> bool:
        """Whether so much is open that a better plan may be there."""
        return self.best is None or self.value - self.bound > _WIDE * self.value

    def _push(self, node: _Node) -> None:
        if node.bound >= self.cutoff:
            self.settle_for(node.bound)
        else:
            heappush(self.queue, (node.bound, next(self.order), node))

    def _look_into(self, node: _Node) -> None:
        if node.bound >= self.cutoff:
            self.settle_for(node.bound)
        elif node.stage == 0:
            self._relax(node)
        elif node.stage == 1:
            self._first_matrix(node)
        elif node.worth is not None and node.looks > 0:
            self._priced_matrix(node)
        else:
            self._whole_rounds(node)

    # -- boxes of baskets ---------------------------------------------------------------------

    def _relax(self, node: _Node) -> None:
        """Every bed its own mix, bags not whole within the box; then split the box."""
        if node.single:
            basket = tuple(node.low.tolist())
            if basket in self.seen:
                return
            self.seen.add(basket)
        low, high = node.low.astype(float), node.high.astype(float)
        idle = idle_kg(self.figures, node.low) if node.single else np.zeros(self.figures.bags)
        from_shed = np.where(low > 0, 0.0, idle)
        less = (idle - from_shed) / self.figures.bag_kg
        programme = with_basket(self.model, low - less, high - less, from_shed)
        outcome = self.solver.solve(programme)
        self.pace.spend(1.0 + 0.02 * len(self.model.programme.columns))
        if not outcome.point or outcome.value is None:
            return
        value = outcome.value + float(less @ self.figures.price)
        bound = max(node.bound, value - ROUNDED * max(1.0, abs(value)))
        if bound >= self.cutoff:
            self.settle_for(bound)
        elif node.single:
            worth = np.maximum(0.0, -np.array([outcome.row_prices[r] for r in self.model.supply]))
            self._push(replace(node, bound=bound, stage=1, worth=worth))
        else:
            bought = np.array([outcome.point[column] for column in self.model.bought])
            self._split(node, bought, bound)

    def _split(self, node: _Node, bought: Floats, bound: float) -> None:
        away = np.abs(bought - np.round(bought))
        bag = int(away.argmax())
        if away[bag] > ROUNDED:
            parts = [(node.low[bag], floor(bought[bag])), (floor(bought[bag]) + 1, node.high[bag])]
        else:
            bag = int((node.high - node.low).argmax())
            at = round(float(bought[bag]))
            parts = [(at, at), (node.low[bag], at - 1), (at + 1, node.high[bag])]
        for least, most in parts:
            if least <= most:
                low, high = node.low.copy(), node.high.copy()
                low[bag], high[bag] = least, most
                self._push(_Node(low=low, high=high, bound=bound))

    # -- one basket ---------------------------------------------------------------------------

    def _mixes_in(self, basket: Wholes) -> Mixes:
        """All recipes of the bags in this basket and the shed, and no mix at all."""
        f = self.figures
        there_kg = basket * f.bag_kg + f.shed_kg
        scoop_kg = f.measure_kg / f.measure
        bags = tuple(
            int(i) for i in np.flatnonzero(f.may_mix & (there_kg >= scoop_kg * (1 - 1e-9)))
        )
        if bags not in self.recipes:
            nothing = np.zeros((1, f.bags), dtype=np.int64)
            rows = all_recipes(f.problem, list(bags))
            self.recipes[bags] = np.concatenate([nothing, rows])
        rows = self.recipes[bags]
        fits = (rows * scoop_kg <= there_kg * (1 + 1e-9)).all(axis=1)
        return mixes_of(f, rows[fits])

    def _first_matrix(self, node: _Node) -> None:
        assert node.worth is not None
        mixes = self._mixes_in(node.low)
        if self.figures.problem.mixes_per_plot > 1:
            self._all_at_once(node, mixes)
            return
        exact = not any(only_there(self.figures, node.low).straight)
        self._narrow(node, mixes, None, exact=exact)

    def _all_at_once(self, node: _Node, mixes: Mixes) -> None:
        """Where a bed may get several mixes a matrix says little: plan with the likeliest recipes.

        That proves something when they are all there are.
        """
        assert node.worth is not None
        table = capped_costs(self.figures, mixes, node.worth)
        likely = np.argsort(table.sum(axis=1), kind="stable")[:_ALL_AT_ONCE]
        recipes = [_recipe(row) for row in mixes.scoops[likely]]
        proven = self.plan(recipes, basket=node.low.tolist(), nodes=_CHOICE_NODES)
        self.settle_for(max(node.bound, proven) if len(likely) == len(table) else node.bound)

    def _priced_matrix(self, node: _Node) -> None:
        assert node.mixes is not None
        self._narrow(node, node.mixes, node.each, exact=True)

    def _narrow(self, node: _Node, mixes: Mixes, each: Floats | None, *, exact: bool) -> None:
        """Bound the basket by its matrix, drop recipes that cannot win, try the best ones."""
        assert node.worth is not None
        f, few = only_there(self.figures, node.low), self.figures.problem.mixes
        fixed = fixed_part(self.figures, node.low, node.worth)
        table = self._table(f, mixes, node.worth, exact_costs if exact else capped_costs)
        if table is None:
            self.settle_for(node.bound)
            return
        self.pace.spend(len(table) * f.plots * (40 if exact and any(f.straight) else 1) * 2e-4)
        target = self.cutoff - fixed
        height, with_each = bound_on_choices(table, few, target, self.pace.stopped)
        bound = max(node.bound, fixed + height)
        with_each = np.maximum(with_each + fixed, bound)
        if each is not None:
            with_each = np.maximum(with_each, each)
        kept = with_each < self.cutoff
        if with_each[~kept].size:
            self.settle_for(float(with_each[~kept].min()))
        if bound >= self.cutoff or not kept.any():
            self.settle_for(bound)
            return
        mixes, table, with_each = mixes.only(kept), table[kept], with_each[kept]
        prices = node.prices
        worth: Floats | None = node.worth
        if exact:
            self._try_choices(mixes, table, fixed)
            prices = prices or BasketPrices(self.solver, bags_there(f, node.low), _WORTH_A_LOOK)
            prices.forget({_recipe(row) for row in mixes.scoops})
            choice = mixes.only(np.array(cheapest_choice(table, few)))
            prices.learn(
                Look(
                    worth=node.worth,
                    height=fixed + height,
                    slope=slope_of(self.figures, node.low, choice, node.worth),
                    choice=frozenset(_recipe(row) for row in choice.scoops),
                )
            )
            worth = prices.next()
        if node.stage == 1 and len(mixes.scoops) > _MANY:
            likely = mixes.only(np.argsort(with_each, kind="stable")[:_LIKELY])
            worth = likely_prices(
                self.figures, self.solver, self.pace, node.low, likely, node.worth
            )
        self._push(
            replace(
                node,
                bound=bound,
                stage=2,
                looks=1 if node.stage == 1 else node.looks - 1,
                worth=worth,
                prices=prices,
                mixes=mixes,
                each=with_each,
            )
        )

    def _table(
        self, f: Figures, mixes: Mixes, worth: Floats, costs: Callable[..., Floats]
    ) -> Floats | None:
        """What each recipe costs on each bed, a slice at a time so that a stop is heard.

        None where it is stopped, or where the matrix would take more memory than it may.
        """
        count = len(mixes.scoops)
        if count * f.plots > _MOST_CELLS:
            return None
        parts = []
        for start in range(0, count, _SLICE):
            if self.pace.stopped():
                return None
            parts.append(costs(f, mixes.only(np.arange(start, min(start + _SLICE, count))), worth))
        return np.concatenate(parts)

    def _try_choices(self, mixes: Mixes, table: Floats, fixed: float) -> None:
        """Plan with good choices on the matrix."""
        for rows in self._choices(mixes, table):
            if fixed + float(table[rows].min(axis=0).sum()) >= self.value:
                break
            recipes = [_recipe(mixes.scoops[row]) for row in rows]
            if frozenset(recipes) not in self.tried:
                self.tried.add(frozenset(recipes))
                self.plan(recipes, assigned=[int(a) for a in table[rows].argmin(axis=0)])

    def _whole_rounds(self, node: _Node) -> None:
        """Bound what is left by whole rounds and plan it; again if it got better, else harder."""
        prices, before = node.prices, self.value
        if prices is None or prices.best is None or node.mixes is None:
            self.settle_for(node.bound)
            return
        open_to = (self, node.low, node.mixes, prices.best)
        few = self.figures.problem.mixes
        try:
            if few > 2 and not node.harder:
                BasketChoices(*open_to, count=2).begin()
            choices = BasketChoices(*open_to, count=few, harder=node.harder)
            bound = max(node.bound, choices.run())
        except Stopped:
            self.settle_for(node.bound)
            return
        if bound < self.cutoff and self.value < before:
            self._push(replace(node, bound=bound))
        elif bound < self.cutoff and node.harder < _HARDEST:
            worth, harder = prices.next(), node.harder + 1
            self._push(replace(node, bound=bound, worth=worth, looks=_LOOKS, harder=harder))
        else:
            self.settle_for(bound)

    def _choices(self, mixes: Mixes, table: Floats) -> list[list[int]]:
        """Good choices among small rounds and among all: a small round leaves less mix over."""
        few, size = self.figures.problem.mixes, mixes.scoops.sum(axis=1)
        found: dict[tuple[int, ...], float] = {}
        for most in sorted({1, 2, 3, 4, 6, 8, int(size.max())}):
            rows = np.flatnonzero(size <= most)
            if len(rows):
                choice = good_choices(table[rows], few, 1)[0]
                chosen = tuple(int(rows[place]) for place in choice)
                found[chosen] = float(table[list(chosen)].min(axis=0).sum())
        return [list(rows) for rows in sorted(found, key=lambda rows: (found[rows], rows))]


def _recipe(scoops: Wholes) -> Recipe:
    return tuple(int(n) for n in scoops)
