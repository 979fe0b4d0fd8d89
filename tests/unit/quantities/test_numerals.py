from fractions import Fraction

import pytest

from halfpail.quantities.numerals import VULGAR, Unreadable, mixed, read_numeral
from halfpail.quantities.rounding import decimal, down_to, shortest, to_nearest


def test_every_vulgar_fraction_is_one_over_or_under_ten():
    assert len(VULGAR) == 18
    assert VULGAR["⅞"] == Fraction(7, 8)
    assert all(0 < value < 1 and value.denominator <= 10 for value in VULGAR.values())


@pytest.mark.parametrize("text", ["", " ", ".", ",", "/", "1/", "/2", "1,", ",5", "-1", "1 ", "x"])
def test_what_is_no_numeral_is_refused(text):
    with pytest.raises(Unreadable):
        read_numeral(text)


@pytest.mark.parametrize(("value", "text"), [("7/2", "3 1/2"), ("2", "2"), ("0", "0")])
def test_a_number_is_written_with_a_plain_fraction(value, text):
    assert mixed(Fraction(value)) == text


@pytest.mark.parametrize(
    ("value", "nearest", "down"),
    [("2.25", "2.3", "2.2"), ("2.35", "2.4", "2.3"), ("2.2499", "2.2", "2.2"), ("2", "2", "2")],
)
def test_an_exact_half_goes_up_and_a_guarantee_goes_down(value, nearest, down):
    tenth = Fraction(1, 10)
    assert to_nearest(Fraction(value), tenth) == Fraction(nearest)
    assert down_to(Fraction(value), tenth) == Fraction(down)


@pytest.mark.parametrize(
    ("value", "places", "text"),
    [("0.005", 2, "0.01"), ("12", 2, "12.00"), ("-1.255", 2, "-1.25"), ("0.5", 0, "1")],
)
def test_a_decimal_has_its_places(value, places, text):
    assert decimal(Fraction(value), places) == text


def test_the_shortest_decimal_keeps_whole_tens():
    assert shortest(Fraction(100), 2) == shortest(Fraction(100), 0) == "100"
