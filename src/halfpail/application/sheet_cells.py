"""Rows of values as the cells of a sheet, and cells as values again, to the last digit.

A cell holds at most twelve digits. A number with more is rounded there and stands whole, as a
fraction, in a column at the end. It counts as long as the cell still holds it rounded: who changes
a cell changes the number.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import floor, log10

from halfpail.application.formula_guard import guarded, unguarded
from halfpail.application.garden_tables import EXACTLY
from halfpail.application.sheet_columns import Cell, Column, Kind, Table, Units
from halfpail.quantities.rounding import to_nearest

Row = Mapping[str, Cell]

DIGITS = 12
YES, NO = "yes", "no"
_EXACT = re.compile(r"([^=;]+)=(-?[0-9]+(?:/[0-9]+)?)(?:; |$)")


@dataclass(frozen=True, slots=True, kw_only=True)
class FilledTable:
    """A table with its rows, each by the keys of its columns, in the project's own units."""

    table: Table
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CellTable:
    """A table as cells: numbers as short decimals in the unit of the head, text made harmless."""

    name: str
    columns: tuple[Column, ...]
    heads: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def as_cells(filled: FilledTable, units: Units) -> CellTable:
    """The cells of a table; the column of exact numbers stands only where there are some."""
    table = filled.table
    made = [_cells(table, row, units) for row in filled.rows]
    exactly = any(exact for _, exact in made)
    columns = (*table.columns, EXACTLY) if exactly else table.columns
    return CellTable(
        name=table.name,
        columns=columns,
        heads=tuple(column.head_in(units) for column in columns),
        rows=tuple((*cells, exact or None) if exactly else cells for cells, exact in made),
    )


def row_of(table: Table, told: Mapping[str, Cell], units: Units) -> dict[str, Cell]:
    """The values of a row from its cells by the heads of the sheet.

    A cell may be the text that CSV makes of it. Cells that are empty are None.

    Raises:
        ValueError: a cell does not hold what its column holds.

    >>> from halfpail.application.garden_tables import BAGS
    >>> row_of(BAGS, {"bag": "meal", "weight of a full bag (lb)": "5"}, Units())["weight"]
    Fraction(45359237, 20000000)
    """
    exact = exact_numbers(str(told.get(EXACTLY.head) or ""))
    row: dict[str, Cell] = {}
    for column in table.columns:
        value = _value(column.kind, told.get(column.head_in(units)))
        if column.key in exact and isinstance(value, Fraction):
            whole = exact[column.key]
            value = whole if short(whole) == value else value
        row[column.key] = _times(column.kind, value, units)
    return row


def exact_numbers(text: str) -> dict[str, Fraction]:
    """The numbers that stand whole in the last column, by the keys of theirs.

    >>> exact_numbers("size=385/96; yield=1/3")
    {'size': Fraction(385, 96), 'yield': Fraction(1, 3)}
    """
    return {key: Fraction(number) for key, number in _EXACT.findall(text)}


def short(value: Fraction) -> Fraction:
    """A value as a cell holds it: rounded to twelve digits.

    >>> short(Fraction(1, 3)), short(Fraction(25, 2))
    (Fraction(333333333333, 1000000000000), Fraction(25, 2))
    """
    if not float(value):
        return Fraction(0)
    places = DIGITS - 1 - floor(log10(abs(value)))
    return to_nearest(value, 1 / Fraction(10) ** places)


def _cells(table: Table, row: Row, units: Units) -> tuple[tuple[Cell, ...], str]:
    """The cells of a row, and its exact numbers in words."""
    cells: list[Cell] = []
    exact: list[str] = []
    for column in table.columns:
        value = row.get(column.key)
        if isinstance(value, bool):
            cells.append(YES if value else NO)
        elif isinstance(value, Fraction):
            number = _in_unit(column.kind, value, units)
            cells.append(short(number))
            if short(number) != number:
                exact.append(f"{column.key}={number}")
        elif isinstance(value, str):
            cells.append(guarded(value) or None)
        else:
            cells.append(value)
    return tuple(cells), "; ".join(exact)


def _in_unit(kind: Kind, value: Fraction, units: Units) -> Fraction:
    if kind is Kind.TEMPERATURE and units.word(kind) == "°F":
        return value * 9 / 5 + 32
    return value / units.size(kind)


def _times(kind: Kind, value: Cell, units: Units) -> Cell:
    if not isinstance(value, Fraction):
        return value
    if kind is Kind.TEMPERATURE and units.word(kind) == "°F":
        return (value - 32) * 5 / 9
    return value * units.size(kind)


def _value(kind: Kind, cell: Cell) -> Cell:
    if cell is None or cell == "":
        return None
    if kind is Kind.WORDS:
        return unguarded(str(cell))
    if kind is Kind.YES_NO:
        if cell not in (YES, NO):
            raise ValueError(f"{cell!r} is neither yes nor no")
        return cell == YES
    if kind is Kind.DATE:
        return cell if isinstance(cell, date) else date.fromisoformat(str(cell))
    if kind is Kind.WHOLE:
        return int(str(cell).removesuffix(".0"))
    return _number(cell)


def _number(cell: Cell) -> Cell:
    """A number, or the words with a unit of their own that may stand in its place."""
    if isinstance(cell, Fraction):
        return cell
    text = str(cell)
    try:
        return Fraction(text)
    except ValueError:
        return unguarded(text)


def decimal_text(number: Fraction) -> str:
    """A short decimal written out, as CSV has it.

    >>> decimal_text(Fraction(25, 2)), decimal_text(Fraction(1, 10**7)), decimal_text(Fraction(3))
    ('12.5', '0.0000001', '3')
    """
    places = 0
    while (number * 10**places).denominator != 1:
        places += 1
    whole = str(abs(int(number * 10**places))).rjust(places + 1, "0")
    sign = "-" if number < 0 else ""
    return f"{sign}{whole[:-places]}.{whole[-places:]}" if places else f"{sign}{whole}"


def by_head(heads: Sequence[str], cells: Sequence[Cell]) -> dict[str, Cell]:
    """A row of a sheet by its heads."""
    return dict(zip(heads, cells, strict=False))
