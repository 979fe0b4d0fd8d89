"""The cells of a packed spreadsheet as plain text with their kinds."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from io import BytesIO
from math import isfinite
from zipfile import ZipFile

import python_calamine as calamine

from halfpail.application.spreadsheet import Cell, CellKind, Sheet
from halfpail.sheets import limits, trouble
from halfpail.sheets.marks import ERROR, NO_RESULT, PERCENT, Marks, marks_of
from halfpail.sheets.ods_marks import CONTENT, ods_marks_of

NOTHING = Cell(CellKind.EMPTY)
# Spreadsheet programs count with fifteen digits; what comes after is dust of the binary number.
DIGITS = 15
MERGED = "Cells {} are merged; what stands there counts for the first of them alone."
_MOST_TOLD = 3


def read_packed(raw: bytes, packed: ZipFile) -> Iterator[Sheet]:
    """The sheets of an XLSX or ODS file, charts left out.

    Raises:
        Unusable: it is damaged, locked, or asks for too much.
    """
    with _told_kindly():
        book = calamine.CalamineWorkbook.from_filelike(BytesIO(raw))
    tables = [one for one in book.sheets_metadata if one.typ == calamine.SheetTypeEnum.WorkSheet]
    is_ods = CONTENT in packed.namelist()
    if len(tables) > limits.MOST_SHEETS:
        raise trouble.TOO_MANY_SHEETS
    for told in tables:
        hidden = told.visible != calamine.SheetVisibleEnum.Visible
        marks = ods_marks_of if is_ods else marks_of
        rows, notes = _rows(book, told.name, marks(packed, told.name))
        yield Sheet(name=told.name, rows=rows, hidden=hidden, notes=notes)


@contextmanager
def _told_kindly() -> Iterator[None]:
    """Turn what the parser complains of into the file's trouble; it may panic in its own way."""
    try:
        yield
    except calamine.PasswordError:
        raise trouble.LOCKED from None
    except MemoryError:
        raise
    except BaseException as error:
        raise trouble.DAMAGED from error


def _rows(
    book: calamine.CalamineWorkbook, name: str, marks: Marks
) -> tuple[tuple[tuple[Cell, ...], ...], tuple[str, ...]]:
    with _told_kindly():
        sheet = book.get_sheet_by_name(name)
    if sheet.total_height > limits.MOST_ROWS:
        raise trouble.TOO_MANY_ROWS
    if sheet.total_width > limits.MOST_COLUMNS:
        raise trouble.TOO_MANY_COLUMNS
    if sheet.total_height * sheet.total_width > limits.MOST_ROWS * limits.MOST_COLUMNS:
        raise trouble.TOO_MANY_CELLS
    with _told_kindly():
        table = sheet.to_python(skip_empty_area=False)
    rows = tuple(
        tuple(_cell(value, marks.get((at, column), "")) for column, value in enumerate(row))
        for at, row in enumerate(table)
    )
    return rows, tuple(_merged(sheet))


def _cell(value: object, mark: str) -> Cell:
    if mark in (ERROR, NO_RESULT):
        return Cell(CellKind.BROKEN, mark)
    if isinstance(value, bool):
        return Cell(CellKind.YES_NO, "yes" if value else "no")
    if isinstance(value, int | float):
        return _number(value, mark)
    if isinstance(value, datetime):
        return Cell(CellKind.DAY, value.date().isoformat())
    if isinstance(value, date):
        return Cell(CellKind.DAY, value.isoformat())
    if isinstance(value, time | timedelta):
        return Cell(CellKind.TEXT, str(value))
    text = str(value).strip()
    return Cell(CellKind.TEXT, text[: limits.MOST_LETTERS]) if text else NOTHING


def _number(value: float, mark: str) -> Cell:
    if not isfinite(value):
        return Cell(CellKind.BROKEN, ERROR)
    number = Decimal(f"{value:.{DIGITS}g}")
    text = f"{100 * number if mark == PERCENT else number:f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return Cell(CellKind.NUMBER, f"{text} %" if mark == PERCENT else text)


def _merged(sheet: calamine.CalamineSheet) -> Iterator[str]:
    ranges = sheet.merged_cell_ranges or []
    if ranges:
        told = ", ".join(f"{address(*one)} to {address(*end)}" for one, end in ranges[:_MOST_TOLD])
        yield MERGED.format(told + (" and others" if len(ranges) > _MOST_TOLD else ""))


def address(row: int, column: int) -> str:
    """The address of a cell, counted from nought, as its program shows it.

    >>> address(0, 0), address(9, 27)
    ('A1', 'AB10')
    """
    letters, column = "", column + 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return f"{letters}{row + 1}"
