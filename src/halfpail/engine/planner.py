"""The season engine: a bound that holds for every plan, then better and better plans."""

from dataclasses import replace
from fractions import Fraction
from math import floor, inf

import numpy as np

from halfpail.application.ports import SeasonEffort
from halfpail.blending.ports import Effort, Solver
from halfpail.blending.programme import Outcome, Status
from halfpail.domain.season import SeasonPlan, SeasonProblem, Unmet
from halfpail.engine.baskets import BasketSearch
from halfpail.engine.draft import Settled
from halfpail.engine.few_mixes import FewMixes
from halfpail.engine.figures import Figures, figures_of
from halfpail.engine.group_search import GroupSearch
from halfpail.engine.kinds import Kinds, kinds_of
from halfpail.engine.one_mix_search import OneMixSearch
from halfpail.engine.own_mixes import OwnMixes, own_mixes, wishes
from halfpail.engine.pace import Pace
from halfpail.engine.recipes import Recipe, closest_recipes
from halfpail.engine.unmet import why_unmet

_ALLOWANCE = 10_000.0
_LARGE = 300
"""Bags by beds above which beds of one kind are put together first."""
_SMALL, _MOST_TIMES = 600, 3.0
"""Bags by beds up to which the allowance is enough, and how often it is given at most."""
_ONE_MIX_SHARE = 0.1
_FEW_SHARE, _GROUP_SHARE, _OTHER_SHARE = 0.25, 0.75, 0.5
_FAR = 0.25
"""One mix is bettered at once where it is so far off."""
_CLOSED = 1e-6
_OWN_NODES = 3000
_OWN_WORK = 1_000_000
_OWN_SHARE = 0.4
_FIRST_NODES = 50
_OWN_GAP, _KINDS_GAP = 0.125, 0.02


