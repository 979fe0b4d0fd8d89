"""The tasks of a season as entries of a calendar that other programs read."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Protocol
from uuid import UUID, uuid5

from halfpail.application.dated_task import Task

_TASKS = UUID("6f1a6cb4-3b1e-5c53-9d0c-0b7e5f2a9d11")


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarEntry:
    """One whole day; `uid` stays the same while the task does, so it is moved, not doubled.

    `revision` is at least the number of changes so far: of two, a calendar believes the higher.
    """

    uid: str
    on: date
    title: str
    details: str
    kind: str
    revision: int = 0


class CalendarWriter(Protocol):
    """Writes calendar files."""

    def write(
        self,
        name: str,
        entries: Sequence[CalendarEntry],
        stamped_at: datetime,
        earlier: bytes | None = None,
    ) -> bytes:
        """The file; with an earlier one, what changed counts up and what is gone is called off.

        Raises:
            Refusal: the earlier file is no calendar.
        """
        ...


def calendar_entries(
    garden: str, year: int, tasks: Sequence[Task], revision: int = 0
) -> tuple[CalendarEntry, ...]:
    """The entries of the tasks of a season, that of a year, in the order of their days.

    Next year's feeding of a bed is another task.

    >>> task = Task(key="lime", on=date(2027, 10, 1), kind="lime", title="Spread lime")
    >>> later = Task(key="lime", on=date(2027, 10, 9), kind="lime", title="Spread lime")
    >>> calendar_entries("A", 2027, [task])[0].uid == calendar_entries("A", 2027, [later])[0].uid
    True
    """
    return tuple(
        CalendarEntry(
            uid=f"{uuid5(_TASKS, f'{garden}/{year}/{task.key}')}@halfpail.invalid",
            on=task.on,
            title=task.title,
            details=task.details,
            kind=task.kind,
            revision=revision,
        )
        for task in tasks
    )
