"""Temperatures with their unit, to and fro."""

from fractions import Fraction

import pytest

from halfpail.findings import Refusal
from halfpail.quantities.temperature import (
    celsius,
    fahrenheit,
    read_temperature_c,
    show_temperature,
)
from halfpail.quantities.units import System


@pytest.mark.parametrize(("f", "c"), [(32, 0), (212, 100), (-40, -40), (50, 10), (86, 30)])
def test_fixed_points(f, c):
    """NIST Special Publication 811, appendix B.8: 32 °F is 0 °C, 212 °F is 100 °C."""
    assert celsius(Fraction(f)) == c
    assert fahrenheit(Fraction(c)) == f


@pytest.mark.parametrize(
    ("text", "c"),
    [("50 F", 10), ("50°F", 10), ("10c", 10), ("-2,5 °C", "-5/2"), ("\N{MINUS SIGN}4 F", -20)],
)
def test_read(text, c):
    assert read_temperature_c(text) == Fraction(c)


def test_a_unit_may_be_meant():
    assert read_temperature_c("50", unit="F") == 10


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("50", "no unit"),
        ("warm", "no temperature"),
        ("250 F", "so cold or so hot"),
        ("", "no temp"),
    ],
)
def test_refused(text, told):
    with pytest.raises(Refusal) as caught:
        read_temperature_c(text, "--soil")
    (fault,) = caught.value.faults
    assert fault.place == "--soil"
    assert told in fault.sentence


def test_shown_to_the_degree():
    assert show_temperature(Fraction(155, 10), System.US) == "60 °F"
    assert show_temperature(Fraction(155, 10), System.METRIC) == "16 °C"
