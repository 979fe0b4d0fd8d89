"""What the garden of a kept plan asks for beside feedings: reckoned once and then remembered."""

from dataclasses import dataclass
from functools import lru_cache

from halfpail.application.dated_task import Task
from halfpail.application.garden_entry import GardenEntry
from halfpail.application.season_on_paper import frost_of, season_on_paper
from halfpail.domain.season import SeasonPlan
from halfpail.findings import Notice
from halfpail.quantities.units import System
from halfpail.web.told_season import told_season

REMEMBERED = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Tending:
    """Every dated task of a season, and what to mind where lime is spread."""

    tasks: tuple[Task, ...]
    notices: tuple[Notice, ...]


@lru_cache(maxsize=REMEMBERED)
def told_tending(entry: GardenEntry, plan: SeasonPlan, system: System) -> Tending:
    """The tasks as they stand on paper; none without frost dates.

    Raises:
        NoLonger: the plan does no longer.
    """
    told = told_season(entry, plan, system)
    if frost_of(told.opened) is None:
        return Tending(tasks=(), notices=())
    paper = season_on_paper(told.opened, told.answer)
    return Tending(tasks=paper.tasks, notices=paper.lime_notices)
