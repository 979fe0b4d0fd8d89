"""What an ODS tells of its cells beside their values: percents, errors, formulas without a result.

Rows and cells that stand there once for many are counted as many, as far as a sheet may reach.
"""

import re
from collections.abc import Iterator
from zipfile import ZipFile

from halfpail.sheets import limits, trouble
from halfpail.sheets.marks import ERROR, NO_RESULT, PERCENT, Marks, attributes
from halfpail.sheets.packed import part

CONTENT = "content.xml"
_TABLE = re.compile(rb"<table:table(?=[ >/])")
_ROW = re.compile(rb"<table:table-row(?=[ >/])")
_CELL = re.compile(rb"<table:(?:covered-)?table-cell(?=[ >/])")
_MOST_OF_TAG = 1500


def ods_marks_of(packed: ZipFile, sheet: str) -> Marks:
    """The marked cells of one sheet by row and column from nought.

    Raises:
        Unusable: there are more of them than a sheet has cells.
    """
    for table in _TABLE.split(part(packed, CONTENT))[1:]:
        if _told(table).get("table:name") == sheet:
            marks: dict[tuple[int, int], str] = {}
            for at, mark in _marked(table):
                marks[at] = mark
                if len(marks) > limits.MOST_CELLS:
                    raise trouble.TOO_MANY_CELLS
            return marks
    return {}


def _marked(table: bytes) -> Iterator[tuple[tuple[int, int], str]]:
    row = 0
    for text in _ROW.split(table)[1:]:
        rows = _count(_told(text), "table:number-rows-repeated", limits.MOST_ROWS - row)
        column = 0
        for cell in _CELL.split(text)[1:]:
            told = _told(cell)
            columns = _count(told, "table:number-columns-repeated", limits.MOST_COLUMNS - column)
            if mark := _mark(told):
                for down in range(rows):
                    for right in range(columns):
                        yield (row + down, column + right), mark
            column += columns
        row += rows


def _mark(told: dict[str, str]) -> str:
    if told.get("calcext:value-type") == "error":
        return ERROR
    kind = told.get("office:value-type", "")
    if "table:formula" in told and not kind:
        return NO_RESULT
    return PERCENT if kind == "percentage" else ""


def _told(text: bytes) -> dict[str, str]:
    return attributes(text.partition(b">")[0][:_MOST_OF_TAG])


def _count(told: dict[str, str], key: str, most: int) -> int:
    """How often something stands there, never more than there is room for."""
    number = told.get(key, "1")
    wanted = int(number) if number.isdigit() and len(number) < 9 else 1
    return max(0, min(wanted, most))
