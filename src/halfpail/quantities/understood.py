"""Saying back what was read, so that a person sees at once which unit was understood."""

from fractions import Fraction

from halfpail.quantities.numerals import mixed
from halfpail.quantities.reading import read_amount
from halfpail.quantities.rounding import shortest
from halfpail.quantities.units import Dimension, System, Unit, unit_named

# The units an amount is said back in, largest first, in the system it was not typed in.
_SAID_IN = {
    (Dimension.MASS, System.US): ("lb", "oz"),
    (Dimension.MASS, System.METRIC): ("kg", "g"),
    (Dimension.VOLUME, System.US): ("gal", "cup", "tsp"),
    (Dimension.VOLUME, System.METRIC): ("L", "mL"),
    (Dimension.LENGTH, System.US): ("ft", "in"),
    (Dimension.LENGTH, System.METRIC): ("m", "cm"),
    (Dimension.AREA, System.US): ("sq ft",),
    (Dimension.AREA, System.METRIC): ("m²",),
}


def understood(text: str, place: str = "", unit: str | None = None) -> str:
    """What a typed amount was read as, and what that is in the other system of units.

    `unit` is meant where none is typed. A US measure of volume is named as one, since a cup is
    not the same everywhere.

    Raises:
        Refusal: it is no amount with a unit.

    >>> understood("2½ c"), understood("2,5 kg"), understood("4 x 8 ft")
    ('2 1/2 US cups = 591 mL', '2.5 kg = 5.51 lb', '4 ft x 8 ft = 2.97 m²')
    """
    amount = read_amount(text, place, unit)
    typed_in = amount.parts[0][1]
    joint = " x " if typed_in.dimension is not amount.dimension else " "
    said = joint.join(_said(number, typed) for number, typed in amount.parts)
    other = System.METRIC if typed_in.system is System.US else System.US
    units = [unit_named(word) for word in _SAID_IN[amount.dimension, other]]
    fitting = next((unit for unit in units if amount.size >= unit.size), units[-1])
    return f"{said} = {_said_shortly(amount.size / fitting.size, fitting)}"


def _said(number: Fraction, unit: Unit) -> str:
    as_fraction = unit.system is System.US and number.denominator <= 16
    digits = mixed(number) if as_fraction else _in_decimals(number)
    return f"{digits} {_full_name(unit, number)}"


def _said_shortly(number: Fraction, unit: Unit) -> str:
    """To three figures, whole numbers in full."""
    places = 2 - (number >= 10) - (number >= 100)
    return f"{shortest(number, places)} {_full_name(unit, number)}"


def _full_name(unit: Unit, number: Fraction) -> str:
    name = unit.symbol if 0 < number <= 1 else unit.plural
    names_a_measure = unit.dimension is Dimension.VOLUME and not unit.symbol.startswith("cu ")
    return f"US {name}" if unit.system is System.US and names_a_measure else name


def _in_decimals(number: Fraction) -> str:
    """As a decimal where that is exact within nine places, else as a fraction."""
    return shortest(number, 9) if (number * 10**9).denominator == 1 else mixed(number)
