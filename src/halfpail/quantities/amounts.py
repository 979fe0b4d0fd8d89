"""The grammar of amounts: a number with its unit, `4 lb 8 oz`, `4 x 8 ft`.

The units are those of `units.py`, the numbers those of `numerals.py`; the text is tidied first.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from halfpail.quantities.numerals import NUMERAL_CHARACTERS, Unreadable, read_numeral
from halfpail.quantities.typed_text import TIMES_SIGN
from halfpail.quantities.units import DOUBTFUL_WORDS, Dimension, Unit, unit_called, unit_named

NUMBER = rf"[{NUMERAL_CHARACTERS}](?: ?[{NUMERAL_CHARACTERS}])*"

_SUGGESTED = {
    Dimension.MASS: "lb, oz, kg or g",
    Dimension.VOLUME: "cups, tbsp, tsp, gal, L or mL",
    Dimension.LENGTH: "ft, in, m or cm",
    Dimension.AREA: "sq ft, acres or m²",
}
_ADVICE = {
    ("oz", Dimension.VOLUME): "A measure by volume is written fl oz.",
    ("fl oz", Dimension.MASS): "A weight is written oz.",
    ("tsp", Dimension.MASS): "t is read as a teaspoon; write tonne for the metric ton.",
    ("yd", Dimension.VOLUME): "Write cu yd.",
    ("ft", Dimension.AREA): "Write both sides, such as 4 x 8 ft, or the area in sq ft.",
    ("m", Dimension.AREA): "Write both sides, such as 1.2 x 3 m, or the area in m².",
}
_SIDE_OF = {"sq in": "in", "sq ft": "ft", "sq yd": "yd", "cm²": "cm", "m²": "m"}
_POWERED_UNIT = r"(?:in|ft|yd|cm|m)\^?[23](?![\w.])"
_PLAIN_UNIT = rf"(?:[^{NUMERAL_CHARACTERS}]|[.,/](?![0-9]))*"
_PART = re.compile(rf"({NUMBER}) ?({_POWERED_UNIT}|{_PLAIN_UNIT})", re.IGNORECASE)
_TIMES = re.compile(rf"[x{TIMES_SIGN}*]|\bby\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Amount:
    """What was read: the numbers with their units, what they measure, and the exact size.

    `size` is in the canonical unit of the dimension [kg, L, m or m²]. The sides of an area are
    kept as `parts`, in their own units of length.
    """

    parts: tuple[tuple[Fraction, Unit], ...]
    dimension: Dimension
    size: Fraction


def amount_of(
    text: str, dimension: Dimension | None, default: str | None, *, nought: bool = False
) -> Amount:
    """The amount a tidied text stands for, of one dimension or (None) of any.

    `default` names the unit meant where the text has none; `nought` says whether 0 will do.

    Raises:
        Unreadable: it is no such amount, or could be two different ones.

    >>> amount_of("4 x 8", Dimension.AREA, "sq ft").size == 32 * unit_named("sq ft").size
    True
    """
    unit = None if default is None else _known(default, dimension)
    if dimension in (Dimension.AREA, None) and _TIMES.search(text):
        amount = _sides(text, unit)
    else:
        amount = _sum(text, dimension, unit)
    if not nought and amount.size == 0:
        raise Unreadable("The amount must be more than nought.", "Write an amount above 0.")
    return amount


def _known(word: str, dimension: Dimension | None) -> Unit:
    """The default unit a caller names; a wrong one is a mistake in the program, not in the text."""
    unit = unit_named(word)
    if dimension not in (None, unit.dimension):
        raise ValueError(f"{word} does not measure {dimension}")
    return unit


def _sides(text: str, default: Unit | None) -> Amount:
    """An area from two sides: `4 x 8 ft`, `4 ft x 8 ft 6 in`."""
    sides = [side.strip() for side in _TIMES.split(text)]
    if len(sides) != 2 or not all(sides):
        raise Unreadable(f"{text} is not two sides.", "Write two sides, such as 4 x 8 ft.")
    side_unit = (
        unit_named(_SIDE_OF[default.symbol]) if default and default.symbol in _SIDE_OF else None
    )
    second = _sum(sides[1], Dimension.LENGTH, side_unit)
    first_has_unit = re.search(rf"[^{NUMERAL_CHARACTERS} ]", sides[0]) is not None
    if not first_has_unit and len(second.parts) > 1:
        raise Unreadable("The first side has no unit.", "Write the unit after both sides.")
    first = _sum(sides[0], Dimension.LENGTH, second.parts[0][1])
    return Amount(first.parts + second.parts, Dimension.AREA, first.size * second.size)


def _sum(text: str, dimension: Dimension | None, default: Unit | None) -> Amount:
    """One number with its unit, or several with units that grow strictly smaller."""
    parts = tuple(_parts(text, dimension, default))
    for (number, unit), (next_number, next_unit) in pairwise(parts):
        _check_follows(number, unit, next_number, next_unit)
    size = sum((number * unit.size for number, unit in parts), Fraction(0))
    return Amount(parts, parts[0][1].dimension, size)


def _parts(
    text: str, dimension: Dimension | None, default: Unit | None
) -> Iterator[tuple[Fraction, Unit]]:
    position = 0
    while position < len(text):
        match = _PART.match(text, position)
        if match is None:
            where = f"before {text[position:].strip()}" if position else "at the start"
            raise Unreadable(f"There is no number {where}.", _example(dimension))
        number, word = read_numeral(match[1].strip()), match[2].strip(" ,")
        alone = position == 0 and match.end() == len(text)
        position = match.end()
        yield number, _unit(word, dimension, default if alone else None)


def _unit(word: str, dimension: Dimension | None, default: Unit | None) -> Unit:
    if not word:
        if default is None:
            raise Unreadable("There is no unit.", f"Add one: {_suggested(dimension)}.")
        return default
    if choices := DOUBTFUL_WORDS.get(word.casefold().rstrip(".")):
        meant = " or ".join(choices)
        raise Unreadable(f"{word} could mean {meant}.", f"Write {meant}.")
    unit = unit_called(word)
    if unit is None:
        raise Unreadable(f"{word} is not a unit known here.", f"Use {_suggested(dimension)}.")
    if dimension is not None and unit.dimension is not dimension:
        raise Unreadable(
            f"{unit.symbol} measures {unit.dimension.value}, but {dimension.value} is wanted.",
            _ADVICE.get((unit.symbol, dimension), f"Use {_suggested(dimension)}."),
        )
    return unit


def _check_follows(number: Fraction, unit: Unit, next_number: Fraction, next_unit: Unit) -> None:
    if next_unit.dimension is not unit.dimension:
        raise Unreadable(
            f"{unit.symbol} measures {unit.dimension.value} and {next_unit.symbol} "
            f"{next_unit.dimension.value}; they cannot be added.",
            "Write one kind of unit only.",
        )
    if next_unit.size >= unit.size:
        raise Unreadable(
            f"{next_unit.symbol} after {unit.symbol} is not a smaller unit.",
            "Write the larger unit first, such as 4 lb 8 oz.",
        )
    if number.denominator != 1:
        raise Unreadable(
            f"Only the last number may have a fraction, not the one before {unit.symbol}.",
            f"Write whole {unit.plural} first, such as 4 lb 8 1/2 oz.",
        )
    if next_number * next_unit.size >= unit.size:
        raise Unreadable(
            f"The {next_unit.plural} come to a whole {unit.symbol} or more.",
            f"Check both numbers, or write it all in {next_unit.plural}.",
        )


def _suggested(dimension: Dimension | None) -> str:
    return "lb, cups, ft or sq ft, say" if dimension is None else _SUGGESTED[dimension]


def _example(dimension: Dimension | None) -> str:
    return f"Write a number, then the unit: {_suggested(dimension)}."
