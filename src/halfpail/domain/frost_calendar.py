"""Planting and sowing dates counted from the frost dates, in either hemisphere.

The frost dates are whole dates of one growing season: the last frost of spring, then the first of
autumn. In the south the first frost falls in the next year; nothing else changes.
"""

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

_YEAR = timedelta(days=365)


class Frost(StrEnum):
    """The frost a date is counted from."""

    LAST = "last frost of spring"
    FIRST = "first frost of autumn"


class Way(StrEnum):
    """How a crop is put in."""

    INDOORS = "sow indoors"
    OUTDOORS = "sow or set out"


@dataclass(frozen=True, slots=True, kw_only=True)
class FrostDates:
    """The average last frost of spring and first frost of autumn of one season.

    Raises:
        ValueError: the first does not follow the last within a year.
    """

    last: date
    first: date

    def __post_init__(self) -> None:
        """Refuse dates that are no season."""
        if not self.last < self.first < self.last + _YEAR:
            raise ValueError("the first frost of autumn follows the last of spring within a year")

    @property
    def free_days(self) -> int:
        """Length of the frost-free season [days]."""
        return (self.first - self.last).days

    @property
    def southern(self) -> bool:
        """Whether the middle of the season falls in the southern summer, October to March."""
        middle = self.last + (self.first - self.last) / 2
        return not 4 <= middle.month <= 9

    def on(self, frost: Frost) -> date:
        """The date of one of the two."""
        return self.last if frost is Frost.LAST else self.first


@dataclass(frozen=True, slots=True, kw_only=True)
class Offsets:
    """Days from a frost date, before it below nought; `until_days` None leaves the end open."""

    frost: Frost
    from_days: int
    until_days: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """First and last date to plant; `until` is None where the end is open."""

    start: date
    until: date | None


def planting_window(offsets: Offsets, frost: FrostDates) -> Window:
    """The dates of a window in one season.

    Tender crops, frost-free date 22 April: 25 April to 10 May (University of Illinois Extension).

    >>> frost = FrostDates(last=date(2027, 4, 22), first=date(2027, 10, 10))
    >>> tender = Offsets(frost=Frost.LAST, from_days=3, until_days=18)
    >>> planting_window(tender, frost).until
    datetime.date(2027, 5, 10)
    """
    counted_from = frost.on(offsets.frost)
    until = None if offsets.until_days is None else timedelta(days=offsets.until_days)
    return Window(
        start=counted_from + timedelta(days=offsets.from_days),
        until=None if until is None else counted_from + until,
    )


def latest_sowing(frost: FrostDates, maturity_days: int, slower_days: int) -> date:
    """The last date to sow for autumn: days to maturity and the short days before the frost [days].

    >>> frost = FrostDates(last=date(2027, 4, 22), first=date(2027, 10, 10))
    >>> latest_sowing(frost, 50, 14)
    datetime.date(2027, 8, 7)
    """
    return frost.first - timedelta(days=maturity_days + slower_days)
