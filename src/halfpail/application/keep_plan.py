"""Keep the old plan of a season unless a new one saves a stated amount."""

from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction

from halfpail.application.plan_season import GOOD_ENOUGH, tell, with_mixes
from halfpail.application.ports import SeasonEffort, SeasonEngine
from halfpail.application.pose_season import pose_season
from halfpail.application.season_answer import SeasonAnswer
from halfpail.domain.garden import Garden
from halfpail.domain.season import SeasonPlan, SeasonProblem, Unmet
from halfpail.domain.season_check import check_season
from halfpail.domain.season_cost import recost

NONE = Fraction(0)
# Our default, not published: what it takes to throw away mixing cards and pails already marked.
NEW_PLAN_SAVES = Fraction(5)


class Kept(StrEnum):
    """What became of the old plan."""

    OLD = "the old plan is kept"
    NEW = "the new plan saves enough"
    BROKEN = "the old plan no longer does"


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptSeason:
    """The season with the plan that stands, and what the new one saves beside the old [money].

    `because` tells what the old plan would break today.
    """

    season: SeasonAnswer
    kept: Kept
    saved_money: Fraction
    saves_enough_money: Fraction
    because: tuple[str, ...] = ()


def keep_plan(
    garden: Garden,
    old: SeasonPlan,
    engine: SeasonEngine,
    effort: SeasonEffort = GOOD_ENOUGH,
    saves: Fraction = NEW_PLAN_SAVES,
) -> KeptSeason | Unmet:
    """Plan a season anew, and keep the mixes and feedings of the old plan where they still do.

    The old plan is bought and counted anew, from what is in the shed and on offer today. It gives
    way only if the new one is better by at least `saves` [money, misses counted in].
    """
    wished = garden.preferences.mixes or max(1, len(old.stirs))
    asked = with_mixes(garden, wished)
    problem = pose_season(asked)
    broken = what_it_breaks(problem, old)
    new = engine.solve(problem, effort)
    if isinstance(new, Unmet):
        return new
    if broken:
        return KeptSeason(
            season=tell(asked, new),
            kept=Kept.BROKEN,
            saved_money=NONE,
            saves_enough_money=saves,
            because=broken,
        )
    today = recost(problem, old)
    saved = max(NONE, today.value - new.value)
    stays = saved < saves
    bound = min(new.bound, today.value)
    proven = replace(today, bound=bound, proven_by=new.proven_by, seconds=new.seconds)
    return KeptSeason(
        season=tell(asked, proven if stays else new),
        kept=Kept.OLD if stays else Kept.NEW,
        saved_money=saved,
        saves_enough_money=saves,
    )


def what_it_breaks(problem: SeasonProblem, plan: SeasonPlan) -> tuple[str, ...]:
    """What an old plan would break in a season as it is today; nothing where it still does."""
    bags = {bag.key for bag in problem.ingredients}
    beds = {plot.key for plot in problem.plots}
    named = {key for stir in plan.stirs for key in stir.scoops}
    named |= {each.of for each in plan.feedings if isinstance(each.of, str)}
    gone = [f"there is no bag {key} any more" for key in sorted(named - bags)]
    fed = {each.plot for each in plan.feedings}
    gone += [f"there is no bed {key} any more" for key in sorted(fed - beds)]
    if any(isinstance(one.of, int) and not 0 <= one.of < len(plan.stirs) for one in plan.feedings):
        gone.append("a bed gets a mix that is not stirred")
    if gone:
        return tuple(gone)
    check = check_season(problem, recost(problem, plan))
    return tuple(f"{breach.place} {breach.sentence}" for breach in check.breaches)
