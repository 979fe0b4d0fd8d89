"""Every table of a garden comes back from a spreadsheet, and from CSV, to the last digit."""

import csv
from dataclasses import replace
from datetime import date
from io import BytesIO, StringIO
from typing import Any
from zipfile import ZipFile

from hypothesis import given, settings
from python_calamine import CalamineWorkbook

from halfpail.application.fill_tables import fill_tables, units_of
from halfpail.application.garden_tables import TABLES
from halfpail.application.sheet_cells import by_head, row_of
from halfpail.application.table_files import ABOUT, book_of
from halfpail.application.whole_garden import WholeGarden
from halfpail.wiring import services
from halfpail.workbooks.csv_zip import file_name
from tests.properties.gardens_from_tables import garden_from
from tests.properties.whole_gardens import whole_gardens

ON = date(2027, 5, 1)

Rows = dict[str, list[dict[str, Any]]]
Sheets = dict[str, list[list[Any]]]


def rows_of(whole) -> Rows:
    """Every row with all the keys of its table; an empty text is no text."""
    return {
        filled.table.name: [
            {
                one.key: None if (held := row.get(one.key)) == "" else held
                for one in filled.table.columns
            }
            for row in filled.rows
        ]
        for filled in fill_tables(whole)
    }


def from_spreadsheet(data: bytes) -> Sheets:
    """The cells of each sheet, its heads first, as another library reads them."""
    book = CalamineWorkbook.from_filelike(BytesIO(data))
    assert book.sheet_names == [ABOUT, *(table.name for table in TABLES)]
    return {name: book.get_sheet_by_name(name).to_python() for name in book.sheet_names}


def from_zip(data: bytes) -> Sheets:
    packed = ZipFile(BytesIO(data))
    assert packed.namelist()[0] == file_name(ABOUT)
    return {
        table.name: list(csv.reader(_text(packed, table.name), strict=True)) for table in TABLES
    }


def _text(packed: ZipFile, name: str) -> StringIO:
    raw = packed.read(file_name(name))
    assert raw.startswith(b"\xef\xbb\xbf")
    return StringIO(raw.decode("utf-8-sig"), newline="")


def read_back(sheets: Sheets, units) -> Rows:
    return {
        table.name: [
            row_of(table, by_head(sheets[table.name][0], cells), units)
            for cells in sheets[table.name][1:]
        ]
        for table in TABLES
    }


def spreadsheet_and_back(whole: WholeGarden) -> WholeGarden:
    """The garden that a spreadsheet of it holds."""
    data = services().spreadsheets.write(book_of(whole, ON))
    return garden_from(read_back(from_spreadsheet(data), units_of(whole.garden)))


def csv_and_back(whole: WholeGarden) -> WholeGarden:
    """The garden that a zip of CSV of it holds."""
    data = services().csv_zips.write(book_of(whole, ON))
    return garden_from(read_back(from_zip(data), units_of(whole.garden)))


def as_in_tables(whole: WholeGarden) -> WholeGarden:
    """What the tables do not tell: what was answered once, and whether it is the sample."""
    return replace(whole, answers={}, is_sample=False)


@given(whole_gardens())
@settings(max_examples=200, deadline=None)
def test_a_spreadsheet_reads_back(whole):
    book = book_of(whole, ON)
    data = services().spreadsheets.write(book)
    assert read_back(from_spreadsheet(data), units_of(whole.garden)) == rows_of(whole)
    assert services().spreadsheets.write(book) == data
    assert spreadsheet_and_back(whole) == as_in_tables(whole)


@given(whole_gardens())
@settings(max_examples=200, deadline=None)
def test_csv_reads_back(whole):
    book = book_of(whole, ON)
    data = services().csv_zips.write(book)
    assert read_back(from_zip(data), units_of(whole.garden)) == rows_of(whole)
    assert services().csv_zips.write(book) == data
    assert csv_and_back(whole) == as_in_tables(whole)
