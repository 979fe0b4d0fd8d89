"""One thing to do on a day, and such things week by week."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One thing to do on a day; `key` stays the same while the task is the same task."""

    key: str
    on: date
    kind: str
    title: str
    details: str = ""


def by_week(tasks: Sequence[Task]) -> dict[date, list[Task]]:
    """Tasks under the Monday of their week, in the order of their days.

    >>> task = Task(key="a", on=date(2027, 5, 13), kind="feed", title="Feed")
    >>> list(by_week([task]))
    [datetime.date(2027, 5, 10)]
    """
    weeks: dict[date, list[Task]] = {}
    for task in sorted(tasks, key=lambda one: one.on):
        weeks.setdefault(task.on - timedelta(days=task.on.weekday()), []).append(task)
    return weeks
