"""The season on paper, week by week."""

from collections.abc import Sequence
from dataclasses import dataclass

from halfpail.application.dated_task import Task, by_week
from halfpail.application.page import Page
from halfpail.application.paper_notices import PaperNotice, paper_notices
from halfpail.findings import Notice
from halfpail.quantities.dates import day_words


@dataclass(frozen=True, slots=True, kw_only=True)
class ListRow:
    """One task of a week; each tells its day, since a page may begin with it."""

    day: str
    title: str
    details: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekOfTasks:
    """The tasks of one week."""

    week: str
    rows: tuple[ListRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonList(Page):
    """The words of the list."""

    weeks: tuple[WeekOfTasks, ...]
    notices: tuple[PaperNotice, ...]


def print_season_list(
    garden: str, tasks: Sequence[Task], notices: Sequence[Notice] = ()
) -> SeasonList:
    """The tasks of a season under the Monday of their week."""
    return SeasonList(
        title=f"Season list: {garden}",
        weeks=tuple(
            WeekOfTasks(week=f"Week of {day_words(monday)}", rows=_rows(found))
            for monday, found in by_week(tasks).items()
        ),
        notices=paper_notices(notices),
    )


def _rows(tasks: Sequence[Task]) -> tuple[ListRow, ...]:
    return tuple(
        ListRow(day=f"{task.on:%a} {task.on.day}", title=task.title, details=task.details)
        for task in tasks
    )
