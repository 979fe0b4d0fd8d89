"""The season with a short list of recipes: which to stir, how often, how much for each bed."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, inf

import numpy as np

from halfpail.blending.ports import Effort, Solver
from halfpail.blending.programme import Outcome, Programme, Status
from halfpail.engine.bed_tables import most_measures
from halfpail.engine.draft import Draft, Settled, settle
from halfpail.engine.figures import ENOUGH, Figures
from halfpail.engine.recipes import Recipe
from halfpail.engine.rows import Sheet, Terms


@dataclass(frozen=True, slots=True, kw_only=True)
class ChosenMixes:
    """The programme of a short list, and where its columns stand.

    `mixed` by (recipe, plot) and `straight` by (bag, plot) are measures; `supply` rows by bag.
    """

    recipes: tuple[Recipe, ...]
    programme: Programme
    bought: tuple[int, ...]
    rounds: tuple[int, ...]
    mixed: dict[tuple[int, int], int]
    straight: dict[tuple[int, int], int]
    supply: tuple[int, ...]
    hard_rows: dict[tuple[int, int], int]


def chosen_mixes(
    figures: Figures,
    recipes: Sequence[Recipe],
    *,
    whole_measures: bool = True,
    whole_rounds: bool | None = None,
    basket: tuple[Sequence[float], Sequence[float]] | None = None,
    assigned: Sequence[int] | None = None,
    margin: float = 0.0,
) -> ChosenMixes:
    """The whole season as one programme with these recipes; exact apart from floating point.

    Rounds are whole where measures are, unless `whole_rounds` says else. `basket` holds the bags
    bought between two vectors, `assigned` the recipe each bed may get; `margin` keeps hard limits
    at a distance.
    """
    rounds = whole_measures if whole_rounds is None else whole_rounds
    builder = _Builder(figures, tuple(recipes), whole_measures, rounds)
    builder.bags(basket)
    builder.mixes()
    builder.feedings(assigned)
    builder.limits(margin)
    return builder.done()


class _Builder:
    def __init__(
        self, figures: Figures, recipes: tuple[Recipe, ...], measures: bool, rounds: bool
    ) -> None:
        self.figures, self.recipes = figures, recipes
        self.whole, self.whole_rounds = measures, rounds
        self.sheet = Sheet()
        scoops = np.array(recipes, dtype=float).reshape(-1, figures.bags)
        self.size = scoops.sum(axis=1)
        self.share = scoops / self.size[:, None]
        self.contents = self.share @ figures.contents
        self.mixed: dict[tuple[int, int], int] = {}
        self.straight: dict[tuple[int, int], int] = {}
        self.hard_rows: dict[tuple[int, int], int] = {}

    def bags(self, basket: tuple[Sequence[float], Sequence[float]] | None) -> None:
        f = self.figures
        low, high = basket or ([0.0] * f.bags, [float(n) for n in f.offered])
        fixed = basket is not None and all(a == b for a, b in zip(low, high, strict=True))
        self.bought = tuple(
            self.sheet.column(
                f"bags of {i}", high[i], low=low[i], cost=float(f.price[i]), whole=not fixed
            )
            for i in range(f.bags)
        )
        self.shed = tuple(
            self.sheet.column(f"shed {i}", float(f.shed_kg[i]), cost=float(f.shed_price[i]))
            for i in range(f.bags)
        )
        if f.budget < inf:
            terms = [(self.bought[i], float(f.price[i])) for i in range(f.bags)]
            self.sheet.row("within the budget", terms, at_most=f.budget)

    def mixes(self) -> None:
        f, sheet = self.figures, self.sheet
        most = np.array([most_measures(f, self.contents, b) for b in range(f.plots)])
        self.most = most.astype(int).T.tolist()
        self.rounds = []
        stirred: Terms = []
        choose = len(self.recipes) > f.problem.mixes
        for r in range(len(self.recipes)):
            most = ceil(sum(self.most[r]) * f.measure / self.size[r])
            rounds = sheet.column(f"rounds of {r}", float(most), whole=self.whole_rounds)
            self.rounds.append(rounds)
            if choose:
                used = sheet.column(f"mix {r} is stirred", 1.0, whole=True)
                stirred.append((used, 1.0))
                sheet.row(
                    f"rounds of {r} only if stirred", [(rounds, 1.0), (used, -most)], at_most=0
                )
        if choose:
            sheet.row("few mixes", stirred, at_most=f.problem.mixes)

    def feedings(self, assigned: Sequence[int] | None) -> None:
        f, sheet = self.figures, self.sheet
        pick = assigned is None and len(self.recipes) > f.problem.mixes_per_plot
        for b in range(f.plots):
            picked: Terms = []
            for r, most in enumerate(row[b] for row in self.most):
                if most <= 0 or (assigned is not None and assigned[b] != r):
                    continue
                column = sheet.column(f"mix {r} on {b}", float(most), whole=self.whole)
                self.mixed[r, b] = column
                if pick:
                    gets = sheet.column(f"{b} gets {r}", 1.0, whole=True)
                    picked.append((gets, 1.0))
                    sheet.row(
                        f"mix {r} on {b} if picked", [(column, 1.0), (gets, -most)], at_most=0
                    )
            if pick:
                sheet.row(f"few mixes on {b}", picked, at_most=f.problem.mixes_per_plot)
            for i in f.straight[b]:
                self.straight[i, b] = sheet.column(f"bag {i} on {b}", whole=self.whole)
        for r, size in enumerate(self.size):
            terms = [(self.mixed[r, b], f.measure) for b in range(f.plots) if (r, b) in self.mixed]
            terms.append((self.rounds[r], -float(size)))
            sheet.row(f"no more of mix {r} than is stirred", terms, at_most=0.0)
        self.supply = tuple(self._supply(i) for i in range(f.bags))

    def _supply(self, bag: int) -> int:
        f = self.figures
        scoop_kg = float(f.measure_kg[bag]) / f.measure
        terms = [
            (self.rounds[r], recipe[bag] * scoop_kg)
            for r, recipe in enumerate(self.recipes)
            if recipe[bag]
        ]
        terms += [
            (column, float(f.measure_kg[bag]))
            for (i, _), column in self.straight.items()
            if i == bag
        ]
        terms += [(self.bought[bag], -float(f.bag_kg[bag])), (self.shed[bag], -1.0)]
        return self.sheet.row(f"no more of {bag} than is there", terms, at_most=0.0)

    def limits(self, margin: float) -> None:
        f = self.figures
        for b, sides in enumerate(f.sides):
            for s, side in enumerate(sides):
                terms = [
                    (self.mixed[r, b], float(self.contents[r, side.content]) / side.scale)
                    for r in range(len(self.recipes))
                    if (r, b) in self.mixed and self.contents[r, side.content] > 0
                ] + [
                    (self.straight[i, b], float(f.contents[i, side.content]) / side.scale)
                    for i in f.straight[b]
                    if f.contents[i, side.content] > 0
                ]
                away = margin if side.price == inf else 0.0
                if side.price < inf:
                    miss = self.sheet.column(f"miss {s} of {b}", cost=side.price)
                    terms.append((miss, -float(side.sign)))
                bound = side.bound - side.sign * away
                low, high = (bound, inf) if side.sign < 0 else (-inf, bound)
                self.hard_rows[b, s] = self.sheet.row(
                    f"side {s} of {b}", terms, at_least=low, at_most=high
                )

    def done(self) -> ChosenMixes:
        return ChosenMixes(
            recipes=self.recipes,
            programme=self.sheet.done(),
            bought=self.bought,
            rounds=tuple(self.rounds),
            mixed=self.mixed,
            straight=self.straight,
            supply=self.supply,
            hard_rows=self.hard_rows,
        )


def draft_of(model: ChosenMixes, point: Sequence[float]) -> Draft:
    """The whole measures of a point."""
    return Draft(
        recipes=model.recipes,
        mixed={key: round(point[column]) for key, column in model.mixed.items()},
        straight={key: round(point[column]) for key, column in model.straight.items()},
    )


def best_of(
    figures: Figures,
    solver: Solver,
    recipes: Sequence[Recipe],
    effort: Effort,
    *,
    basket: tuple[Sequence[float], Sequence[float]] | None = None,
    assigned: Sequence[int] | None = None,
) -> tuple[Settled | None, Outcome]:
    """The best plan below the cutoff, settled exactly; a broken cap is kept at a distance."""
    outcome = Outcome(status=Status.UNKNOWN)
    for margin in (0.0, 1e-6):
        model = chosen_mixes(figures, recipes, basket=basket, assigned=assigned, margin=margin)
        outcome = solver.solve(model.programme, effort)
        if not outcome.point or _is_no_better(outcome, effort):
            return None, outcome
        plan = settle(figures.problem, draft_of(model, outcome.point))
        if plan is not None and not plan.broken:
            return plan, outcome
    return None, outcome


def _is_no_better(outcome: Outcome, effort: Effort) -> bool:
    """Whether a plan is clearly above the cutoff, which spares its exact sums."""
    if outcome.value is None or effort.cutoff is None:
        return False
    return outcome.value > effort.cutoff + ENOUGH * max(1.0, effort.cutoff)
