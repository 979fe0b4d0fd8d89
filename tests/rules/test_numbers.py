"""Conversion factors live in quantities only; oxide factors come from atomic weights."""

import io
import re
import tokenize

import pytest

from tests.rules.tree import SOURCE, modules, text_of

# The factors that slip in by hand; only their digits count, not the place of the decimal point.
FACTORS = {
    4.5359237: "pounds and kilograms",
    2.2046226: "kilograms and pounds",
    2.8349523: "ounces and grams",
    3.5273962: "grams and ounces",
    9.0718474: "short tons and kilograms",
    9.2903040: "square feet and square metres",
    1.0763910: "square metres and square feet",
    3.0480000: "feet and metres",
    2.3658824: "cups and litres",
    4.2267528: "litres and cups",
    3.7854118: "gallons and litres",
    2.6417205: "litres and gallons",
    9.4635295: "quarts and litres",
    4.0468564: "acres and square metres",
    2.4710538: "hectares and acres",
    4.3560000: "square feet in an acre",
    1.1208511: "lb/acre and kg/ha",
    4.8824276: "lb/1000 sq ft and g/m2",
    2.2913673: "P and P2O5",
    4.3642150: "P2O5 and P",
    1.2045996: "K and K2O",
    8.3014803: "K2O and K",
    1.3991966: "Ca and CaO",
    1.6582596: "Mg and MgO",
}
FEWEST_DIGITS = 4
NUMERAL = re.compile(r"""^[rRbBuU]?["']?([0-9][0-9_.]*)["']?$""")


def numerals(text: str) -> list[tuple[int, str]]:
    """Line and text of each number written in the code, also as the text of a fraction."""
    found = []
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        match = NUMERAL.match(token.string)
        if token.type in (tokenize.NUMBER, tokenize.STRING) and match:
            found.append((token.start[0], match[1].replace("_", "")))
    return found


def factor_in(number: str) -> str | None:
    """The factor that a number is, written to four digits or more."""
    digits = number.replace(".", "").lstrip("0")
    if len(digits.rstrip("0")) < FEWEST_DIGITS or number.count(".") > 1:
        return None
    leading = float(f"{digits[0]}.{digits[1:]}")
    near = (name for factor, name in FACTORS.items() if abs(leading / factor - 1) < 2e-4)
    return next(near, None)


def test_no_conversion_factor_outside_quantities():
    slips = [
        f"{module.relative_to(SOURCE)}:{line} {number} ({factor_in(number)})"
        for module in modules()
        if SOURCE / "quantities" not in module.parents
        for line, number in numerals(text_of(module))
        if factor_in(number)
    ]
    assert slips == []


@pytest.mark.parametrize(
    "code", ["0.4536", "Fraction('0.45359237')", "2.2046", "43_560", "453.59", "1.2046", "2.29137"]
)
def test_a_factor_written_by_hand_is_seen(code):
    assert all(factor_in(number) for _, number in numerals(code))


@pytest.mark.parametrize("code", ["0.5", "1000", "'45'", "Fraction(1, 8)"])
def test_a_plain_number_is_none(code):
    assert {factor_in(number) for _, number in numerals(code)} == {None}
