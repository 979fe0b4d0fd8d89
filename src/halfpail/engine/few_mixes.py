"""Good plans with a few mixes: share the beds out, then better one mix at a time.

With all mixes but one held, the last one is a season of one mix with the bags that are left over,
for which there is a search that ends with the best. Going round until nothing gets better is
quick and good; that it is the best is for others to prove.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

import numpy as np

from halfpail.application.ports import SeasonEffort
from halfpail.domain.season import SeasonProblem
from halfpail.engine.draft import Settled
from halfpail.engine.figures import Floats, figures_of
from halfpail.engine.groups import shared_out
from halfpail.engine.one_mix_search import OneMixSearch
from halfpail.engine.pace import Pace
from halfpail.engine.recipes import Recipe
from halfpail.engine.search import Search

_ROUNDS = 6
_SHARE = 0.08
_FREE_NODES = 100


class FewMixes(Search):
    """Makes plans better; has no bound of its own."""

    def run(self, wished: Floats) -> None:
        """Start from beds shared out by what they wish for (rows), and from the plan offered."""
        mixes = self.figures.problem.mixes
        if self.best is not None:
            self._better(self.best)
        for count in range(mixes, 1, -1):
            self._from_scratch(shared_out(wished, count), count)
        if self.best is not None:
            self._better(self.best)

    def _from_scratch(self, group: list[int], count: int) -> None:
        """Plan the groups one after the other, each with what the earlier ones left."""
        recipes: list[Recipe] = []
        done: list[Settled] = []
        for number in range(count):
            plots = [b for b, g in enumerate(group) if g == number]
            found = self._one(plots, done) if plots else None
            if found is None:
                return
            recipes.append(found[0])
            done.append(found[1])
        before = self.best
        self.plan(recipes, assigned=group)
        self.plan(recipes, nodes=_FREE_NODES)
        if self.best is not None and self.best is not before:
            self._better(self.best)

    def _better(self, plan: Settled) -> None:
        """Replace one mix after the other until a whole turn brings nothing."""
        for _ in range(_ROUNDS):
            before = self.value
            for number in range(self.figures.problem.mixes):
                if self.pace.over() or self.best is None:
                    return
                self._replace(self.best, number)
            if self.value >= before - 1e-9:
                return

    def _replace(self, plan: Settled, number: int) -> None:
        """Plan the beds of one mix anew; a mix not yet stirred tries the beds served worst."""
        index = {plot.key: b for b, plot in enumerate(self.figures.problem.plots)}
        recipes = [self._recipe(plan, n) for n in range(len(plan.stirs))]
        owner = [-1] * self.figures.plots
        for feeding in plan.feedings:
            if isinstance(feeding.of, int):
                owner[index[feeding.plot]] = feeding.of
        if number < len(recipes):
            plots = [b for b, n in enumerate(owner) if n in (number, -1)]
        else:
            worst = np.argsort(-self._missed(plan), kind="stable")
            plots = [int(b) for b in worst[: max(1, self.figures.plots // 3)]]
            recipes.append(())
        others = _without(plan, {self.figures.problem.plots[b].key for b in plots})
        found = self._one(plots, [others])
        if found is None:
            return
        recipes[min(number, len(recipes) - 1)] = found[0]
        assigned = [number if b in plots else owner[b] for b in range(self.figures.plots)]
        self.plan(recipes, assigned=assigned)
        self.plan(recipes, nodes=_FREE_NODES)

    def _recipe(self, plan: Settled, number: int) -> Recipe:
        scoops = plan.stirs[number].scoops
        return tuple(scoops.get(bag.key, 0) for bag in self.figures.problem.ingredients)

    def _missed(self, plan: Settled) -> Floats:
        """What each bed misses in a plan."""
        problem = self.figures.problem
        missed = np.zeros(self.figures.plots)
        given = _given(problem, plan)
        for b, sides in enumerate(self.figures.sides):
            got = given[b] @ self.figures.contents
            for side in sides:
                if np.isfinite(side.price):
                    over = (got[side.content] / side.scale - side.bound) * side.sign
                    missed[b] += side.price * max(0.0, over)
        return missed

    def _one(
        self, plots: Sequence[int], others: Sequence[Settled]
    ) -> tuple[Recipe, Settled] | None:
        """The best single mix for some beds with the bags the others leave over."""
        figures = figures_of(_rest(self.figures.problem, plots, others))
        effort = SeasonEffort(relative_gap=0.002, absolute_gap=0.02, should_stop=self.pace.stopped)
        pace = Pace(effort, max(100.0, _SHARE * self.pace.left))
        search = OneMixSearch(figures, self.solver, pace)
        before = pace.left
        search.run(0.0)
        self.pace.spend(before - pace.left)
        if search.best is None:
            return None
        recipe: Recipe = (0,) * self.figures.bags
        if search.best.stirs:
            scoops = search.best.stirs[0].scoops
            recipe = tuple(scoops.get(bag.key, 0) for bag in figures.problem.ingredients)
        return recipe, search.best


def _given(problem: SeasonProblem, plan: Settled) -> Floats:
    """Measures of each bag (columns) each bed (rows) gets."""
    bag = {b.key: i for i, b in enumerate(problem.ingredients)}
    plot = {p.key: b for b, p in enumerate(problem.plots)}
    given = np.zeros((len(plot), len(bag)))
    for feeding in plan.feedings:
        if isinstance(feeding.of, str):
            given[plot[feeding.plot], bag[feeding.of]] += feeding.measures
            continue
        scoops = plan.stirs[feeding.of].scoops
        for key, n in scoops.items():
            given[plot[feeding.plot], bag[key]] += feeding.measures * n / sum(scoops.values())
    return given


def _without(plan: Settled, plots: set[str]) -> Settled:
    """A plan less what some beds get; mixes nobody else gets are not stirred."""
    feedings = tuple(f for f in plan.feedings if f.plot not in plots)
    kept = {f.of for f in feedings}
    stirs = tuple(
        stir if n in kept else replace(stir, rounds=0) for n, stir in enumerate(plan.stirs)
    )
    return replace(plan, feedings=feedings, stirs=stirs)


def _rest(problem: SeasonProblem, plots: Sequence[int], others: Sequence[Settled]) -> SeasonProblem:
    """The season of some beds with one mix, given the bags that others have opened."""
    keys = {problem.plots[b].key for b in plots}
    bags = []
    spent = Fraction(0)
    for bag in problem.ingredients:
        used = sum((_used_scoops(other, bag.key, problem.measure) for other in others), Fraction(0))
        used_kg = used * bag.scoop_kg
        beyond = max(Fraction(0), used_kg - bag.shed_kg)
        opened = -(-beyond // bag.bag_kg)
        spent += opened * bag.price
        bags.append(
            replace(
                bag,
                shed_kg=bag.shed_kg + opened * bag.bag_kg - used_kg,
                shed_price_per_kg=Fraction(0) if opened else bag.shed_price_per_kg,
                offered=max(0, bag.offered - int(opened)),
            )
        )
    return replace(
        problem,
        ingredients=tuple(bags),
        plots=tuple(problem.plots[b] for b in plots),
        limits=tuple(limit for limit in problem.limits if limit.plot in keys),
        mixes=1,
        budget=None if problem.budget is None else max(Fraction(0), problem.budget - spent),
    )


def _used_scoops(plan: Settled, key: str, measure: Fraction) -> Fraction:
    stirred = sum(stir.rounds * stir.scoops.get(key, 0) for stir in plan.stirs)
    return stirred + measure * sum(f.measures for f in plan.feedings if f.of == key)
