"""Units people use at the bench, each with its exact size in this project's own units.

This table holds the only conversion factors of the project. The sizes follow from a few legal
definitions, all exact:

- 1 lb = 0.45359237 kg and 1 yd = 0.9144 m, so 1 in = 0.0254 m (Refinement of values for the yard
  and the pound, 24 Federal Register 5348, 1 July 1959);
- 1 gal = 231 cu in, 1 bushel = 2150.42 cu in, 1 gal = 4 qt = 8 pt = 16 cups = 128 fl oz = 256 tbsp
  = 768 tsp, 1 acre = 43560 sq ft (NIST Handbook 44, Appendix C, tables of U.S. units).

Pint and quart are the liquid ones. The acre is taken with the international foot: the survey foot,
larger by two parts in a million, was withdrawn at the end of 2022 (85 Federal Register 62698).
"""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import partial


class System(StrEnum):
    """The system of units a person reads."""

    US = "US"
    METRIC = "metric"


class Dimension(StrEnum):
    """What a unit measures; the value is the word people read."""

    MASS = "weight"
    VOLUME = "volume"
    LENGTH = "length"
    AREA = "area"


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: how it is written for one and for many, its size, and the ways it may be typed.

    `size` is exact, in the canonical unit of its dimension [kg, L, m or m²].
    """

    symbol: str
    plural: str
    dimension: Dimension
    system: System
    size: Fraction
    synonyms: tuple[str, ...]


_PRIMES = "\N{PRIME}, \N{RIGHT SINGLE QUOTATION MARK}"
_DOUBLE_PRIMES = "\N{DOUBLE PRIME}, \N{RIGHT DOUBLE QUOTATION MARK}"

_POUND = Fraction("0.45359237")
_INCH = Fraction("0.0254")
_FOOT = 12 * _INCH
_YARD = 36 * _INCH
_CUBIC_INCH = _INCH**3 * 1000
_GALLON = 231 * _CUBIC_INCH
_BUSHEL = Fraction("2150.42") * _CUBIC_INCH
_ONE = Fraction(1)
_THOUSANDTH = Fraction(1, 1000)


def _unit(system: System, dimension: Dimension, written: str, size: Fraction, words: str) -> Unit:
    """A unit from its wording for one (and for many, after a stroke) and its other words."""
    symbol, _, plural = written.partition("/")
    return Unit(symbol, plural or symbol, dimension, system, size, tuple(words.split(", ")))


_us = partial(_unit, System.US)
_metric = partial(_unit, System.METRIC)


def _squared(symbol: str, *names: str) -> str:
    """The words for a square of a unit of length: `sq ft`, `ft2`, `square feet`."""
    words = f"sq {symbol}, sq{symbol}, {symbol}2, {symbol}^2, {symbol}²"
    return ", ".join([words, *(f"square {name}" for name in names)])


def _cubed(symbol: str, *names: str) -> str:
    """The words for a cube of a unit of length: `cu ft`, `ft3`, `cubic feet`."""
    words = f"cu {symbol}, cu{symbol}, {symbol}3, {symbol}^3, {symbol}³"
    return ", ".join([words, *(f"cubic {name}" for name in names)])


_METRES = ("metre", "metres", "meter", "meters")
_MASS, _VOLUME = Dimension.MASS, Dimension.VOLUME
_LENGTH, _AREA = Dimension.LENGTH, Dimension.AREA

UNITS: tuple[Unit, ...] = (
    _us(_MASS, "oz", _POUND / 16, "ounce, ounces"),
    _us(_MASS, "lb", _POUND, "lbs, pound, pounds, #"),
    _us(_MASS, "short ton/short tons", 2000 * _POUND, "us ton, us tons"),
    _metric(_MASS, "g", _THOUSANDTH, "gram, grams"),
    _metric(_MASS, "kg", _ONE, "kgs, kilo, kilos, kilogram, kilograms"),
    _metric(_MASS, "tonne/tonnes", 1000 * _ONE, "metric ton, metric tons"),
    _us(_VOLUME, "tsp", _GALLON / 768, "t, tsps, teaspoon, teaspoons"),
    _us(_VOLUME, "tbsp", _GALLON / 256, "T, tbs, tablespoon, tablespoons"),
    _us(_VOLUME, "fl oz", _GALLON / 128, "floz, fluid ounce, fluid ounces"),
    _us(_VOLUME, "cup/cups", _GALLON / 16, "c, us cup, us cups"),
    _us(_VOLUME, "pint/pints", _GALLON / 8, "pt, pts, us pint, us pints"),
    _us(_VOLUME, "quart/quarts", _GALLON / 4, "qt, qts, us quart, us quarts"),
    _us(_VOLUME, "gal", _GALLON, "gals, gallon, gallons, us gal, us gallon, us gallons"),
    _us(_VOLUME, "bushel/bushels", _BUSHEL, "bu, us bushel, us bushels"),
    _us(_VOLUME, "cu in", _CUBIC_INCH, _cubed("in", "inch", "inches")),
    _us(_VOLUME, "cu ft", 12**3 * _CUBIC_INCH, _cubed("ft", "foot", "feet")),
    _us(_VOLUME, "cu yd", 36**3 * _CUBIC_INCH, _cubed("yd", "yard", "yards")),
    _metric(_VOLUME, "mL", _THOUSANDTH, "millilitre, millilitres, milliliter, milliliters, cc"),
    _metric(_VOLUME, "L", _ONE, "litre, litres, liter, liters"),
    _metric(_VOLUME, "m³", 1000 * _ONE, _cubed("m", *_METRES)),
    _us(_LENGTH, "in", _INCH, f'inch, inches, ", {_DOUBLE_PRIMES}'),
    _us(_LENGTH, "ft", _FOOT, f"foot, feet, ', {_PRIMES}"),
    _us(_LENGTH, "yd", _YARD, "yds, yard, yards"),
    _metric(_LENGTH, "cm", 10 * _THOUSANDTH, "centimetre, centimetres, centimeter, centimeters"),
    _metric(_LENGTH, "m", _ONE, "metre, metres, meter, meters"),
    _us(_AREA, "sq in", _INCH**2, _squared("in", "inch", "inches")),
    _us(_AREA, "sq ft", _FOOT**2, _squared("ft", "foot", "feet")),
    _us(_AREA, "sq yd", _YARD**2, _squared("yd", "yard", "yards")),
    _us(_AREA, "acre/acres", 43560 * _FOOT**2, "ac"),
    _metric(_AREA, "cm²", _ONE / 10_000, _squared("cm", *(f"centi{name}" for name in _METRES))),
    _metric(_AREA, "m²", _ONE, _squared("m", *_METRES)),
    _metric(_AREA, "are/ares", 100 * _ONE, "ar"),
    _metric(_AREA, "ha", 10_000 * _ONE, "hectare, hectares"),
)

# Words that name two different units; each is refused with the wordings to choose from.
DOUBTFUL_WORDS: dict[str, tuple[str, ...]] = {
    "ton": ("short ton", "tonne"),
    "tons": ("short tons", "tonnes"),
}

# The kitchen shorthand that tells a capital from a small letter.
_EXACT_CASE = {"t", "T"}
_WORDS = {
    word if word in _EXACT_CASE else word.casefold(): unit
    for unit in UNITS
    for word in (unit.symbol, unit.plural, *unit.synonyms)
}


def unit_called(word: str) -> Unit | None:
    """The unit a word stands for, or None.

    `T` is a tablespoon and `t` a teaspoon; other words are read in any case, full stops and
    repeated spaces left out.

    >>> unit_called("Fl. Oz.").symbol
    'fl oz'
    >>> unit_called("T").symbol, unit_called("t").symbol
    ('tbsp', 'tsp')
    """
    plain = " ".join(word.replace(".", " ").split())
    return _WORDS.get(plain if plain in _EXACT_CASE else plain.casefold())


def unit_named(word: str) -> Unit:
    """The unit a word of the program stands for.

    Raises:
        KeyError: no unit has that name.

    >>> unit_named("cup").plural
    'cups'
    """
    unit = unit_called(word)
    if unit is None:
        raise KeyError(word)
    return unit


def size_of(word: str) -> Fraction:
    """Exact size of a unit in the canonical unit of its dimension [kg, L, m or m²].

    Raises:
        KeyError: no unit has that name.

    >>> float(size_of("lb")), float(size_of("cup"))
    (0.45359237, 0.2365882365)
    """
    return unit_named(word).size
