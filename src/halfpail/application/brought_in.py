"""What a file brings into a garden, and what was really brought, so that it can be taken back."""

from dataclasses import dataclass
from typing import Generic, TypeVar

from halfpail.application.garden_entry import BagEntry, BedEntry
from halfpail.application.kept import Kept
from halfpail.domain.diary import Event

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Change(Generic[T]):
    """A value to keep: a new one, or one in the place of what was seen."""

    value: T
    seen: Kept[T] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """Everything one file brings, to be kept whole or not at all."""

    bags: tuple[Change[BagEntry], ...] = ()
    beds: tuple[Change[BedEntry], ...] = ()
    events: tuple[Event, ...] = ()

    @property
    def count(self) -> int:
        """How many they are."""
        return len(self.bags) + len(self.beds) + len(self.events)


@dataclass(frozen=True, slots=True, kw_only=True)
class BagTrace:
    """A bag that was kept: its key and version, and what stood there before."""

    key: int
    version: int
    before: BagEntry | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BedTrace:
    """A bed that was kept: its key and version, and what stood there before."""

    key: int
    version: int
    before: BedEntry | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Brought:
    """What one file really brought, by the name of the file and the token it came under.

    `left` tells after taking back what had changed since.
    """

    file: str = ""
    token: str = ""
    bags: tuple[BagTrace, ...] = ()
    beds: tuple[BedTrace, ...] = ()
    lines: tuple[int, ...] = ()
    taken_back: bool = False
    left: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """How many of each.

        >>> Brought(lines=(1, 2), bags=(BagTrace(key=1, version=1),)).words
        '1 bag and 2 lines of the diary'
        """
        counts = (
            (len(self.bags), "bag", "bags"),
            (len(self.beds), "bed", "beds"),
            (len(self.lines), "line of the diary", "lines of the diary"),
        )
        told = [f"{count} {one if count == 1 else many}" for count, one, many in counts if count]
        return " and ".join(filter(None, (", ".join(told[:-1]), *told[-1:])))
