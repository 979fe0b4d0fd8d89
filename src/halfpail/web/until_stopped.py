"""Long work that looks up between its bags whether somebody asked it to stop."""

from collections.abc import Callable
from typing import TypeVar

from halfpail.application.ports import SeasonEffort

T = TypeVar("T")


class _Stopped(Exception):
    """Somebody asked this work to stop."""


def until_stopped(effort: SeasonEffort, work: Callable[[Callable[[str], None]], T]) -> T | None:
    """What `work` finds, which calls what it is given before each bag; None where it is stopped."""

    def between_bags(_: str) -> None:
        if effort.should_stop and effort.should_stop():
            raise _Stopped

    try:
        return work(between_bags)
    except _Stopped:
        return None