class Planner:
    """Plans a season with a solver for linear programmes with whole columns.

    Every plan is counted again in exact sums before it is answered; the bound is the best of the
    programme in which every bed has a mix of its own and of the search over baskets of bags.
    """

    def __init__(self, solver: Solver) -> None:
        self.solver = solver

    def solve(
        self, problem: SeasonProblem, effort: SeasonEffort = SeasonEffort()
    ) -> SeasonPlan | Unmet:
        """The best plan found with its proven bound, or why there is none."""
        figures = figures_of(problem)
        times = min(_MOST_TIMES, max(1.0, figures.bags * figures.plots / _SMALL))
        pace = Pace(effort, times * _ALLOWANCE)
        large = problem.mixes > 1 and figures.bags * figures.plots > _LARGE
        kinds = kinds_of(problem) if large else None
        beds = figures if kinds is None else kinds.figures
        easiest, outcome, bound = self._easiest(
            beds, pace, _OWN_GAP if kinds is None else _KINDS_GAP
        )
        if outcome.status is Status.INFEASIBLE:
            return why_unmet(figures, self.solver, proven=True, seconds=pace.seconds)
        pace.tell(None, bound)
        if kinds is None:
            plan, proven = self._search(figures, pace, easiest, outcome, bound)
        else:
            plan, proven = self._search_large(kinds, figures, pace, easiest, outcome, bound)
        if plan is None:
            return why_unmet(figures, self.solver, proven=proven == inf, seconds=pace.seconds)
        told = "what the bags cost for few mixes" if proven > bound else "a mix for every bed"
        return _answer(plan, max(bound, proven), told, pace.seconds)

    def _easiest(self, figures: Figures, pace: Pace, gap: float) -> tuple[OwnMixes, Outcome, float]:
        """Every bed its own mix: whole as far as the time goes, else in parts; and its bound.

        `gap` is a share of the gap asked for.
        """
        loose = own_mixes(figures, whole=False)
        parts = self.solver.solve(loose.programme)
        if parts.status is Status.INFEASIBLE:
            return loose, parts, inf
        whole = own_mixes(figures)
        left, effort = pace.seconds_left, pace.effort
        outcome = self.solver.solve(
            whole.programme,
            Effort(
                nodes=max(1, min(_OWN_NODES, _OWN_WORK // len(whole.programme.columns))),
                relative_gap=gap * effort.relative_gap,
                seconds=None if left is None else _OWN_SHARE * left,
                should_stop=effort.should_stop,
            ),
        )
        bounds = [-inf, *(o.bound for o in (parts, outcome) if o.bound is not None)]
        if outcome.point or outcome.status is Status.INFEASIBLE:
            return whole, outcome, max(bounds)
        return loose, parts, max(bounds)

    def _search(
        self, figures: Figures, pace: Pace, easiest: OwnMixes, outcome: Outcome, bound: float
    ) -> tuple[Settled | None, float]:
        """One mix first: the best is soon proven, and is a plan and a start for more mixes."""
        problem = figures.problem
        bags = [i for i, c in enumerate(easiest.bought) if outcome.point and outcome.point[c] > 0.5]
        single = replace(figures, problem=replace(problem, mixes=1))
        share = pace if problem.mixes == 1 else pace.share(_ONE_MIX_SHARE)
        one = OneMixSearch(single, self.solver, share)
        one.know(pace.effort.without)
        if outcome.point:
            one.plan(_mean_recipe(figures, easiest, outcome.point))
        one.run(0.0, bags)
        if problem.mixes == 1:
            return one.best, one.bound
        few = FewMixes(figures, self.solver, pace.share(_FEW_SHARE))
        few.offer(one.best)
        if few.value - bound > _FAR * few.value and few.cutoff > bound and outcome.point:
            few.run(wishes(easiest, figures, outcome.point)[0])
        baskets = BasketSearch(figures, self.solver, pace)
        baskets.offer(few.best)

        def by_groups() -> Settled | None:
            share = pace.share(_OTHER_SHARE)
            groups = GroupSearch(figures, kinds_of(problem), self.solver, share, bound)
            groups.run()
            return groups.best

        if baskets.cutoff > bound:
            basket = [round(outcome.point[c]) for c in easiest.bought] if outcome.point else None
            baskets.run(basket, by_groups)
            return baskets.best, baskets.bound
        return few.best, bound

    def _search_large(
        self,
        kinds: Kinds,
        figures: Figures,
        pace: Pace,
        easiest: OwnMixes,
        outcome: Outcome,
        bound: float,
    ) -> tuple[Settled | None, float]:
        """Plans by kinds of beds first, then what the bags cost for few mixes."""
        groups = GroupSearch(figures, kinds, self.solver, pace.share(_GROUP_SHARE), bound)
        basket = None
        if outcome.point:
            basket = [round(outcome.point[column]) for column in easiest.bought]
            groups.plan(_mean_recipe(kinds.figures, easiest, outcome.point), nodes=_FIRST_NODES)
        groups.run()
        baskets = BasketSearch(figures, self.solver, pace)
        baskets.offer(groups.best)
        if baskets.cutoff > bound:
            baskets.run(basket)
            return baskets.best, max(bound, baskets.bound)
        return groups.best, bound


def _mean_recipe(figures: Figures, easiest: OwnMixes, point: tuple[float, ...]) -> list[Recipe]:
    """A recipe near the mean of every bed's own mix: a first plan, however large the garden."""
    total = np.zeros(figures.bags)
    for (bag, _), column in easiest.amount.items():
        total[bag] += point[column]
    return closest_recipes(figures, total / max(float(total.sum()), 1e-12))[-1:]


def _answer(plan: Settled, bound: float, proven_by: str, seconds: float) -> SeasonPlan:
    value = float(plan.value)
    closed = bound >= value - _CLOSED * max(1.0, value)
    return SeasonPlan(
        stirs=plan.stirs,
        feedings=plan.feedings,
        purchases=plan.purchases,
        money=plan.money,
        missed=plan.missed,
        bound=plan.value if closed else Fraction(floor(bound * 10**6), 10**6),
        proven_by=proven_by,
        seconds=seconds,
    )
