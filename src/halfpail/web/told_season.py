"""Plans told in the units of a page: each is reckoned once and then remembered."""

from dataclasses import dataclass, replace
from functools import lru_cache

from halfpail.application.explain_season import SeasonExplanation, explain_season
from halfpail.application.garden_entry import GardenEntry
from halfpail.application.keep_plan import what_it_breaks
from halfpail.application.open_garden import OpenedGarden, open_garden
from halfpail.application.plan_season import tell, with_mixes
from halfpail.application.pose_season import pose_season
from halfpail.application.season_answer import SeasonAnswer
from halfpail.domain.garden import Garden
from halfpail.domain.season import SeasonPlan
from halfpail.domain.season_check import check_season
from halfpail.domain.season_cost import recost
from halfpail.findings import Fault, Notice, Refusal
from halfpail.quantities.units import System
from halfpail.wiring import services

REMEMBERED = 16


class NoLonger(Refusal):
    """A plan that did when it was made and does not now, since a limit or a table has changed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldSeason:
    """A plan, told, with the garden it was made for and how its bags were read."""

    opened: OpenedGarden
    answer: SeasonAnswer

    @property
    def garden(self) -> Garden:
        """The garden it was made for."""
        return self.opened.garden

    @property
    def notices(self) -> tuple[Notice, ...]:
        """What should be known of how its bags were read."""
        return self.opened.notices


@lru_cache(maxsize=REMEMBERED)
def told_season(entry: GardenEntry, plan: SeasonPlan, system: System) -> ToldSeason:
    """The plan of a garden that says how many mixes it may have.

    Where its money does not count up any more, or never did in a file, it is counted anew.

    Raises:
        NoLonger: the garden cannot be opened any more, or the plan breaks a limit of today.
    """
    liked = replace(entry.preferences, units=system)
    try:
        opened = open_garden(replace(entry, preferences=liked))
    except Refusal as refusal:
        raise NoLonger(*refusal.faults) from refusal
    garden = with_mixes(opened.garden, liked.mixes or max(1, len(plan.stirs)))
    problem = pose_season(garden)
    broken = what_it_breaks(problem, plan)
    if broken:
        raise NoLonger(*(Fault(place="", read="", sentence=words) for words in broken))
    if check_season(problem, plan).breaches:
        plan = recost(problem, plan)
    return ToldSeason(opened=replace(opened, garden=garden), answer=tell(garden, plan))


@lru_cache(maxsize=REMEMBERED)
def explained_season(entry: GardenEntry, plan: SeasonPlan, system: System) -> SeasonExplanation:
    """Why the plan is as it is."""
    told = told_season(entry, plan, system)
    return explain_season(told.garden, told.answer, services().solver)
