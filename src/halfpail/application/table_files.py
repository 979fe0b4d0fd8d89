"""The tables of a garden ready to be written as files, and what writes them."""

from dataclasses import dataclass
from datetime import date
from typing import Protocol

from halfpail.application.fill_tables import fill_tables, units_of
from halfpail.application.garden_tables import TABLES
from halfpail.application.sheet_cells import CellTable, as_cells
from halfpail.application.sheet_columns import Column, Kind
from halfpail.application.whole_garden import WholeGarden
from halfpail.quantities.units import System

ABOUT = "About"


@dataclass(frozen=True, slots=True, kw_only=True)
class TableBook:
    """Tables to be written as one file; the first tells what the others are."""

    written_on: date
    tables: tuple[CellTable, ...]


class TableWriter(Protocol):
    """Writes tables as a file of one kind."""

    def write(self, book: TableBook) -> bytes:
        """The file; the same book gives the same bytes."""
        ...


def book_of(whole: WholeGarden, written_on: date) -> TableBook:
    """The tables of a whole garden with a first one about them."""
    units = units_of(whole.garden)
    tables = tuple(as_cells(filled, units) for filled in fill_tables(whole))
    return TableBook(written_on=written_on, tables=(_about(whole, tables, written_on), *tables))


def _about(whole: WholeGarden, tables: tuple[CellTable, ...], written_on: date) -> CellTable:
    metric = whole.garden.preferences.units is System.METRIC
    told = (
        ("written on", written_on.isoformat(), None),
        ("units", "metric" if metric else "US customary", None),
        ("currency", whole.garden.preferences.currency, None),
        ("numbers", "in the unit that stands in the head of their column", None),
        ("exactly", "numbers that a cell cannot hold to the last digit, as fractions", None),
        *(
            (made.name, table.rows_are, len(made.rows))
            for made, table in zip(tables, TABLES, strict=True)
        ),
    )
    columns = (
        Column(key="sheet", head="sheet"),
        Column(key="rows_are", head="what it is"),
        Column(key="rows", head="rows", kind=Kind.WHOLE),
    )
    heads = tuple(column.head for column in columns)
    return CellTable(name=ABOUT, columns=columns, heads=heads, rows=told)
