"""A whole spreadsheet held against a garden: what is new, what is here, what cannot be used."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from halfpail.application.brought_in import Change, Changes
from halfpail.application.found_rows import (
    EntryReader,
    FoundRow,
    GardenNow,
    Standing,
    plain_name,
)
from halfpail.application.garden_entry import BagEntry, BedEntry
from halfpail.application.garden_tables import BAGS, BEDS, BROUGHT_IN, DIARY, SOIL_TESTS
from halfpail.application.kept import Kept
from halfpail.application.look_at_diary_rows import look_at_diary
from halfpail.application.look_at_rows import (
    SheetAsked,
    look_at_bags,
    look_at_beds,
    look_at_soil_tests,
)
from halfpail.application.match_columns import TABLE_CALLED, Matching
from halfpail.application.spreadsheet import Sheet
from halfpail.findings import Fault, Refusal

T = TypeVar("T", BagEntry, BedEntry)
NO_COLUMN = "No column is chosen for {}: nothing of this sheet can be brought in without it."
NO_COLUMN_YET = "No column is chosen for {}; a row needs it unless the garden tells it already."
_LOOKS: Mapping[str, Callable[[SheetAsked], tuple[FoundRow[Any], ...]]] = {
    BAGS.name: look_at_bags,
    BEDS.name: look_at_beds,
    SOIL_TESTS.name: look_at_soil_tests,
    DIARY.name: look_at_diary,
}
_FIRST_OF_ALL = {BAGS.name: "name", BEDS.name: "name", SOIL_TESTS.name: "bed", DIARY.name: "on"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What a person chose for a sheet; `put_over` takes the file's word where both tell."""

    matching: Matching
    put_over: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundSheet:
    """A sheet with its rows read, and what is wrong with it as a whole."""

    sheet: Sheet
    choice: Choice
    rows: tuple[FoundRow[Any], ...] = ()
    faults: tuple[Fault, ...] = ()
    notes: tuple[str, ...] = ()

    def count(self, *standings: Standing) -> int:
        """How many rows stand so."""
        return sum(row.standing in standings for row in self.rows)

    @property
    def taken(self) -> tuple[FoundRow[Any], ...]:
        """The rows that are brought in."""
        wanted = {Standing.NEW, *([Standing.CHANGED] if self.choice.put_over else [])}
        return tuple(row for row in self.rows if row.standing in wanted)


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundSpreadsheet:
    """Every sheet read, and what keeping them would change."""

    sheets: tuple[FoundSheet, ...]
    changes: Changes


def look_at_spreadsheet(
    sheets: Sequence[Sheet], choices: Sequence[Choice], now: GardenNow, reader: EntryReader
) -> FoundSpreadsheet:
    """Read every sheet as it was chosen, bags and beds before what names them."""
    found: dict[int, FoundSheet] = {}
    bags: dict[str, Change[BagEntry]] = {}
    beds: dict[str, Change[BedEntry]] = {}
    events: list[Any] = []
    chosen = list(enumerate(zip(sheets, choices, strict=True)))
    for table in BROUGHT_IN:
        for at, (sheet, choice) in chosen:
            if choice.matching.table != table.name:
                continue
            then = replace(now, bags=_with(now.bags, bags), beds=_with(now.beds, beds))
            asked = SheetAsked(sheet=sheet, matching=choice.matching, now=then, reader=reader)
            found[at] = one = _looked_at(asked, choice)
            if table is BAGS:
                bags |= _changes(one.taken, now.bags)
            elif table is DIARY:
                told = tuple(row.value for row in one.taken if row.value)
                events += told
                now = replace(now, diary=(*now.diary, *told))
            else:
                beds |= _changes(one.taken, now.beds)
    left_out = {
        at: FoundSheet(sheet=sheet, choice=choice, notes=(*sheet.notes, *choice.matching.notes))
        for at, (sheet, choice) in chosen
    }
    return FoundSpreadsheet(
        sheets=tuple({**left_out, **found}[at] for at, _ in chosen),
        changes=Changes(bags=tuple(bags.values()), beds=tuple(beds.values()), events=tuple(events)),
    )


def _looked_at(asked: SheetAsked, choice: Choice) -> FoundSheet:
    matching, table = choice.matching, TABLE_CALLED[choice.matching.table]
    notes = (*asked.sheet.notes, *matching.notes)
    missing = [one for one in table.columns if one.needed and one.key not in matching.keys]
    for one in missing:
        if one.key == _FIRST_OF_ALL[table.name]:
            sentence = NO_COLUMN.format(f"“{one.head}”")
            fault = Fault(place=asked.sheet.name, read="", sentence=sentence, remedy="Choose it.")
            return FoundSheet(sheet=asked.sheet, choice=choice, faults=(fault,), notes=notes)
    notes += tuple(NO_COLUMN_YET.format(f"“{one.head}”") for one in missing)
    try:
        rows = _LOOKS[table.name](asked)
    except Refusal as refusal:
        return FoundSheet(sheet=asked.sheet, choice=choice, faults=refusal.faults, notes=notes)
    return FoundSheet(sheet=asked.sheet, choice=choice, rows=rows, notes=notes)


def _with(kept: tuple[Kept[T], ...], changes: dict[str, Change[T]]) -> tuple[Kept[T], ...]:
    """What would be kept once these changes are; a new value has no key yet."""
    there = {plain_name(one.value.name): one for one in kept}
    for name, change in changes.items():
        seen = change.seen
        there[name] = (
            Kept(key=0, version=0, value=change.value)
            if seen is None
            else replace(seen, value=change.value)
        )
    return tuple(there.values())


def _changes(rows: Iterable[FoundRow[T]], kept: tuple[Kept[T], ...]) -> dict[str, Change[T]]:
    """The rows as changes, by name; what they take the place of is what is really kept."""
    really = {plain_name(one.value.name): one for one in kept}
    return {
        plain_name(row.value.name): Change(
            value=row.value, seen=really.get(plain_name(row.value.name))
        )
        for row in rows
        if row.value is not None
    }
