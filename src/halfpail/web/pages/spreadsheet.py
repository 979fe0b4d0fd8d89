"""What the pages of a spreadsheet show: its sheets with their choices, and every row told back."""

from collections.abc import Iterator
from dataclasses import dataclass

from halfpail.application.brought_in import Brought
from halfpail.application.found_rows import FoundRow, Standing
from halfpail.application.head_words import columns_of
from halfpail.application.look_at_spreadsheet import FoundSheet, FoundSpreadsheet
from halfpail.application.match_columns import TABLE_CALLED, heads_of
from halfpail.application.spreadsheet import Sheet
from halfpail.findings import Fault
from halfpail.quantities.typed_text import quoted
from halfpail.web.forms.spreadsheet import SpreadsheetForm, field_of
from halfpail.web.held_import import Held, print_of

MOST_ROWS = 50
MOST_FAULTS = 50
LEAVE_OUT = "Leave it out"
NOT_A_COLUMN = "not brought in"
BECOMES = "what becomes of it"
NO_HEAD = "Column {}, without a head"
_COUNTS = (
    (Standing.NEW, "{} new"),
    (Standing.CHANGED, "{} here already, but different"),
    (Standing.SAME, "{} here already"),
    (Standing.MORE, "{} that tell more of beds"),
    (Standing.FAULTY, "{} that cannot be used"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pick:
    """A list of choices: its name on the page, its label, and each choice with its words."""

    name: str
    label: str
    chosen: str
    choices: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPart:
    """One sheet of the page."""

    number: int
    name: str
    counts: str
    table: Pick
    columns: tuple[Pick, ...]
    over: str
    changed: int
    put_over: bool
    notes: tuple[str, ...]
    faults: tuple[Fault, ...]
    more_faults: int
    headings: tuple[str, ...]
    rows: tuple[tuple[tuple[str, str], ...], ...]
    more_rows: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoosePage:
    """The form for a file, why the last one could not be read, and what was brought lately."""

    form: SpreadsheetForm
    faults: tuple[Fault, ...] = ()
    lately: tuple[Brought, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RowsPage:
    """A spreadsheet told back; `others` are sheets left out, where not all are.

    `seen` is the print of what would be kept.
    """

    held: Held
    sheets: tuple[SheetPart, ...]
    others: tuple[SheetPart, ...]
    count: int
    left_out: int
    has_diary: bool
    seen: str

    @property
    def button(self) -> str:
        """What the button does, with its number."""
        keep = f"Keep {_rows(self.count)}"
        return f"{keep}, leave out {self.left_out}" if self.left_out else keep


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptPage:
    """What was brought in, and how to take it back."""

    token: str
    brought: Brought


def rows_page(held: Held, found: FoundSpreadsheet) -> RowsPage:
    """The page of a spreadsheet that was looked at."""
    taken = sum(len(sheet.taken) for sheet in found.sheets)
    told = sum(len(sheet.rows) for sheet in found.sheets)
    same = sum(sheet.count(Standing.SAME, Standing.MORE) for sheet in found.sheets)
    parts = [_part(at, sheet) for at, sheet in enumerate(found.sheets)]
    known = tuple(part for part in parts if part.table.chosen)
    return RowsPage(
        held=held,
        sheets=known or tuple(parts),
        others=tuple(part for part in parts if not part.table.chosen) if known else (),
        count=taken,
        left_out=told - taken - same,
        has_diary=bool(found.changes.events),
        seen=print_of(found.changes),
    )


def _part(number: int, found: FoundSheet) -> SheetPart:
    matching = found.choice.matching
    faults = [*found.faults, *(fault for row in found.rows for fault in row.faults)]
    tables = [("", LEAVE_OUT), *((name, name) for name in TABLE_CALLED)]
    heads = heads_of(found.sheet, matching.head_row)
    told = [at for at in matching.known if at < len(heads)]
    headings = ("row", *(heads[at].text for at in told), BECOMES)
    return SheetPart(
        number=number,
        name=found.sheet.name,
        counts=_counts(found),
        table=Pick(
            name=field_of(number, "table"),
            label="This sheet is",
            chosen=matching.table,
            choices=tuple(tables),
        ),
        columns=tuple(_columns(number, found)) if matching.table else (),
        over=field_of(number, "over"),
        changed=found.count(Standing.CHANGED),
        put_over=found.choice.put_over,
        notes=found.notes,
        faults=tuple(faults[:MOST_FAULTS]),
        more_faults=max(0, len(faults) - MOST_FAULTS),
        headings=headings,
        rows=tuple(
            tuple(zip(headings, _row(found, row, told), strict=True))
            for row in found.rows[:MOST_ROWS]
        ),
        more_rows=max(0, len(found.rows) - MOST_ROWS),
    )


def _columns(number: int, found: FoundSheet) -> Iterator[Pick]:
    """A choice for every column that has a head or a place."""
    matching = found.choice.matching
    heads = heads_of(found.sheet, matching.head_row)
    known = columns_of(TABLE_CALLED[matching.table])
    choices = (("", NOT_A_COLUMN), *((column.key, column.head) for column in known))
    for at, key in enumerate(matching.keys):
        head = heads[at].text if at < len(heads) else ""
        if head or key or _is_filled(found.sheet, matching.head_row, at):
            yield Pick(
                name=field_of(number, "column", at),
                label=head or NO_HEAD.format(at + 1),
                chosen=key,
                choices=choices,
            )


def _is_filled(sheet: Sheet, head_row: int, column: int) -> bool:
    below = sheet.rows[head_row + 1 :]
    return any(len(row) > column and row[column].text for row in below)


def _row(found: FoundSheet, row: FoundRow[object], columns: list[int]) -> tuple[str, ...]:
    cells = found.sheet.rows[row.number - 1]
    told = (cells[at].text if at < len(cells) else "" for at in columns)
    return (
        str(row.number),
        *(quoted(" ".join(text.split())) for text in told),
        _becomes(found, row),
    )


def _becomes(found: FoundSheet, row: FoundRow[object]) -> str:
    if row.standing is Standing.CHANGED:
        becomes = "changed" if found.choice.put_over else "here already, stays as it is"
        return f"{becomes} ({'; '.join(row.differs)})"
    if row.standing is Standing.FAULTY:
        return "left out: " + " ".join(fault.sentence for fault in row.faults)
    if row.standing is Standing.MORE:
        return "goes with its bed"
    return "added" if row.standing is Standing.NEW else "here already"


def _counts(found: FoundSheet) -> str:
    told = [words.format(count) for one, words in _COUNTS if (count := found.count(one))]
    if not told:
        return "nothing to bring in" if found.choice.matching.table else "left out"
    return f"{_rows(len(found.rows))}: {', '.join(told)}"


def _rows(count: int) -> str:
    return f"{count} row" if count == 1 else f"{count} rows"
