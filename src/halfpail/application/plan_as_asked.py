"""All that was asked of a season, worked out in turn."""

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from halfpail.application.compare_mixes import Comparison, compare_mixes
from halfpail.application.explain_season import SeasonExplanation, explain_season
from halfpail.application.group_doses import GroupedDoses, group_doses
from halfpail.application.keep_plan import NEW_PLAN_SAVES, KeptSeason, keep_plan
from halfpail.application.mend_season import Bench, Mending, mend_season
from halfpail.application.mend_short import mend_short
from halfpail.application.other_plans import OtherPlans, other_plans
from halfpail.application.plan_season import plan_season, tell, with_mixes
from halfpail.application.pose_season import pose_season
from halfpail.application.season_answer import SeasonAnswer
from halfpail.domain.garden import Garden
from halfpail.domain.season import SeasonPlan, Unmet


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What of a season is to be told beyond the plan.

    Nothing is dated before `start`. `old` is a plan to be kept if it does; `cups` is how many
    sizes of amounts a mix may have.
    """

    compare: bool = False
    explain: bool = False
    others: bool = False
    cups: int | None = None
    start: date | None = None
    old: SeasonPlan | None = None
    unless_saves: Fraction = NEW_PLAN_SAVES


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonParts:
    """The season, or why there is none, and what else was asked; what was not is None.

    `cups_refused` says that so few sizes would break a hard limit.
    """

    season: SeasonAnswer | Unmet
    comparison: Comparison | None = None
    kept: KeptSeason | None = None
    grouped: GroupedDoses | None = None
    cups_refused: bool = False
    explanation: SeasonExplanation | None = None
    others: OtherPlans | None = None
    mending: Mending | None = None


def plan_as_asked(garden: Garden, asked: Asked, bench: Bench) -> SeasonParts:
    """Plan the season; compare where asked, or where the number of mixes is to be found."""
    engine, solver, effort = bench.engine, bench.solver, bench.effort
    comparison: Comparison | None = None
    kept: KeptSeason | None = None
    if asked.old is not None:
        answer = keep_plan(garden, asked.old, engine, effort, asked.unless_saves)
        kept = None if isinstance(answer, Unmet) else answer
        season = answer if isinstance(answer, Unmet) else answer.season
    elif asked.compare or garden.preferences.mixes is None:
        compared = compare_mixes(garden, engine, solver, effort)
        season, comparison = compared.season, compared.comparison
    else:
        season = plan_season(garden, engine, effort)
    if isinstance(season, Unmet):
        mending = mend_season(pose_season(garden), season, bench)
        return SeasonParts(season=season, comparison=comparison, mending=mending)
    planned = with_mixes(garden, max(1, len(season.plan.stirs)))
    # Others have amounts of their own for every bed, so they are laid beside a plan that has too.
    others = other_plans(planned, season, engine, effort) if asked.others else None
    grouped: GroupedDoses | None = None
    if asked.cups is not None:
        grouped = group_doses(pose_season(planned), season.plan, asked.cups, solver)
        season = season if grouped is None else tell(planned, grouped.plan)
    return SeasonParts(
        season=season,
        comparison=comparison,
        kept=kept,
        grouped=grouped,
        cups_refused=asked.cups is not None and grouped is None,
        explanation=explain_season(garden, season, solver) if asked.explain else None,
        others=others,
        mending=mend_short(planned, season.plan, bench) if asked.explain else None,
    )
