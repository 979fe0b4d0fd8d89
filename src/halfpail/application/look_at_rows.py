"""Rows of bags, beds and soil tests read into entries: every fault with its row and column."""

import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from halfpail.application.fill_bag import fill_bag
from halfpail.application.found_rows import (
    EntryReader,
    FoundRow,
    GardenNow,
    Standing,
    plain_name,
)
from halfpail.application.garden_entry import BagEntry, BedEntry
from halfpail.application.garden_tables import BAGS, BEDS, SOIL_TESTS
from halfpail.application.gather_below import BelowBeds, bed_of, below_rows
from halfpail.application.kept import Kept
from halfpail.application.match_columns import Matching
from halfpail.application.need_of_bed import need_of_bed
from halfpail.application.row_words import RowWords, head_of, rows_of
from halfpail.application.spreadsheet import Sheet
from halfpail.findings import Fault, Refusal
from halfpail.quantities.typed_text import quoted

# As many bags, beds and tests as a garden file may have, and more lines of other sheets.
MOST_ROWS, MOST_LINES = 200, 2000
OF_A_KIND = (BAGS.name, BEDS.name, SOIL_TESTS.name)
BROKEN = "Another sheet tells more of this bed, and a row of it cannot be used."
MEND_BELOW = "Mend that row first."
ADD_BED = "Add the bed to that sheet, or take this row out."
NO_BED = "No row of a sheet of beds is about this bed."
NAME, BED = "name", "bed"
T = TypeVar("T", BagEntry, BedEntry)
_Known = Mapping[str, tuple[Kept[T], Mapping[str, Any]]]
# Something below a bed: `crops[2].share`.
_PART = re.compile(r"(\w+)\[(\d+)\]\.?(.*)")
NOTHING_BELOW = BelowBeds(tables={})
# A remedy of the garden file names its key and a value: `size = "4 x 12 ft"`.
_KEY_AND_VALUE = re.compile(r'(\w+) = (?:"([^"]*)"|(\d+))')

