"""An empty spreadsheet to fill in: one sheet for each kind of row, and a first one that explains.

Examples stand in the first sheet alone, so that nothing invented is ever brought in with the rest.
"""

from collections.abc import Iterator
from datetime import date

from halfpail.application.garden_tables import BROUGHT_IN
from halfpail.application.sheet_cells import CellTable
from halfpail.application.sheet_columns import Cell, Column, Table, Units
from halfpail.application.table_files import TableBook

EXPLAINS = "How to fill this in"
NEEDED, MAY_BE_EMPTY = "needed", ""


def make_template(units: Units, on: date) -> TableBook:
    """The empty sheets, with the units of a garden in their heads.

    >>> [table.name for table in make_template(Units(), date(2027, 1, 1)).tables]
    ['How to fill this in', 'Bags', 'Beds', 'Soil tests', 'Diary']
    """
    empty = tuple(
        CellTable(name=table.name, columns=table.columns, heads=table.heads(units), rows=())
        for table in BROUGHT_IN
    )
    return TableBook(written_on=on, tables=(_explained(units), *empty))


def _explained(units: Units) -> CellTable:
    heads = ("sheet", "column", "needed", "for example", "what it is")
    return CellTable(
        name=EXPLAINS,
        columns=tuple(Column(key=head, head=head) for head in heads),
        heads=heads,
        rows=tuple(row for table in BROUGHT_IN for row in _columns(table, units)),
    )


def _columns(table: Table, units: Units) -> Iterator[tuple[Cell, ...]]:
    for column in table.columns:
        needed = NEEDED if column.needed else MAY_BE_EMPTY
        yield (table.name, column.head_in(units), needed, column.example, column.meaning)
