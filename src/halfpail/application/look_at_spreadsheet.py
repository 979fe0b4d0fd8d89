"""A whole spreadsheet held against a garden: what is new, what is here, what cannot be used."""

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
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
from halfpail.application.gather_below import BELOW, BelowBeds, below_rows, gather_below
from halfpail.application.kept import Kept
from halfpail.application.look_at_diary_rows import look_at_diary
from halfpail.application.look_at_rows import (
    look_at_bags,
    look_at_beds,
    look_at_below,
    look_at_soil_tests,
)
from halfpail.application.match_columns import OF_BEDS, TABLE_CALLED, Matching
from halfpail.application.row_words import rows_of
from halfpail.application.sheet_asked import NOTHING_BELOW, SheetAsked
from halfpail.application.spreadsheet import Sheet
from halfpail.domain.diary import Event
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
_FIRST_OF_ALL = {
    **{BAGS.name: "name", BEDS.name: "name", SOIL_TESTS.name: "bed", DIARY.name: "on"},
    **{table.name: "bed" for table in OF_BEDS},
}


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
    desk = _Desk(now=now, reader=reader)
    chosen = list(zip(sheets, choices, strict=True))
    desk.gather(chosen)
    found: dict[int, FoundSheet] = {}
    for table in (*BROUGHT_IN, *OF_BEDS):
        for at, (sheet, choice) in enumerate(chosen):
            if choice.matching.table == table.name:
                found[at] = desk.read(sheet, choice)
    left_out = {
        at: FoundSheet(sheet=sheet, choice=choice, notes=(*sheet.notes, *choice.matching.notes))
        for at, (sheet, choice) in enumerate(chosen)
    }
    every = {**left_out, **found}
    return FoundSpreadsheet(
        sheets=tuple(every[at] for at in range(len(chosen))), changes=desk.changes
    )


@dataclass(slots=True, kw_only=True)
class _Desk:
    """What has been read of a spreadsheet so far."""

    now: GardenNow
    reader: EntryReader
    below: BelowBeds = NOTHING_BELOW
    bags: dict[str, Change[BagEntry]] = field(default_factory=dict)
    beds: dict[str, Change[BedEntry]] = field(default_factory=dict)
    events: list[Event] = field(default_factory=list)
    named: set[str] = field(default_factory=set)

    def gather(self, chosen: Iterable[tuple[Sheet, Choice]]) -> None:
        """Gather what some sheets tell more of the beds of others."""
        self.below = gather_below(
            (
                choice.matching.table,
                below_rows(choice.matching.table, rows_of(sheet, choice.matching)),
            )
            for sheet, choice in chosen
            if choice.matching.table in BELOW
        )

    def read(self, sheet: Sheet, choice: Choice) -> FoundSheet:
        """Read one sheet, and remember what it would change."""
        then = replace(
            self.now,
            bags=_with(self.now.bags, self.bags),
            beds=_with(self.now.beds, self.beds),
            diary=(*self.now.diary, *self.events),
        )
        asked = SheetAsked(
            sheet=sheet,
            matching=choice.matching,
            now=then,
            reader=self.reader,
            below=self.below,
        )
        found = _looked_at(asked, choice, self.named)
        table = choice.matching.table
        if table == BAGS.name:
            self.bags |= _changes(found.taken, self.now.bags)
        elif table == DIARY.name:
            self.events += [row.value for row in found.taken if row.value]
        elif table in (BEDS.name, SOIL_TESTS.name):
            self.beds |= _changes(found.taken, self.now.beds)
        if table == BEDS.name:
            self.named |= {plain_name(row.name) for row in found.rows}
        return found

    @property
    def changes(self) -> Changes:
        """What keeping all of it would change."""
        return Changes(
            bags=tuple(self.bags.values()),
            beds=tuple(self.beds.values()),
            events=tuple(self.events),
        )


def _looked_at(asked: SheetAsked, choice: Choice, beds: Collection[str]) -> FoundSheet:
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
        if table in OF_BEDS:
            rows: tuple[FoundRow[Any], ...] = look_at_below(asked, beds)
        else:
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
