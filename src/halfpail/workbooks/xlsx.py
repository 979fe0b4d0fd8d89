"""One spreadsheet of many sheets: numbers as numbers, days as days, and never a formula."""

import re
from datetime import UTC, date, datetime, time
from fractions import Fraction
from io import BytesIO
from typing import Any
from zipfile import ZIP_DEFLATED, ZipFile

import xlsxwriter

from halfpail.application.sheet_cells import CellTable
from halfpail.application.sheet_columns import Cell, Column, Kind
from halfpail.application.table_files import TableBook
from halfpail.workbooks.widths import width_of

_OPTIONS = {
    "in_memory": True,
    "strings_to_formulas": False,
    "strings_to_numbers": False,
    "strings_to_urls": False,
}
# Words stand as text, or a grade of 4-4-4 becomes a day where somebody types it.
_LOOKS = {Kind.DATE: "yyyy-mm-dd", Kind.MONEY: "0.00", Kind.WORDS: "@"}
_WRITTEN_BY = "docProps/app.xml"
_PROGRAM = re.compile(rb"(<Application>).*?(</Application>)")
# More letters than this no cell holds.
_MOST_LETTERS = 32_767
_HEAD = {"bold": True, "text_wrap": True, "valign": "top", "bottom": 1}


class XlsxWriter:
    """Writes XLSX files."""

    def write(self, book: TableBook) -> bytes:
        """The file; it bears the day it was written as its own, so the same book is the same."""
        file = BytesIO()
        made = xlsxwriter.Workbook(file, _OPTIONS)
        on = datetime.combine(book.written_on, time(), UTC).replace(tzinfo=None)
        made.set_properties({"title": "Garden", "created": on})
        head = made.add_format(_HEAD)
        looks = {kind: made.add_format({"num_format": look}) for kind, look in _LOOKS.items()}
        for table in book.tables:
            _write(made.add_worksheet(table.name), table, head, looks)
        made.close()
        return _told_truly(file)


def _told_truly(file: BytesIO) -> bytes:
    """The same file, saying of itself what wrote it instead of what it is made for."""
    again = BytesIO()
    with ZipFile(file) as packed, ZipFile(again, "w", ZIP_DEFLATED) as copied:
        for entry in packed.infolist():
            content = packed.read(entry)
            if entry.filename == _WRITTEN_BY:
                content = _PROGRAM.sub(rb"\g<1>Halfpail\g<2>", content)
            copied.writestr(entry, content)
    return again.getvalue()


def _write(sheet: Any, table: CellTable, head: Any, looks: dict[Kind, Any]) -> None:
    sheet.freeze_panes(1, 1)
    for at, (column, title) in enumerate(zip(table.columns, table.heads, strict=True)):
        cells = [row[at] for row in table.rows]
        sheet.set_column(at, at, width_of(title, cells), looks.get(column.kind))
        sheet.write_string(0, at, title, head)
        for number, cell in enumerate(cells, 1):
            _write_cell(sheet, (number, at), cell, looks.get(_kind(column, cell)))


def _kind(column: Column, cell: Cell) -> Kind:
    return Kind.DATE if isinstance(cell, date) else column.kind


def _write_cell(sheet: Any, at: tuple[int, int], cell: Cell, look: Any) -> None:
    if cell is None:
        return
    if isinstance(cell, str):
        sheet.write_string(*at, cell, look)
    elif isinstance(cell, date):
        sheet.write_datetime(*at, cell, look)
    elif isinstance(cell, int | Fraction):
        sheet.write_number(*at, float(cell), look)