# What is told in one of these ways is no longer told in the other.
_INSTEAD = (
    ({"size"}, {"row", "row_width"}),
    ({"row", "row_width"}, {"size"}),
    ({"crop"}, {"crops"}),
    ({"crops"}, {"crop", "yield"}),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetAsked:
    """A sheet with what it is taken for, the garden it goes into, and who reads entries.

    `below` is what other sheets of the file tell of its beds.
    """

    sheet: Sheet
    matching: Matching
    now: GardenNow
    reader: EntryReader
    below: BelowBeds = NOTHING_BELOW

    def rows(self) -> tuple[RowWords, ...]:
        """The rows that say something.

        Raises:
            Refusal: there are more than a garden has.
        """
        found = tuple(rows_of(self.sheet, self.matching))
        if self.matching.table == SOIL_TESTS.name:
            found = tuple(map(_under_name, found))
        most = MOST_ROWS if self.matching.table in OF_A_KIND else MOST_LINES
        if len(found) > most:
            fault = Fault(
                place=self.sheet.name,
                read=str(len(found)),
                sentence=f"There are more than {most} rows here.",
                remedy="Bring them in in several files.",
            )
            raise Refusal(fault)
        return found

    def at_head(self, fault: Fault) -> Fault:
        """A fault in the words of the file: its row, and the head of its column."""
        before, _, rest = fault.place.partition(", ")
        row, _, key = before.partition(".")
        key = key.removeprefix("soil_test.")
        head = self._head(key) if key else ""
        parts = [row, head, "" if rest == key else rest]
        remedy = _KEY_AND_VALUE.sub(
            lambda told: f"{told[2] or told[3]} under “{self._head(told[1])}”", fault.remedy
        )
        place = ", ".join(filter(None, parts))
        return replace(fault, place=place, read=quoted(fault.read), remedy=remedy)

    def is_same_bed(self, one: BedEntry, other: BedEntry) -> bool:
        """Whether two beds say the same; where in a text their parts stood is no part of it."""
        first, second = (
            self.reader.words_of(replace(self.now.about, bags=(), beds=(replace(bed, typed={}),)))
            for bed in (one, other)
        )
        return first == second

    def _head(self, key: str) -> str:
        if part := _PART.fullmatch(key):
            return ", ".join(filter(None, (f"{part[1]} {part[2]}", part[3])))
        own = BED if key == NAME and self.matching.table == SOIL_TESTS.name else key
        return head_of(self.sheet, self.matching, own)


def look_at_bags(asked: SheetAsked) -> tuple[FoundRow[BagEntry], ...]:
    """The bags of a sheet; what is kept under a name keeps what the sheet has no column for."""
    about = asked.now.about
    words = asked.reader.words_of(
        replace(about, bags=tuple(one.value for one in asked.now.bags), beds=())
    )
    kept = _by_name(asked.now.bags, words.get("bags", []))

    def read(row: RowWords, before: Mapping[str, Any]) -> BagEntry:
        entry = asked.reader.read_bag_row(_together(before, row), row.place, about)
        at_label = replace(entry, place=f"{row.place}.label")
        fill_bag(at_label, about.tools.scoop_l, about.elemental_labels)
        return entry

    return tuple(_found(asked, kept, read, lambda one, other: one == other))


def look_at_beds(asked: SheetAsked) -> tuple[FoundRow[BedEntry], ...]:
    """The beds of a sheet; what is kept under a name keeps what the sheet has no column for."""

    def read(row: RowWords, before: Mapping[str, Any]) -> BedEntry:
        name = plain_name(str(row.words.get(NAME, "")))
        if name in asked.below.broken:
            raise Refusal(Fault(place=row.place, read="", sentence=BROKEN, remedy=MEND_BELOW))
        below = asked.below.of(name)
        told = _together(before, replace(row, words={**row.filled, **below}))
        entry = asked.reader.read_bed_row(told, row.place)
        need_of_bed(entry, asked.now.about.preferences.units)
        return entry

    return tuple(_found(asked, _known_beds(asked), read, asked.is_same_bed))


def look_at_soil_tests(asked: SheetAsked) -> tuple[FoundRow[BedEntry], ...]:
    """The beds of a sheet of soil tests, each with its test."""

    def read(row: RowWords, before: Mapping[str, Any]) -> BedEntry:
        if not before:
            known = (one.value.name for one in asked.now.beds)
            raise Refusal(_no_such_bed(row, str(row.words.get(NAME, "")), known))
        test = {key: value for key, value in row.filled.items() if key != NAME}
        entry = asked.reader.read_bed_row({**before, "soil_test": test}, row.place)
        need_of_bed(entry, asked.now.about.preferences.units)
        return entry

    def is_here(seen: Kept[BedEntry]) -> bool:
        return seen.value.soil_test is not None

    return tuple(_found(asked, _known_beds(asked), read, asked.is_same_bed, is_here))


def look_at_below(asked: SheetAsked, beds: Collection[str]) -> tuple[FoundRow[object], ...]:
    """The rows that tell more of beds; `beds` are the plain names of those in the file."""

    def found(row: RowWords) -> FoundRow[object]:
        faults = list(row.faults)
        if not faults and bed_of(row) not in beds:
            place, read = f"{row.place}.{BED}", str(row.words.get(BED, ""))
            faults.append(Fault(place=place, read=read, sentence=NO_BED, remedy=ADD_BED))
        return FoundRow(
            number=row.number,
            name=str(row.words.get(BED, "")),
            standing=Standing.FAULTY if faults else Standing.MORE,
            faults=tuple(map(asked.at_head, faults)),
        )

    return tuple(map(found, below_rows(asked.matching.table, asked.rows())))


def _under_name(row: RowWords) -> RowWords:
    """A row whose bed stands under the key of names, as those of other sheets do."""
    words = {NAME if key == BED else key: value for key, value in row.words.items()}
    return replace(row, words=words)


def _found(
    asked: SheetAsked,
    kept: _Known[T],
    read: Callable[[RowWords, Mapping[str, Any]], T],
    is_same: Callable[[T, T], bool],
    is_here: Callable[[Kept[T]], bool] = lambda seen: True,
) -> Iterator[FoundRow[T]]:
    """Each row read, and held against what is kept.

    `is_here` says whether what is kept tells already what the row is about.
    """
    first: dict[str, int] = {}
    for row in asked.rows():
        name = str(row.words.get(NAME, ""))
        seen, before = kept.get(plain_name(name), (None, {}))
        faults = list(row.faults)
        if name and first.setdefault(plain_name(name), row.number) != row.number:
            faults.append(_same_name(row, name, first[plain_name(name)]))
        value = None
        try:
            value = replace(read(row, before), place="" if seen is None else seen.value.place)
        except Refusal as refusal:
            broken = {fault.place for fault in faults}
            faults += [fault for fault in refusal.faults if fault.place not in broken]
        standing = Standing.NEW
        if faults or value is None:
            standing = Standing.FAULTY
        elif seen is not None and is_same(seen.value, value):
            standing = Standing.SAME
        elif seen is not None and is_here(seen):
            standing = Standing.CHANGED
        yield FoundRow(
            number=row.number,
            name=name,
            standing=standing,
            value=None if faults else value,
            seen=seen,
            faults=tuple(map(asked.at_head, faults)),
        )


def _together(before: Mapping[str, Any], row: RowWords) -> dict[str, Any]:
    """What is kept, as far as the row says nothing else."""
    gone: set[str] = set()
    for told, other in _INSTEAD:
        if told & row.filled.keys():
            gone |= other - row.filled.keys()
    return {**{key: value for key, value in before.items() if key not in gone}, **row.filled}


def _by_name(kept: Iterable[Kept[T]], words: Iterable[Mapping[str, Any]]) -> _Known[T]:
    pairs = zip(kept, words, strict=True)
    return {plain_name(one.value.name): (one, told) for one, told in pairs}


def _known_beds(asked: SheetAsked) -> _Known[BedEntry]:
    beds = tuple(one.value for one in asked.now.beds)
    words = asked.reader.words_of(replace(asked.now.about, bags=(), beds=beds))
    return _by_name(asked.now.beds, words.get("beds", []))


def _same_name(row: RowWords, name: str, first: int) -> Fault:
    return Fault(
        place=f"{row.place}.{NAME}",
        read=name,
        sentence=f"Row {first} has the same name.",
        remedy="Give each a name of its own, or take one of the rows out.",
    )


def _no_such_bed(row: RowWords, name: str, known: Iterable[str]) -> Fault:
    told = ", ".join(known)
    return Fault(
        place=f"{row.place}.{NAME}",
        read=name,
        sentence="No bed of the garden has this name.",
        remedy=f"Known: {told}." if told else "Bring in the beds first.",
    )
