"""Spreadsheets built by hand or by a library, for the tests to open."""

from collections.abc import Mapping, Sequence
from datetime import date
from io import BytesIO
from typing import Any
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile

import xlsxwriter

Part = str | bytes | None

_XLSX_NAME = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"'
_ODS_KIND = "application/vnd.oasis.opendocument.spreadsheet"
_ODS_NAMES = " ".join(
    f'xmlns:{short}="urn:oasis:names:tc:opendocument:xmlns:{short}:1.0"'
    for short in ("office", "table", "text", "style", "number", "calcext")
)


def packed(parts: Mapping[str, Part]) -> bytes:
    """A zip of these parts."""
    file = BytesIO()
    with ZipFile(file, "w", ZIP_DEFLATED) as made:
        for name, text in parts.items():
            if text is not None:
                made.writestr(name, text)
    return file.getvalue()


def sheet_xml(rows: str) -> str:
    """The part of one sheet of a workbook, its rows given as markup."""
    return f"<worksheet {_XLSX_NAME}><sheetData>{rows}</sheetData></worksheet>"


def xlsx(parts: Mapping[str, Part]) -> bytes:
    """A sound workbook of one sheet, with some parts put in the place of its own."""
    with ZipFile(BytesIO(xlsx_of([["name"]]))) as sound:
        own = {name: sound.read(name) for name in sound.namelist()}
    return packed({**own, **parts})


def xlsx_of(*sheets: Sequence[Sequence[Any]], **options: Any) -> bytes:
    """A workbook of these rows; days are written as days."""
    file = BytesIO()
    book = xlsxwriter.Workbook(file, {"in_memory": True, **options})
    day = book.add_format({"num_format": "yyyy-mm-dd"})
    for rows in sheets:
        sheet = book.add_worksheet()
        for row, cells in enumerate(rows):
            for column, cell in enumerate(cells):
                if isinstance(cell, date):
                    sheet.write_datetime(row, column, cell, day)
                else:
                    sheet.write(row, column, cell)
    book.close()
    return file.getvalue()


def ods(rows: str, parts: Mapping[str, Part] | None = None, laughs: str = "") -> bytes:
    """An OpenDocument spreadsheet of one sheet, whose rows are given as markup."""
    content = (
        f"{laughs}<office:document-content {_ODS_NAMES}><office:body><office:spreadsheet>"
        f'<table:table table:name="Bags">{rows}</table:table>'
        "</office:spreadsheet></office:body></office:document-content>"
    )
    file = BytesIO()
    with ZipFile(file, "w", ZIP_DEFLATED) as made:
        made.writestr("mimetype", _ODS_KIND, ZIP_STORED)
        made.writestr("content.xml", content)
        for name, text in {"META-INF/manifest.xml": "<manifest/>", **(parts or {})}.items():
            if text is not None:
                made.writestr(name, text)
    return file.getvalue()


def ods_row(*cells: str) -> str:
    """A row of an OpenDocument sheet: words, or a cell already written as markup."""
    made = (
        cell
        if cell.startswith("<")
        else "<table:table-cell office:value-type='string'>"
        f"<text:p>{cell}</text:p></table:table-cell>"
        for cell in cells
    )
    return f"<table:table-row>{''.join(made)}</table:table-row>"
