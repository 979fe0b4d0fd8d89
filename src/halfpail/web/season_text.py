"""What a season's long work is asked and answers, as the values that its rows hold as text."""

from collections.abc import Hashable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from functools import lru_cache
from typing import Any, TypeVar, cast

from halfpail.application.compare_mixes import Comparison
from halfpail.application.date_season import DatedFeed
from halfpail.application.garden_entry import GardenEntry
from halfpail.application.keep_plan import NEW_PLAN_SAVES, Kept
from halfpail.application.other_plans import OtherPlans
from halfpail.application.time_feedings import WeekOfBed
from halfpail.domain.season import SeasonPlan
from halfpail.findings import Notice
from halfpail.wiring import services

SEASON, DATES = "season", "dates of a season"
REMEMBERED = 32
T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonWish:
    """What a gardener wishes of a plan; `mixes` None means: find the number.

    `cups` is how many sizes of amounts a mix may have, `budget` the most to spend [money], and the
    plan that is followed is kept, where that is wished, unless a new one saves `unless_saves`.
    """

    mixes: int | None
    from_today: bool = False
    budget: Fraction | None = None
    cups: int | None = None
    keep_old: bool = False
    unless_saves: Fraction = NEW_PLAN_SAVES
    others: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonAsked:
    """The garden to plan for, its mixes and budget as wished; nothing is dated before `start`.

    `old` is a plan to be kept unless a new one saves enough.
    """

    garden: int
    entry: GardenEntry
    start: date | None = None
    old: SeasonPlan | None = None
    unless_saves: Fraction = NEW_PLAN_SAVES
    cups: int | None = None
    others: bool = False

    @property
    def wish(self) -> SeasonWish:
        """What was wished."""
        liked = self.entry.preferences
        return SeasonWish(
            mixes=liked.mixes,
            from_today=self.start is not None,
            budget=liked.budget,
            cups=self.cups,
            keep_old=self.old is not None,
            unless_saves=self.unless_saves,
            others=self.others,
        )


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
class OldPlan:
    """What became of the plan before, and what a new one saves beside what is enough [money]."""

    kept: Kept
    saved_money: Fraction
    saves_enough_money: Fraction
    because: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FewSizes:
    """The sizes in words, and what they cost beside free amounts [money]; none where refused."""

    sizes: tuple[str, ...] = ()
    worse_money: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonFound:
    """The plan, for so many mixes at most, or in sentences why there is none and what would help.

    What was not asked for is None.
    """

    plan: SeasonPlan | None = None
    mixes: int = 1
    comparison: Comparison | None = None
    dates: DatesFound | None = None
    unmet: tuple[str, ...] = ()
    help: tuple[str, ...] = ()
    old: OldPlan | None = None
    few: FewSizes | None = None
    others: OtherPlans | None = None


def read_text(kind: type[T], text: str) -> T:
    """The value that a row's text stands for, read once and then remembered."""
    return cast(T, _remembered(cast(Hashable, kind), text))


@lru_cache(maxsize=REMEMBERED)
def _remembered(kind: Any, text: str) -> Any:
    return services().from_text(kind, text)
