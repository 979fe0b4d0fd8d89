"""The season engine: a bound that holds for every plan, then better and better plans."""

from dataclasses import replace
from fractions import Fraction
from math import floor, inf

from halfpail.application.ports import SeasonEffort
from halfpail.blending.ports import Effort, Solver
from halfpail.blending.programme import Status
from halfpail.domain.season import SeasonPlan, SeasonProblem, Unmet
from halfpail.engine.baskets import BasketSearch
from halfpail.engine.draft import Settled
from halfpail.engine.figures import Figures, figures_of
from halfpail.engine.own_mixes import own_mixes
from halfpail.engine.pace import Pace
from halfpail.engine.unmet import why_unmet

_ALLOWANCE = 10_000.0
_FEWER_MIXES_SHARE = 0.15
_CLOSED = 1e-6
_OWN_NODES = 3000


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
        pace = Pace(effort, _ALLOWANCE)
        figures = figures_of(problem)
        easiest = own_mixes(figures)
        outcome = self.solver.solve(
            easiest.programme,
            Effort(nodes=_OWN_NODES, seconds=pace.seconds_left, should_stop=effort.should_stop),
        )
        if outcome.status is Status.INFEASIBLE:
            return why_unmet(figures, self.solver, proven=True, seconds=pace.seconds)
        bound = -inf if outcome.bound is None else outcome.bound
        pace.tell(None, bound)
        basket = [round(outcome.point[c]) for c in easiest.bought] if outcome.point else None
        search = self._search(figures, pace, basket)
        if search.best is None:
            return why_unmet(figures, self.solver, proven=search.bound == inf, seconds=pace.seconds)
        by_baskets = search.bound > bound
        return _answer(
            search.best,
            max(bound, search.bound),
            "the search over baskets of whole bags"
            if by_baskets
            else "a mix of its own for every bed",
            pace.seconds,
        )

    def _search(self, figures: Figures, pace: Pace, basket: list[int] | None) -> BasketSearch:
        """Fewer mixes first: a plan with fewer is a plan, and a start for the next."""
        problem = figures.problem
        best: Settled | None = None
        for mixes in range(1, problem.mixes + 1):
            last = mixes == problem.mixes
            step = pace if last else pace.share(_FEWER_MIXES_SHARE)
            narrowed = replace(figures, problem=replace(problem, mixes=mixes))
            search = BasketSearch(narrowed, self.solver, step)
            search.offer(best)
            search.run(basket)
            best = search.best
        return search


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
