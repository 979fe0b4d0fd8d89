"""Rows of bags, beds and soil tests read into entries: every fault with its row and column."""

import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any, TypeVar

from halfpail.application.fill_bag import fill_bag
from halfpail.application.found_rows import FoundRow, Standing, plain_name
from halfpail.application.garden_entry import BagEntry, BedEntry, GardenEntry
from halfpail.application.gather_below import bed_of, below_rows
from halfpail.application.head_words import GRADE, SOIL_TEST
from halfpail.application.kept import Kept
from halfpail.application.need_of_bed import need_of_bed
from halfpail.application.row_words import RowWords
from halfpail.application.sheet_asked import BED, NAME, SheetAsked
from halfpail.domain.label_reading import read_label
from halfpail.findings import Fault, Refusal

BROKEN = "Another sheet tells more of this bed, and a row of it cannot be used."
MEND_BELOW = "Mend that row first."
ADD_BED = "Add the bed to that sheet, or take this row out."
NO_BED = "No row of a sheet of beds is about this bed."
T = TypeVar("T", BagEntry, BedEntry)
_Known = Mapping[str, tuple[Kept[T], Mapping[str, Any]]]
_GRADE = re.compile(r"\s*[0-9.]+\s*-\s*[0-9.]+\s*-\s*[0-9.]+\s*")

# What is told in one of these ways is no longer told in the other.
_INSTEAD = (
    ({"size"}, {"row", "row_width"}),
    ({"row", "row_width"}, {"size"}),
    ({"crop"}, {"crops"}),
    ({"crops"}, {"crop", "yield"}),
)


def look_at_bags(asked: SheetAsked) -> tuple[FoundRow[BagEntry], ...]:
    """The bags of a sheet; what is kept under a name keeps what the sheet has no column for."""
    about = asked.now.about
    words = asked.reader.words_of(
        replace(about, bags=tuple(one.value for one in asked.now.bags), beds=())
    )
    kept = _by_name(asked.now.bags, words.get("bags", []))

    def read(row: RowWords, before: Mapping[str, Any]) -> BagEntry:
        told = _together(before, _with_grade(row))
        if "label" in before and _is_its_grade(str(told.get("label", "")), before["label"], about):
            told["label"] = before["label"]
        label = BagEntry(
            name=str(told.get(NAME, "")),
            place=f"{row.place}.label",
            label=str(told.get("label", "")),
        )
        try:
            entry = asked.reader.read_bag_row(told, row.place, about)
        except Refusal as refusal:
            raise Refusal(*refusal.faults, *_label_faults(label, about)) from None
        fill_bag(replace(label, name=entry.name, label=entry.label), *_measures(about))
        return entry

    return tuple(_found(asked, kept, read))


def look_at_beds(asked: SheetAsked) -> tuple[FoundRow[BedEntry], ...]:
    """The beds of a sheet; what is kept under a name keeps what the sheet has no column for."""

    def read(row: RowWords, before: Mapping[str, Any]) -> BedEntry:
        name = plain_name(str(row.words.get(NAME, "")))
        if name in asked.below.broken:
            raise Refusal(Fault(place=row.place, read="", sentence=BROKEN, remedy=MEND_BELOW))
        below = asked.below.of(name)
        told = _together(before, replace(row, words={**_with_soil_test(row), **below}))
        entry = asked.reader.read_bed_row(told, row.place)
        need_of_bed(entry, asked.now.about.preferences.units)
        return entry

    return tuple(_found(asked, _known_beds(asked), read))


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

    return tuple(_found(asked, _known_beds(asked), read, is_here))


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


def _found(
    asked: SheetAsked,
    kept: _Known[T],
    read: Callable[[RowWords, Mapping[str, Any]], T],
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
            if broken & {f"{row.place}.{key}" for key in GRADE}:
                broken.add(f"{row.place}.label")
            faults += [fault for fault in refusal.faults if fault.place not in broken]
        differs = asked.differences(seen.value, value) if seen and value and not faults else ()
        standing = Standing.NEW
        if faults or value is None:
            standing = Standing.FAULTY
        elif seen is not None and not differs:
            standing = Standing.SAME
        elif seen is not None and is_here(seen):
            standing = Standing.CHANGED
        yield FoundRow(
            number=row.number,
            name=name,
            standing=standing,
            value=None if faults else value,
            seen=seen,
            differs=differs,
            faults=tuple(map(asked.at_head, faults)),
        )


def _together(before: Mapping[str, Any], row: RowWords) -> dict[str, Any]:
    """What is kept, as far as the row says nothing else; its name as it is spelled there."""
    gone: set[str] = set()
    for told, other in _INSTEAD:
        if told & row.filled.keys():
            gone |= other - row.filled.keys()
    kept = {key: value for key, value in before.items() if key not in gone}
    name = {NAME: before[NAME]} if NAME in before else {}
    return {**kept, **row.filled, **name}


def _with_soil_test(row: RowWords) -> dict[str, object]:
    """The words of a bed with the soil test of its row as a table of its own."""
    test = {
        key.removeprefix(SOIL_TEST): value
        for key, value in row.filled.items()
        if key.startswith(SOIL_TEST)
    }
    words = {key: value for key, value in row.filled.items() if not key.startswith(SOIL_TEST)}
    return {**words, "soil_test": test} if test else words


def _with_grade(row: RowWords) -> RowWords:
    """The row with the three numbers of its grade as a label, where it has no other."""
    grade = [str(row.words.get(key, "")).removesuffix("%").strip() or "0" for key in GRADE]
    words = {key: value for key, value in row.filled.items() if key not in GRADE}
    if row.filled.keys() & set(GRADE):
        words.setdefault("label", "-".join(grade))
    return replace(row, words=words)


def _label_faults(bag: BagEntry, about: GardenEntry) -> tuple[Fault, ...]:
    """What is wrong with a label, where there is one: told with the rest of its row."""
    if not bag.label:
        return ()
    try:
        fill_bag(bag, *_measures(about))
    except Refusal as refusal:
        return refusal.faults
    return ()


def _measures(about: GardenEntry) -> tuple[Fraction, bool]:
    """What the scoop holds [L], and whether labels state P and K."""
    return about.tools.scoop_l, about.elemental_labels


def _is_its_grade(text: str, label: str, about: GardenEntry) -> bool:
    """Whether a text is no more than the three numbers of a whole label that is kept."""
    if not _GRADE.fullmatch(text):
        return False
    try:
        one, other = (read_label(told, about.elemental_labels) for told in (text, label))
    except Refusal:
        return False
    return one.analysis.grade == other.analysis.grade


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
