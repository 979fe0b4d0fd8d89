"""Reading what people type into exact amounts; what is wrong or doubtful is refused with advice."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from fractions import Fraction

from halfpail.findings import Fault, Refusal
from halfpail.quantities.amounts import NUMBER, Amount, amount_of
from halfpail.quantities.numerals import NUMERAL_CHARACTERS, Unreadable, read_numeral
from halfpail.quantities.typed_text import quoted, tidied
from halfpail.quantities.units import Dimension

_CURRENCY_SIGNS = {"$": "USD", "€": "EUR", "£": "GBP"}
_MONEY = re.compile(r"([$€£]?) ?(.*?) ?([$€£]|[A-Z]{3})?")


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
        mass, area = _divided(tidied(text), ".*?[^0-9 /]", "2 lb per 100 sq ft")
        weight = amount_of(mass, Dimension.MASS, None, nought=nought)
        return weight.size / amount_of(_one(area), Dimension.AREA, None).size


def read_money(text: str, place: str = "", currency: str | None = None) -> Fraction:
    """A sum of money in whole cents, nought included; with `currency`, in no other [money].

    Raises:
        Refusal: it is not a sum of money, is below nought or finer than a cent.

    >>> read_money("$12.99")
    Fraction(1299, 100)
    """
    with _refusing(text, place):
        return _money(tidied(text), currency, places=2)


def read_price_per_kg(text: str, place: str = "", currency: str | None = None) -> Fraction:
    """Money for a weight [money/kg], such as `$1.00 per lb`.

    Raises:
        Refusal: it is not money for a weight.

    >>> float(read_price_per_kg("1.10 per kg"))
    1.1
    """
    with _refusing(text, place):
        money, mass = _divided(tidied(text), "[^/]+?", "1.00 per lb")
        price = _money(money, currency, places=4)
        return price / amount_of(_one(mass), Dimension.MASS, None).size


def read_percent(text: str, place: str = "") -> Fraction:
    """A share in percent, 0 to 100 [percent]; the sign may be left out.

    Raises:
        Refusal: it is no number from 0 to 100.

    >>> read_percent("3.5 %"), read_percent("4")
    (Fraction(7, 2), Fraction(4, 1))
    """
    with _refusing(text, place):
        percent = _bare(re.sub(r" ?(?:%|percent)$", "", tidied(text)))
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
        return _bare(tidied(text))


def read_scoops(text: str, place: str = "") -> Fraction:
    """A number of scoops, nought or more; the word may be left out [scoops].

    Raises:
        Refusal: it is not such a number.

    >>> read_scoops("2 1/4 scoops")
    Fraction(9, 4)
    """
    with _refusing(text, place):
        return _bare(re.sub(r" ?scoops?$", "", tidied(text)))


def read_whole(text: str, place: str = "", least: int = 0, most: int | None = None) -> int:
    """A whole number from `least` to `most` [1].

    Raises:
        Refusal: it is not a whole number in that range.

    >>> read_whole("12")
    12
    """
    with _refusing(text, place):
        number = _bare(tidied(text))
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
        return amount_of(tidied(text), None, unit, nought=True)


def _read(
    text: str, place: str, dimension: Dimension, unit: str | None, *, nought: bool
) -> Fraction:
    with _refusing(text, place):
        return amount_of(tidied(text), dimension, unit, nought=nought).size


@contextmanager
def _refusing(text: str, place: str) -> Iterator[None]:
    """Turn what could not be read into a refusal that knows its place and what was typed."""
    try:
        yield
    except Unreadable as why:
        raise Refusal(
            Fault(place=place, read=quoted(text), sentence=why.sentence, remedy=why.remedy)
        ) from None


def _bare(text: str) -> Fraction:
    if not text:
        raise Unreadable("There is no number.", "Write a number such as 2.5 or 2 1/2.")
    if not re.fullmatch(NUMBER, text):
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
        raise Unreadable(f"{text} is not a sum of money.", "Write it as 12.99.")
    amount = read_numeral(number)
    if (amount * 10**places).denominator != 1:
        raise Unreadable(
            f"{number} has more than {places} decimal places.", f"Round it to {places} places."
        )
    return amount


def _divided(text: str, before_stroke: str, example: str) -> tuple[str, str]:
    """What stands before and after `per`, or after the stroke that follows `before_stroke`."""
    match = re.fullmatch(r"(.+?) ?\bper\b ?(.+)", text) or re.fullmatch(
        rf"({before_stroke}) ?/ ?(.+)", text
    )
    if match is None:
        raise Unreadable("There is no per in it.", f"Write it as {example}.")
    return match[1], match[2]


def _one(text: str) -> str:
    """A unit alone stands for one of it."""
    return text if text[0] in NUMERAL_CHARACTERS else f"1 {text}"
