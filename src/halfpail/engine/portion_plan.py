"""A season with these recipes in which every bed picks one of its portions.

A programme of whole portions is nearly whole by itself: only few beds, about as many as bags run
short, are of two minds. The portions it needs are found by turns: at its prices each bed names
its cheapest ones.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil, inf

import numpy as np

from halfpail.blending.ports import Effort, Solver
from halfpail.blending.programme import Outcome, Programme
from halfpail.engine.draft import Draft, Settled, settle
from halfpail.engine.figures import Figures, Floats
from halfpail.engine.pace import Pace
from halfpail.engine.portions import BedPortions, Portion
from halfpail.engine.recipes import Recipe, mixes_of
from halfpail.engine.rows import Sheet, Terms

_TURNS = 8
_MOST_PORTIONS, _WITHIN = 10, 0.3
"""Named by a bed at each turn: so many, and none dearer than the cheapest by this share of what a
bed costs in the mean."""
_SETTLED = 1e-4
_LITTLE = 1e-3
"""No bag is bought and no round stirred that is not opened. HiGHS, which else may tighten these
long rows without end before it listens to the clock, leaves rows with two sides alone."""
_LACKING = 50.0
"""Money for a kilogram that is not there, so that the first portions need not fit the bags."""


@dataclass(frozen=True, slots=True)
class _Model:
    programme: Programme
    chosen: tuple[tuple[int, Portion, int], ...]
    supply: tuple[int, ...]
    mixed: tuple[int, ...]
    rounds: tuple[int, ...]


class PortionPlan:
    """Plans for one short list of recipes, all of them stirred."""

    def __init__(
        self, figures: Figures, solver: Solver, pace: Pace, recipes: Sequence[Recipe]
    ) -> None:
        self.figures, self.solver, self.pace = figures, solver, pace
        self.recipes = tuple(recipes)
        mixes = mixes_of(figures, np.array(self.recipes, dtype=np.int64))
        self.share = mixes.share
        self.beds = [BedPortions(figures, b, mixes.contents) for b in range(figures.plots)]
        self.too_many = any(bed.too_many for bed in self.beds)
        self.most = ceil(sum(bed.most for bed in self.beds) * figures.measure)
        self.named: list[dict[Portion, None]] = [{} for _ in self.beds]
        self.worth = np.zeros(figures.bags)

    def look(self, worth: Floats, cost: float, basket: Sequence[float], effort: Effort) -> float:
        """Name portions, at first by these prices [money per kg]; what parts of them cost.

        Rounds are whole. `cost` is about what the season costs. The prices at the end are kept as
        `worth`.
        """
        value, within = inf, _WITHIN * cost / self.figures.plots
        mix_price = self.share @ (worth * self.figures.measure_kg)
        for _ in range(_TURNS):
            self._name(worth, mix_price, within)
            model = self._model(basket, whole=False)
            outcome = self.solver.solve(model.programme)
            self.pace.spend(5.0 + 0.02 * len(model.programme.columns))
            if outcome.value is None or not outcome.row_prices:
                return inf
            worth = np.maximum(0.0, -np.array([outcome.row_prices[r] for r in model.supply]))
            self.worth = worth
            if outcome.value > value * (1 - _SETTLED) or self.pace.over():
                break
            value = outcome.value
            mix_price = np.maximum(0.0, -np.array([outcome.row_prices[r] for r in model.mixed]))
        return self._in_rounds(basket, effort)

    def _in_rounds(self, basket: Sequence[float], effort: Effort) -> float:
        """What the season costs with whole rounds, portions in parts."""
        model = self._model(basket, whole=False)
        columns = list(model.programme.columns)
        for column in model.rounds:
            columns[column] = replace(columns[column], whole=True)
        outcome = self.solver.solve(replace(model.programme, columns=tuple(columns)), effort)
        self.pace.spend(5.0 + 0.05 * len(columns))
        return inf if outcome.value is None else outcome.value

    def _name(self, worth: Floats, mix_price: Floats, within: float) -> None:
        per_measure = worth * self.figures.measure_kg
        for bed, named in zip(self.beds, self.named, strict=True):
            found = bed.cheapest(per_measure, mix_price, within, _MOST_PORTIONS)
            named.update(dict.fromkeys(found))

    def plan(self, effort: Effort, basket: Sequence[float] | None = None) -> Settled | None:
        """The best plan of the portions named, in exact sums; None where there is none."""
        model = self._model(basket, whole=True)
        outcome = self.solver.solve(model.programme, effort)
        self.pace.spend(15.0 + 2.0 * outcome.nodes)
        if not outcome.point:
            return None
        return settle(self.figures.problem, self._draft(model, outcome))

    def _draft(self, model: _Model, outcome: Outcome) -> Draft:
        mixed, straight = {}, {}
        for bed, portion, column in model.chosen:
            if outcome.point[column] > 0.5:
                mixed[portion.recipe, bed] = portion.measures
                straight.update({(bag, bed): count for bag, count in portion.straight})
        mixed = {key: measures for key, measures in mixed.items() if measures}
        return Draft(recipes=self.recipes, mixed=mixed, straight=straight)

    def _model(self, basket: Sequence[float] | None, *, whole: bool) -> _Model:
        f, sheet = self.figures, Sheet()
        rounds = [
            sheet.column(f"rounds of {r}", float(self.most // sum(recipe) + 1), whole=whole)
            for r, recipe in enumerate(self.recipes)
        ]
        used: list[Terms] = [[] for _ in range(f.bags)]
        given: list[Terms] = [[] for _ in self.recipes]
        chosen = []
        for bed, named in enumerate(self.named):
            picked: Terms = []
            for portion in named:
                name = f"portion {len(picked)} of {bed}"
                column = sheet.column(name, 1.0, cost=portion.missed, whole=whole)
                picked.append((column, 1.0))
                chosen.append((bed, portion, column))
                if portion.measures:
                    given[portion.recipe].append((column, float(portion.measures)))
                for bag, count in portion.straight:
                    used[bag].append((column, count * float(f.measure_kg[bag])))
            sheet.row(f"one portion of {bed}", picked, at_least=1.0, at_most=1.0)
        mixed = tuple(
            sheet.row(
                f"no more of mix {r} than is stirred",
                [*given[r], (rounds[r], -sum(recipe) / f.measure)],
                at_least=_LITTLE - sum(recipe) / f.measure if whole else -inf,
                at_most=0.0,
            )
            for r, recipe in enumerate(self.recipes)
        )
        supply = self._bags(sheet, used, rounds, basket, whole=whole)
        return _Model(sheet.done(), tuple(chosen), supply, mixed, tuple(rounds))

    def _bags(
        self,
        sheet: Sheet,
        used: list[Terms],
        rounds: Sequence[int],
        basket: Sequence[float] | None,
        *,
        whole: bool,
    ) -> tuple[int, ...]:
        f, spent, supply = self.figures, [], []
        for bag in range(f.bags):
            price = float(f.price[bag])
            low, high = (0.0, float(f.offered[bag])) if basket is None else (basket[bag],) * 2
            bought = sheet.column(f"bags of {bag}", high, low=low, cost=price, whole=whole)
            shed = sheet.column(f"shed {bag}", float(f.shed_kg[bag]), cost=float(f.shed_price[bag]))
            spent.append((bought, price))
            scoop_kg = float(f.measure_kg[bag] / f.measure)
            terms = [
                *used[bag],
                *(
                    (rounds[r], recipe[bag] * scoop_kg)
                    for r, recipe in enumerate(self.recipes)
                    if recipe[bag]
                ),
                (bought, -float(f.bag_kg[bag])),
                (shed, -1.0),
            ]
            if not whole:
                terms.append((sheet.column(f"{bag} lacking", cost=_LACKING), -1.0))
            idle = -inf
            if whole and basket is None and f.offered[bag] > 0:
                idle = _LITTLE - float(f.bag_kg[bag] + f.shed_kg[bag])
            name = f"no more of {bag} than is there"
            supply.append(sheet.row(name, terms, at_least=idle, at_most=0.0))
        if f.budget < inf:
            sheet.row("within the budget", spent, at_most=f.budget)
        return tuple(supply)
