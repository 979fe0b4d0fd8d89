"""What the page of a kept plan shows, and that of two plans side by side."""

from collections.abc import Sequence
from dataclasses import dataclass

from halfpail.application.kept import Kept, SeasonEntry
from halfpail.application.season_answer import SeasonAnswer
from halfpail.application.word_mix import Table
from halfpail.quantities.dates import day_words
from halfpail.web.pages.season import SeasonSheet

NOTHING = "-"


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptSeasonPage:
    """A plan as it was made; `waiting` says that its dates are being worked out."""

    kept: Kept[SeasonEntry]
    sheet: SeasonSheet
    others: tuple[Kept[SeasonEntry], ...]
    waiting: bool

    @property
    def made_on(self) -> str:
        """The day it was made."""
        return day_words(self.kept.value.made_on)

    @property
    def can_date(self) -> bool:
        """Whether the frost dates are known."""
        return self.kept.value.garden.climate is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoPlans:
    """Two plans: what each costs and how it fits, and the bags each buys."""

    names: tuple[str, ...]
    ways: Table
    bags: Table


def bags_table(names: Sequence[str], answers: Sequence[SeasonAnswer]) -> Table:
    """How many of each bag each of the plans buys."""
    counts = [{one.bag.name: one.bought for one in answer.bags if one.bought} for answer in answers]
    bags = dict.fromkeys(name for each in counts for name in each)
    rows = tuple(
        (bag, *(str(each[bag]) if bag in each else NOTHING for each in counts)) for bag in bags
    )
    return Table(headings=("bag to buy", *names), rows=rows)
