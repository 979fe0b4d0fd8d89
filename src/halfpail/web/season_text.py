"""What a season's long work is asked and answers, as the values that its rows hold as text."""

from collections.abc import Hashable
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Any, TypeVar, cast

from halfpail.application.compare_mixes import Comparison
from halfpail.application.date_season import DatedFeed
from halfpail.application.garden_entry import GardenEntry
from halfpail.application.time_feedings import WeekOfBed
from halfpail.domain.season import SeasonPlan
from halfpail.findings import Notice
from halfpail.wiring import services

SEASON, DATES = "season", "dates of a season"
REMEMBERED = 32
T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonAsked:
    """The garden to plan for, its mixes as wished; nothing is dated before `start`."""

    garden: int
    entry: GardenEntry
    start: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DatesAsked:
    """A plan that was kept, and the garden it was made for."""

    entry: GardenEntry
    plan: SeasonPlan
    start: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BedCurve:
    """Nitrogen wanted and come over the weeks of one bed."""

    bed: str
    weeks: tuple[WeekOfBed, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DatesFound:
    """What goes on when, what to mind, and the curves of the beds that were dated."""

    feeds: tuple[DatedFeed, ...]
    notices: tuple[Notice, ...]
    curves: tuple[BedCurve, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonFound:
    """The plan, for so many mixes at most, or in sentences why there is none."""

    plan: SeasonPlan | None = None
    mixes: int = 1
    comparison: Comparison | None = None
    dates: DatesFound | None = None
    unmet: tuple[str, ...] = ()


def read_text(kind: type[T], text: str) -> T:
    """The value that a row's text stands for, read once and then remembered."""
    return cast(T, _remembered(cast(Hashable, kind), text))


@lru_cache(maxsize=REMEMBERED)
def _remembered(kind: Any, text: str) -> Any:
    return services().from_text(kind, text)
