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

    `size` is exact, in the canonical unit of its dimension [kg, L, m or m²]. `synonyms` are read
    in any case; `shorthand` only in exactly the case given.
    """

    symbol: str
    plural: str
    dimension: Dimension
    system: System
    size: Fraction
    synonyms: tuple[str, ...] = ()
    shorthand: tuple[str, ...] = ()


_PRIMES = "\N{PRIME}, \N{RIGHT SINGLE QUOTATION MARK}"
_DOUBLE_PRIMES = "\N{DOUBLE PRIME}, \N{RIGHT DOUBLE QUOTATION MARK}"

_POUND = Fraction("0.45359237")
_INCH = Fraction("0.0254")
_FOOT = 12 * _INCH
_YARD = 36 * _INCH
_CUBIC_INCH = _INCH**3 * 1000
_GALLON = 231 * _CUBIC_INCH


def _us(
    symbol: str,
    plural: str,
    dimension: Dimension,
    size: Fraction,
    synonyms: str = "",
    shorthand: tuple[str, ...] = (),
) -> Unit:
    words = tuple(word.strip() for word in synonyms.split(",") if word.strip())
    return Unit(symbol, plural, dimension, System.US, size, words, shorthand)


def _metric(symbol: str, dimension: Dimension, size: str, synonyms: str) -> Unit:
    words = tuple(word.strip() for word in synonyms.split(","))
    return Unit(symbol, symbol, dimension, System.METRIC, Fraction(size), words)


UNITS: tuple[Unit, ...] = (
    _us("oz", "oz", Dimension.MASS, _POUND / 16, "ounce, ounces"),
    _us("lb", "lb", Dimension.MASS, _POUND, "lbs, pound, pounds, #"),
    _us("short ton", "short tons", Dimension.MASS, 2000 * _POUND, "us ton, us tons"),
    _metric("g", Dimension.MASS, "0.001", "gram, grams"),
    _metric("kg", Dimension.MASS, "1", "kgs, kilo, kilos, kilogram, kilograms"),
    _metric("tonne", Dimension.MASS, "1000", "tonnes, metric ton, metric tons"),
    _us("tsp", "tsp", Dimension.VOLUME, _GALLON / 768, "tsps, teaspoon, teaspoons", ("t",)),
    _us("tbsp", "tbsp", Dimension.VOLUME, _GALLON / 256, "tbs, tablespoon, tablespoons", ("T",)),
    _us("fl oz", "fl oz", Dimension.VOLUME, _GALLON / 128, "floz, fluid ounce, fluid ounces"),
    _us("cup", "cups", Dimension.VOLUME, _GALLON / 16, "us cup, us cups, c"),
    _us("pint", "pints", Dimension.VOLUME, _GALLON / 8, "pt, pts, us pint, us pints"),
    _us("quart", "quarts", Dimension.VOLUME, _GALLON / 4, "qt, qts, us quart, us quarts"),
    _us("gal", "gal", Dimension.VOLUME, _GALLON, "gals, gallon, gallons, us gal, us gallons"),
    _us(
        "bushel",
        "bushels",
        Dimension.VOLUME,
        Fraction("2150.42") * _CUBIC_INCH,
        "bu, us bushel, us bushels",
    ),
    _us(
        "cu in",
        "cu in",
        Dimension.VOLUME,
        _CUBIC_INCH,
        "cuin, in3, in^3, in³, cubic inch, cubic inches",
    ),
    _us(
        "cu ft",
        "cu ft",
        Dimension.VOLUME,
        1728 * _CUBIC_INCH,
        "cuft, ft3, ft^3, ft³, cubic foot, cubic feet",
    ),
    _us(
        "cu yd",
        "cu yd",
        Dimension.VOLUME,
        46656 * _CUBIC_INCH,
        "cuyd, yd3, yd^3, yd³, cubic yard, cubic yards",
    ),
    _metric(
        "mL", Dimension.VOLUME, "0.001", "millilitre, millilitres, milliliter, milliliters, cc"
    ),
    _metric("L", Dimension.VOLUME, "1", "litre, litres, liter, liters"),
    _metric(
        "m³",
        Dimension.VOLUME,
        "1000",
        "m3, m^3, cu m, cubic metre, cubic metres, cubic meter, cubic meters",
    ),
    _us("in", "in", Dimension.LENGTH, _INCH, f'inch, inches, ", {_DOUBLE_PRIMES}'),
    _us("ft", "ft", Dimension.LENGTH, _FOOT, f"foot, feet, ', {_PRIMES}"),
    _us("yd", "yd", Dimension.LENGTH, _YARD, "yds, yard, yards"),
    _metric("cm", Dimension.LENGTH, "0.01", "centimetre, centimetres, centimeter, centimeters"),
    _metric("m", Dimension.LENGTH, "1", "metre, metres, meter, meters"),
    _us(
        "sq in",
        "sq in",
        Dimension.AREA,
        _INCH**2,
        "sqin, in2, in^2, in², square inch, square inches",
    ),
    _us(
        "sq ft",
        "sq ft",
        Dimension.AREA,
        _FOOT**2,
        "sqft, sf, ft2, ft^2, ft², square foot, square feet",
    ),
    _us(
        "sq yd",
        "sq yd",
        Dimension.AREA,
        _YARD**2,
        "sqyd, yd2, yd^2, yd², square yard, square yards",
    ),
    _us("acre", "acres", Dimension.AREA, 43560 * _FOOT**2, "ac"),
    _metric(
        "cm²",
        Dimension.AREA,
        "0.0001",
        "cm2, cm^2, sq cm, square centimetre, square centimetres, square centimeter, "
        "square centimeters",
    ),
    _metric(
        "m²",
        Dimension.AREA,
        "1",
        "m2, m^2, sq m, sqm, square metre, square metres, square meter, square meters",
    ),
    _metric("are", Dimension.AREA, "100", "ares"),
    _metric("ha", Dimension.AREA, "10000", "hectare, hectares"),
)

# Words that name two different units; each is refused with the wordings to choose from.
DOUBTFUL_WORDS: dict[str, tuple[str, ...]] = {
    "ton": ("short ton", "tonne"),
    "tons": ("short tons", "tonnes"),
}

_SHORTHAND = {word: unit for unit in UNITS for word in unit.shorthand}
_WORDS = {
    word.casefold(): unit for unit in UNITS for word in (unit.symbol, unit.plural, *unit.synonyms)
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
    return _SHORTHAND.get(plain) or _WORDS.get(plain.casefold())


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
