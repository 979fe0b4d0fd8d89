"""The tables as CSV files (RFC 4180) in one zip, for programs that read no spreadsheet.

Each file is UTF-8 with a byte order mark, without which some spreadsheet programs take it for
another code. Every entry bears the same moment, so that the same tables are the same bytes.
"""

import csv
from datetime import date
from fractions import Fraction
from io import BytesIO, StringIO
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from halfpail.application.sheet_cells import CellTable, decimal_text
from halfpail.application.sheet_columns import Cell
from halfpail.application.table_files import TableBook

_MOMENT = (1980, 1, 1, 0, 0, 0)
_READ_BY_ALL = 0o644 << 16
_UNIX = 3


class CsvZipWriter:
    """Writes zips of CSV files."""

    def write(self, book: TableBook) -> bytes:
        """The zip; the same book gives the same bytes."""
        file = BytesIO()
        with ZipFile(file, "w", ZIP_DEFLATED) as packed:
            for table in book.tables:
                entry = ZipInfo(file_name(table.name), date_time=_MOMENT)
                entry.compress_type = ZIP_DEFLATED
                entry.external_attr = _READ_BY_ALL
                entry.create_system = _UNIX
                packed.writestr(entry, _text(table).encode("utf-8-sig"))
        return file.getvalue()


def file_name(table: str) -> str:
    """The name of a table's file.

    >>> file_name("Soil tests")
    'soil-tests.csv'
    """
    return f"{table.lower().replace(' ', '-')}.csv"


def _text(table: CellTable) -> str:
    text = StringIO(newline="")
    lines = csv.writer(text, lineterminator="\r\n")
    lines.writerow(table.heads)
    for row in table.rows:
        lines.writerow(map(_words, row))
    return text.getvalue()


def _words(cell: Cell) -> str:
    if cell is None:
        return ""
    if isinstance(cell, date):
        return cell.isoformat()
    return decimal_text(cell) if isinstance(cell, Fraction) else str(cell)
