"""Where a plan leaves beds below their least: why, and what would bring them up to it."""

from dataclasses import replace
from fractions import Fraction

from halfpail.application.mend_season import Bench, Mending, SeasonRepair, mend_season
from halfpail.application.pose_season import pose_season
from halfpail.application.tell_season import COUNTED, LEEWAY
from halfpail.domain.garden import Garden
from halfpail.domain.season import Limit, SeasonPlan, SeasonProblem, Unmet
from halfpail.domain.season_check import check_season

NONE = Fraction(0)


def mend_short(garden: Garden, plan: SeasonPlan, bench: Bench) -> Mending | None:
    """What is in the way of the least of every bed that a plan leaves short of it.

    None where no bed is short of its least. Where all of them can be met after all, and it was
    only not worth it, that is the first repair.
    """
    problem = pose_season(garden)
    short = short_of_least(garden, problem, plan)
    if not short:
        return None
    firm = replace(
        problem,
        limits=tuple(
            replace(limit, price_per_kg=None) if limit in short else limit
            for limit in problem.limits
        ),
    )
    met = bench.engine.solve(firm, bench.effort)
    if isinstance(met, Unmet):
        return mend_season(firm, met, bench)
    sentence = "Meet them all the same: the plan left them short because it comes to less so."
    return Mending(
        hints=(), in_the_way=(), repairs=(SeasonRepair(sentence=sentence, problem=firm, plan=met),)
    )


def short_of_least(garden: Garden, problem: SeasonProblem, plan: SeasonPlan) -> tuple[Limit, ...]:
    """The limits of a least that a plan misses by more than a scoop can tell."""
    least = {
        (bed.key, COUNTED[need.nutrient][0], need.least * bed.area_m2)
        for bed in garden.beds
        for need in bed.needs
        if need.least
    }
    received = check_season(problem, plan).received
    return tuple(
        limit
        for limit in problem.limits
        if limit.price_per_kg is not None
        and limit.at_least is not None
        and (limit.plot, limit.content, limit.at_least) in least
        and received.get((limit.plot, limit.content), NONE) < limit.at_least * (1 - LEEWAY)
    )
