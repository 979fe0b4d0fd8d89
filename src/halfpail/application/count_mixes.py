"""How many mixes: the season solved with one, two, three, and the rule that picks among them."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from halfpail.application.ports import SeasonEffort, SeasonEngine
from halfpail.domain.season import SeasonPlan, SeasonProblem, Unmet

MOST_MIXES_TRIED = 3
# Our default, not published, a preference: another mix is one more pail to stir, label and keep
# apart, so it has to make the season better by a twentieth.
ANOTHER_MIX_SAVES_SHARE = Fraction(1, 20)

Plans = Mapping[int, SeasonPlan | Unmet]


def plans_by_mixes(
    problem: SeasonProblem, engine: SeasonEngine, effort: SeasonEffort, most: int = MOST_MIXES_TRIED
) -> Plans:
    """The season with at most one mix, at most two and so on, each solved once.

    A plan with fewer mixes is also one with more, and what no plan with more mixes beats, none
    with fewer does: so better plans are handed up and better bounds down.
    """
    plans: dict[int, SeasonPlan | Unmet] = {}
    for mixes in range(1, most + 1):
        plan = engine.solve(replace(problem, mixes=mixes), effort)
        before = plans.get(mixes - 1)
        plans[mixes] = _better(plan, before)
    for mixes in range(most - 1, 0, -1):
        plans[mixes] = _bounded(plans[mixes], plans[mixes + 1])
    return plans


def fewest_mixes(plans: Plans, saves: Fraction | None = None) -> int:
    """The fewest mixes that come near enough to the best of these plans.

    Near enough is within `saves` [money, misses counted in], or within a twentieth of the best
    where the gardener has not said. Where no number has a plan it is the most that was tried.
    """
    values = {mixes: p.value for mixes, p in plans.items() if isinstance(p, SeasonPlan)}
    if not values:
        return max(plans)
    best = min(values.values())
    return min(mixes for mixes, value in values.items() if value <= best + near(best, saves))


def near(best: Fraction, saves: Fraction | None) -> Fraction:
    """How far from the best still counts as near enough [money]."""
    return best * ANOTHER_MIX_SAVES_SHARE if saves is None else saves


def _better(plan: SeasonPlan | Unmet, before: SeasonPlan | Unmet | None) -> SeasonPlan | Unmet:
    """The plan, or the one with fewer mixes where that is better; the bound stays its own."""
    if not isinstance(before, SeasonPlan):
        return plan
    if isinstance(plan, Unmet):
        return replace(before, bound=Fraction(0), proven_by="nothing yet: counted from nought")
    if before.value >= plan.value:
        return plan
    bound = min(plan.bound, before.value)
    return replace(before, bound=bound, proven_by=plan.proven_by, seconds=plan.seconds)


def _bounded(plan: SeasonPlan | Unmet, more: SeasonPlan | Unmet) -> SeasonPlan | Unmet:
    if isinstance(plan, Unmet) or isinstance(more, Unmet) or plan.bound >= more.bound:
        return plan
    return replace(plan, bound=more.bound, proven_by=more.proven_by)
