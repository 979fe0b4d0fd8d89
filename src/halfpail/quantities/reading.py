"""Reading what people type into exact amounts; what is wrong or doubtful is refused with advice.

A small grammar of our own over exact fractions: a number with a unit, `4 lb 8 oz`, `4 x 8 ft`. The
units are those of `units.py`, the numbers those of `numerals.py`.
"""

import re
import unicodedata
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from halfpail.findings import Fault, Refusal
from halfpail.quantities.numerals import NUMERAL_CHARACTERS, VULGAR, Unreadable, read_numeral
from halfpail.quantities.units import DOUBTFUL_WORDS, Dimension, Unit, unit_called

MOST_CHARACTERS = 40

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
_SLASHES = "\N{FRACTION SLASH}\N{DIVISION SLASH}"
_TIMES_SIGN = "\N{MULTIPLICATION SIGN}"
_MINUS = "-\N{MINUS SIGN}"
_OTHER_CHARACTERS = (
    f"{_SLASHES}{_TIMES_SIGN}{_MINUS}²³€£"
    "\N{PRIME}\N{DOUBLE PRIME}\N{RIGHT SINGLE QUOTATION MARK}\N{RIGHT DOUBLE QUOTATION MARK}"
)
_SPACES = re.compile(r"[ \t\u00a0\u2000-\u200a\u202f\u205f\u3000]+")
_NUMBER = rf"[{NUMERAL_CHARACTERS}](?: ?[{NUMERAL_CHARACTERS}])*"
_POWERED_UNIT = r"(?:in|ft|yd|cm|m) ?\^?[23](?![\w.])"
_PLAIN_UNIT = rf"(?:[^{NUMERAL_CHARACTERS}]|[.,/](?![0-9]))*"
_PART = re.compile(rf"({_NUMBER}) ?({_POWERED_UNIT}|{_PLAIN_UNIT})", re.IGNORECASE)
_TIMES = re.compile(rf"[x{_TIMES_SIGN}*]|\bby\b", re.IGNORECASE)
_CURRENCY_SIGNS = {"$": "USD", "€": "EUR", "£": "GBP"}
_MONEY = re.compile(r"([$€£]?) ?(.*?) ?([$€£]|[A-Z]{3})?")


@dataclass(frozen=True, slots=True)
class Amount:
    """What was read: the numbers with their units, what they measure, and the exact size.

    `size` is in the canonical unit of the dimension [kg, L, m or m²]. The sides of an area are
    kept as `parts`, in their own units of length.
    """

    parts: tuple[tuple[Fraction, Unit], ...]
    dimension: Dimension
    size: Fraction


def read_mass_kg(
    text: str, place: str = "", unit: str | None = None, *, nought: bool = False
) -> Fraction:
    """Weight [kg]; `unit` is meant where none is typed, and `nought` says whether 0 will do.

    Raises:
        Refusal: it is not a weight, or could be two different ones.

    >>> float(read_mass_kg("4 lb 8 oz"))
    2.041165665
    """
    return _read(text, place, Dimension.MASS, unit, nought=nought)


def read_volume_l(
    text: str, place: str = "", unit: str | None = None, *, nought: bool = False
) -> Fraction:
    """Volume [L]; `unit` is meant where none is typed, and `nought` says whether 0 will do.

    Raises:
        Refusal: it is not a volume, or could be two different ones.

    >>> float(read_volume_l("2 1/2 cups"))
    0.59147059125
    """
    return _read(text, place, Dimension.VOLUME, unit, nought=nought)


def read_length_m(
    text: str, place: str = "", unit: str | None = None, *, nought: bool = False
) -> Fraction:
    """Length [m]; `unit` is meant where none is typed, and `nought` says whether 0 will do.

    Raises:
        Refusal: it is not a length, or could be two different ones.

    >>> float(read_length_m("4 ft 6 in"))
    1.3716
    """
    return _read(text, place, Dimension.LENGTH, unit, nought=nought)


def read_area_m2(
    text: str, place: str = "", unit: str | None = None, *, nought: bool = False
) -> Fraction:
    """Area [m²], typed as an area or as two sides; `unit` is meant where none is typed.

    Raises:
        Refusal: it is not an area, or could be two different ones.

    >>> read_area_m2("4 x 8 ft") == read_area_m2("32 sq ft")
    True
    """
    return _read(text, place, Dimension.AREA, unit, nought=nought)


