"""Which table a sheet holds and which of its columns is which: guessed from the heads."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from halfpail.application.garden_tables import (
    BROUGHT_IN,
    CROPS,
    GIVEN,
    MANURE,
    RANGES,
    TABLES,
    YEARS,
)
from halfpail.application.head_words import Head, column_called, columns_of, read_head
from halfpail.application.sheet_columns import Column, Table
from halfpail.application.spreadsheet import CellKind, Sheet

# Above the heads may stand a title and a few words.
HEADS_WITHIN = 10
ENOUGH_HEADS = 2
# These tell more of the beds of the same file, and are known by the name of their sheet alone.
OF_BEDS = (CROPS, MANURE, YEARS, GIVEN, RANGES)
TABLE_CALLED = {table.name: table for table in (*BROUGHT_IN, *OF_BEDS)}

HIDDEN = "This sheet is hidden, so it is left out unless you choose what it is."
NOT_BROUGHT_IN = "This sheet is left out: only bags, beds, soil tests and the diary are brought in."
UNKNOWN = "No heads are known here, so it is left out unless you choose what it is."
DOUBLE = "Two columns are headed “{}”: choose which one is meant."


@dataclass(frozen=True, slots=True, kw_only=True)
class Matching:
    """What a sheet is taken for: a table, the row of its heads, and the key of each column.

    Without a table the sheet is left out, and so is a column without a key. Rows count from nought.
    """

    table: str = ""
    head_row: int = 0
    keys: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def known(self) -> dict[int, str]:
        """The keys of the columns that have one, by the column's number from nought."""
        return {at: key for at, key in enumerate(self.keys) if key}


def match_columns(sheet: Sheet, wanted: str | None = None) -> Matching:
    """The best guess; `wanted` is the table a person chose, or nothing to leave the sheet out.

    >>> from halfpail.application.spreadsheet import Cell
    >>> heads = tuple(Cell(CellKind.TEXT, text) for text in ("Grade", "Product", "colour"))
    >>> match_columns(Sheet(name="Rows", rows=(heads,))).keys
    ('label', 'name', '')
    """
    if wanted is not None:
        return _matched(sheet, TABLE_CALLED[wanted]) if wanted in TABLE_CALLED else Matching()
    if sheet.hidden:
        return Matching(notes=(HIDDEN,))
    named = next((one for one in TABLES if _same(one.name, sheet.name)), None)
    if named is not None:
        known = named.name in TABLE_CALLED
        return _matched(sheet, named) if known else Matching(notes=(NOT_BROUGHT_IN,))
    best = max((_matched(sheet, table) for table in BROUGHT_IN), key=_fit)
    return best if len(best.known) >= ENOUGH_HEADS else Matching(notes=(UNKNOWN,))


def heads_of(sheet: Sheet, row: int) -> tuple[Head, ...]:
    """The heads in a row of a sheet."""
    cells = sheet.rows[row] if row < len(sheet.rows) else ()
    return tuple(read_head(cell.text if cell.kind is CellKind.TEXT else "") for cell in cells)


def width_of(sheet: Sheet) -> int:
    """How many columns a sheet has."""
    return max(map(len, sheet.rows), default=0)


def column_of_key(matching: Matching, key: str) -> Column:
    """The column a key of a matching means.

    Raises:
        KeyError: the table has no such key.
    """
    table = TABLE_CALLED[matching.table]
    return {one.key: one for one in columns_of(table)}[key]


def _matched(sheet: Sheet, table: Table) -> Matching:
    rows = range(min(HEADS_WITHIN, len(sheet.rows)))
    found = [_at_row(sheet, table, row) for row in rows]
    return max(found, key=lambda one: len(one.known), default=Matching(table=table.name))


def _at_row(sheet: Sheet, table: Table, row: int) -> Matching:
    heads = heads_of(sheet, row)
    meant = {at: column.key for at, head in enumerate(heads) if (column := _meant(table, head))}
    counts = Counter(meant.values())
    keys = tuple(
        key if counts[key := meant.get(at, "")] == 1 else "" for at in range(width_of(sheet))
    )
    notes = tuple(_doubles(heads, meant, counts))
    return Matching(table=table.name, head_row=row, keys=keys, notes=notes)


def _meant(table: Table, head: Head) -> Column | None:
    return column_called(table, head) if head.text else None


def _doubles(
    heads: tuple[Head, ...], meant: Mapping[int, str], counts: Counter[str]
) -> Iterator[str]:
    for key, count in counts.items():
        if count > 1:
            named = [heads[at].text for at, one in meant.items() if one == key]
            if len(set(named)) == 1:
                yield DOUBLE.format(named[0])
            else:
                yield f"“{'” and “'.join(named)}” may mean the same: choose which one is meant."


def _fit(matching: Matching) -> tuple[int, int]:
    """Whether all that is needed is there, and how much is known besides."""
    needed = {one.key for one in TABLE_CALLED[matching.table].columns if one.needed}
    return (needed <= set(matching.keys), len(matching.known))


def _same(one: str, other: str) -> bool:
    return one.casefold() == " ".join(other.split()).casefold()
