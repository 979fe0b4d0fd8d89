"""What the rows of a spreadsheet come to, held against what the garden has already."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import Any, Generic, Protocol, TypeVar

from halfpail.application.garden_entry import BagEntry, BedEntry, GardenEntry
from halfpail.application.kept import Kept
from halfpail.domain.diary import Event
from halfpail.findings import Fault

T = TypeVar("T")


class Standing(StrEnum):
    """How a row stands to what is kept."""

    NEW = "new"
    CHANGED = "here already, but different"
    SAME = "here already"
    MORE = "tells more of a bed"
    FAULTY = "cannot be used"


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundRow(Generic[T]):
    """A row: its number in the file, what it is about, and the value, unless it has faults.

    `seen` is what is kept under the same name; the value is then the two together, and `differs`
    tells what of it would change.
    """

    number: int
    name: str
    standing: Standing
    value: T | None = None
    seen: Kept[T] | None = None
    differs: tuple[str, ...] = ()
    faults: tuple[Fault, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class GardenNow:
    """The garden that rows are brought into, and the day it is.

    `recipes` are the mixes the diary can name.
    """

    about: GardenEntry
    today: date
    bags: tuple[Kept[BagEntry], ...] = ()
    beds: tuple[Kept[BedEntry], ...] = ()
    diary: tuple[Event, ...] = ()
    recipes: Mapping[str, Mapping[str, int]] = field(default_factory=dict, hash=False)


class EntryReader(Protocol):
    """Reads single bags and beds by the keys of a garden file, and says kept ones in them."""

    def read_bag_row(self, bag: Mapping[str, object], place: str, about: GardenEntry) -> BagEntry:
        """One bag, or a refusal with every fault found."""
        ...

    def read_bed_row(self, bed: Mapping[str, object], place: str) -> BedEntry:
        """One bed, or a refusal with every fault found."""
        ...

    def words_of(self, entry: GardenEntry) -> Mapping[str, Any]:
        """A garden by the keys of a garden file."""
        ...


def plain_name(name: str) -> str:
    """A name without case and odd spaces; two of which this is the same are one name.

    >>> plain_name(" North  Bed")
    'north bed'
    """
    return " ".join(name.split()).casefold()