def read_rate_kg_per_m2(text: str, place: str = "", *, nought: bool = False) -> Fraction:
    """A weight for an area [kg/m²], such as `2 lb per 100 sq ft` or `50 g/m²`.

    Raises:
        Refusal: it is not a weight for an area.

    >>> read_rate_kg_per_m2("50 g/m²")
    Fraction(1, 20)
    """
    with _refusing(text, place):
        mass, area = _divided(_tidy(text), "2 lb per 100 sq ft")
        weight = _amount(mass, Dimension.MASS, None, nought=nought)
        return weight.size / _amount(_one(area), Dimension.AREA, None).size


def read_money(text: str, place: str = "", currency: str | None = None) -> Fraction:
    """A sum of money in whole cents, nought included; with `currency`, in no other [money].

    Raises:
        Refusal: it is not a sum of money, is below nought or finer than a cent.

    >>> read_money("$12.99")
    Fraction(1299, 100)
    """
    with _refusing(text, place):
        return _money(_tidy(text), currency, places=2)


def read_price_per_kg(text: str, place: str = "", currency: str | None = None) -> Fraction:
    """Money for a weight [money/kg], such as `$1.00 per lb`.

    Raises:
        Refusal: it is not money for a weight.

    >>> float(read_price_per_kg("1.10 per kg"))
    1.1
    """
    with _refusing(text, place):
        money, mass = _divided(_tidy(text), "1.00 per lb")
        price = _money(money, currency, places=4)
        return price / _amount(_one(mass), Dimension.MASS, None).size


def read_percent(text: str, place: str = "") -> Fraction:
    """A share in percent, 0 to 100 [percent]; the sign may be left out.

    Raises:
        Refusal: it is no number from 0 to 100.

    >>> read_percent("3.5 %"), read_percent("4")
    (Fraction(7, 2), Fraction(4, 1))
    """
    with _refusing(text, place):
        percent = _bare(re.sub(r" ?(?:%|percent)$", "", _tidy(text)))
        if percent > 100:
            raise Unreadable("A share cannot be more than 100 percent.", "Write 0 to 100.")
        return percent


def read_number(text: str, place: str = "") -> Fraction:
    """A number without a unit, nought or more [1].

    Raises:
        Refusal: it is not such a number.

    >>> read_number("2 1/4")
    Fraction(9, 4)
    """
    with _refusing(text, place):
        return _bare(_tidy(text))


def read_whole(text: str, place: str = "", least: int = 0, most: int | None = None) -> int:
    """A whole number from `least` to `most` [1].

    Raises:
        Refusal: it is not a whole number in that range.

    >>> read_whole("12")
    12
    """
    with _refusing(text, place):
        number = _bare(_tidy(text))
        span = f"{least} or more" if most is None else f"from {least} to {most}"
        if number.denominator != 1:
            raise Unreadable("A whole number is wanted.", f"Write a whole number, {span}.")
        if number < least or (most is not None and number > most):
            raise Unreadable(f"The number must be {span}.", f"Write a whole number, {span}.")
        return int(number)


def read_amount(text: str, place: str = "", unit: str | None = None) -> Amount:
    """An amount of any dimension, with its parts as they were typed.

    Raises:
        Refusal: it is no amount with a unit.

    >>> read_amount("4 lb 8 oz").dimension.value
    'weight'
    """
    with _refusing(text, place):
        return _amount(_tidy(text), None, unit, nought=True)


def _read(
    text: str, place: str, dimension: Dimension, unit: str | None, *, nought: bool
) -> Fraction:
    with _refusing(text, place):
        return _amount(_tidy(text), dimension, unit, nought=nought).size


@contextmanager
def _refusing(text: str, place: str) -> Iterator[None]:
    """Turn what could not be read into a refusal that knows its place and what was typed."""
    try:
        yield
    except Unreadable as why:
        raise Refusal(
            Fault(place=place, read=_quoted(text), sentence=why.sentence, remedy=why.remedy)
        ) from None


def _quoted(text: str) -> str:
    """The text as it can be shown safely: cut short, and nothing that cannot be seen."""
    shown = text if len(text) <= MOST_CHARACTERS else text[:MOST_CHARACTERS] + "…"
    return "".join(character if character.isprintable() else "�" for character in shown)


