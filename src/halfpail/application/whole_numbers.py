"""Numbers of a sheet in words that the usual readers take, to the last digit where that can be.

The readers take at most nine digits in a row. A number that has more in the unit of its column is
told in another unit of its kind, or as a fraction; what is short in none is rounded.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from halfpail.application.garden_tables import EXACTLY
from halfpail.application.head_words import Head
from halfpail.application.sheet_cells import exact_numbers, short
from halfpail.application.sheet_columns import Kind, Units
from halfpail.application.spreadsheet import Cell
from halfpail.quantities.numerals import mixed
from halfpail.quantities.rounding import shortest
from halfpail.quantities.units import System

MOST_DIGITS = 9
_NUMBER = re.compile(r"[0-9]{1,20}(?:\.[0-9]{1,40})?")
_DIGITS = re.compile(r"[0-9]+")
# Kinds whose units may stand for each other.
_ALIKE = {Kind.MASS: (Kind.MASS, Kind.LIGHT), Kind.LIGHT: (Kind.LIGHT, Kind.MASS)}


def whole_numbers(cells: Sequence[Cell], heads: Sequence[Head]) -> dict[str, Fraction]:
    """The numbers of a row that stand whole in a column of their own, by key."""
    for cell, head in zip(cells, heads, strict=False):
        if head.text == EXACTLY.head:
            return exact_numbers(cell.text)
    return {}


def readable(cell: Cell, whole: Fraction | None, kind: Kind, unit: str) -> Cell:
    """The cell with its number in readable words; `whole` counts where the cell still says it.

    >>> from halfpail.application.spreadsheet import CellKind
    >>> readable(Cell(CellKind.NUMBER, "1.3108819493"), None, Kind.MASS, "kg").text
    '2.89 lb'
    >>> readable(Cell(CellKind.NUMBER, "333.333333333"), Fraction(1000, 3), Kind.LIGHT, "g").text
    '333 1/3 g'
    """
    if not _NUMBER.fullmatch(cell.text):
        return cell
    value = Fraction(cell.text)
    if whole is not None and short(whole) == value:
        value = whole
    elif not _is_long(cell.text):
        return cell
    return replace(cell, text=_words(value, kind, unit))


def _words(value: Fraction, kind: Kind, unit: str) -> str:
    for number, word in _in_units(value, kind, unit):
        for text in (shortest(number, MOST_DIGITS), mixed(number)):
            if not _is_long(text) and (Fraction(number) == _read(text)):
                return f"{text} {word}".strip()
    return f"{shortest(value, MOST_DIGITS)} {unit}".strip()


def _in_units(value: Fraction, kind: Kind, unit: str) -> Iterator[tuple[Fraction, str]]:
    """The same amount in the unit of its head and in others of its kind."""
    yield value, unit
    known = [
        (units.word(one), units.size(one))
        for units in (Units(system=System.US), Units(system=System.METRIC))
        for one in _ALIKE.get(kind, (kind,))
    ]
    size = dict(known).get(unit)
    if size is not None:
        for word, other in known:
            yield value * size / other, word


def _read(text: str) -> Fraction:
    return sum(map(Fraction, text.split()), Fraction(0))


def _is_long(text: str) -> bool:
    return any(len(digits) > MOST_DIGITS for digits in _DIGITS.findall(text))
