"""A planned season with its dated tasks, ready for paper and calendar."""

from collections.abc import Sequence

from halfpail.application.advise_beds import advise_beds
from halfpail.application.date_season import DatedFeed
from halfpail.application.dated_task import Task
from halfpail.application.list_soil_tasks import soil_tasks, spread_notices
from halfpail.application.list_tasks import list_tasks
from halfpail.application.list_tending import list_sowings
from halfpail.application.open_garden import OpenedGarden
from halfpail.application.print_season import SeasonQuestion
from halfpail.application.schedule_doses import schedule_doses
from halfpail.application.season_answer import SeasonAnswer
from halfpail.domain.frost_calendar import FrostDates
from halfpail.findings import Notice


def season_on_paper(
    opened: OpenedGarden,
    answer: SeasonAnswer,
    dated: Sequence[DatedFeed] = (),
    notices: Sequence[Notice] = (),
) -> SeasonQuestion:
    """What can be printed of a season; without frost dates there are no tasks.

    `dated` and `notices` are the days that were found for its feedings, and what to mind of them.
    """
    schedule = schedule_doses(opened, answer, dated, notices)
    frost, units = frost_of(opened), opened.garden.preferences.units
    lime, stands = advise_beds(opened, units), schedule.stands
    tending: tuple[Task, ...] = ()
    if frost:
        tending = (*list_sowings(stands, frost), *soil_tasks(opened, lime, stands, frost))
    return SeasonQuestion(
        garden=opened.garden,
        answer=answer,
        schedule=schedule,
        tasks=list_tasks(answer, schedule, tending, units) if frost else (),
        lime_notices=tuple(spread_notices(lime)),
    )


def frost_of(opened: OpenedGarden) -> FrostDates | None:
    """The frost dates of a garden's place, where they are known."""
    return opened.climate.frost if opened.climate else None