def _tidy(text: str) -> str:
    """The text with one kind of space and of character; refuses what has no place in an amount."""
    if len(text) > MOST_CHARACTERS:
        raise Unreadable(
            f"This is longer than {MOST_CHARACTERS} characters.", "Write one amount only."
        )
    tidy = _SPACES.sub(" ", unicodedata.normalize("NFC", text)).strip(" ")
    if not tidy:
        raise Unreadable("Nothing is written here.", "Write an amount.")
    for character in tidy:
        _check_character(character)
    if tidy[0] in _MINUS:
        raise Unreadable("An amount cannot be below nought.", "Leave out the minus sign.")
    if re.search(r"[0-9][eE][0-9]", tidy):
        raise Unreadable("Powers of ten are not read.", "Write the number in full.")
    return re.sub(f"[{_SLASHES}]", "/", tidy)


def _check_character(character: str) -> None:
    if (
        (" " <= character <= "~" and character != "_")
        or character in VULGAR
        or character in _OTHER_CHARACTERS
    ):
        return
    if not character.isprintable():
        raise Unreadable(
            f"There is a character that cannot be seen (U+{ord(character):04X}).",
            "Delete the text and type it again.",
        )
    if unicodedata.category(character).startswith("N"):
        raise Unreadable(f"{character} is not one of the digits 0 to 9.", "Use the digits 0 to 9.")
    raise Unreadable(f"{character} has no place in an amount.", "Leave it out.")


def _amount(
    text: str, dimension: Dimension | None, default: str | None, *, nought: bool = False
) -> Amount:
    unit = None if default is None else unit_called(default)
    if dimension in (Dimension.AREA, None) and _TIMES.search(text):
        amount = _sides(text, unit)
    else:
        amount = _sum(text, dimension, unit)
    if not nought and amount.size == 0:
        raise Unreadable("The amount must be more than nought.", "Write an amount above 0.")
    return amount


def _sides(text: str, default: Unit | None) -> Amount:
    """An area from two sides: `4 x 8 ft`, `4 ft x 8 ft 6 in`."""
    sides = [side.strip() for side in _TIMES.split(text)]
    if len(sides) != 2 or not all(sides):
        raise Unreadable(f"{text} is not two sides.", "Write two sides, such as 4 x 8 ft.")
    side_name = _SIDE_OF.get(default.symbol) if default else None
    side_unit = unit_called(side_name) if side_name else None
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
            raise Unreadable("There is no number at the start.", _example(dimension))
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
            f"{unit.symbol} measures {unit.dimension.value}, and a {dimension.value} is wanted.",
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


def _bare(text: str) -> Fraction:
    if not re.fullmatch(_NUMBER, text):
        raise Unreadable(f"{text} is not a number alone.", "Write a number such as 2.5 or 2 1/2.")
    return read_numeral(text)


def _money(text: str, currency: str | None, places: int) -> Fraction:
    match = _MONEY.fullmatch(text)
    before, number, after = match.groups() if match else ("", text, None)
    typed = {_CURRENCY_SIGNS.get(mark, mark) for mark in (before, after) if mark}
    if len(typed) > 1 or (currency is not None and typed - {currency}):
        raise Unreadable(
            f"The money here is {' and '.join(sorted(typed))}.",
            f"Write it in {currency or 'one currency'}.",
        )
    if not re.fullmatch(r"[0-9.,]+", number):
        raise Unreadable(f"{number} is not a sum of money.", "Write it as 12.99.")
    amount = read_numeral(number)
    if (amount * 10**places).denominator != 1:
        raise Unreadable(
            f"{number} has more than {places} decimal places.", f"Round it to {places} places."
        )
    return amount


def _divided(text: str, example: str) -> tuple[str, str]:
    """The two sides of `per`, or of a stroke that is not the stroke of a fraction."""
    match = re.fullmatch(r"(.+?) ?(?:\bper\b|/(?! ?[0-9]+ ?[a-zA-Z]*/)) ?([^/]+)", text)
    if match is None:
        raise Unreadable("There is no per in it.", f"Write it as {example}.")
    return match[1], match[2]


def _one(text: str) -> str:
    """A unit alone stands for one of it."""
    return text if text[0] in NUMERAL_CHARACTERS else f"1 {text}"


def _suggested(dimension: Dimension | None) -> str:
    return "lb, cups, ft or sq ft, say" if dimension is None else _SUGGESTED[dimension]


def _example(dimension: Dimension | None) -> str:
    return f"Write a number, then the unit: {_suggested(dimension)}."
