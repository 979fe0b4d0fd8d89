"""Rounding for people, exact and always the same way: an exact half goes up.

Half up is what people do with a pencil (2.25 to a tenth is 2.3). Rounding half to even, as
computers often do, would print 2.2 and could not be repeated from the working.
"""

from fractions import Fraction
from math import floor


def to_nearest(value: Fraction, step: Fraction) -> Fraction:
    """The multiple of a step nearest to a value; an exact half goes up.

    >>> to_nearest(Fraction("2.25"), Fraction("0.1"))
    Fraction(23, 10)
    """
    return floor(value / step + Fraction(1, 2)) * step


def down_to(value: Fraction, step: Fraction) -> Fraction:
    """The largest multiple of a step that is not above a value, as for a guarantee.

    >>> down_to(Fraction("3.99"), Fraction(1, 2))
    Fraction(7, 2)
    """
    return floor(value / step) * step


def decimal(value: Fraction, places: int) -> str:
    """A value with a fixed number of decimal places, an exact half rounded up.

    >>> decimal(Fraction(1, 3), 2), decimal(Fraction(-1, 8), 1), decimal(Fraction(5, 2), 0)
    ('0.33', '-0.1', '3')
    """
    tenths = floor(value * 10**places + Fraction(1, 2))
    sign, digits = "-" if tenths < 0 else "", str(abs(tenths)).rjust(places + 1, "0")
    if places == 0:
        return sign + digits
    return f"{sign}{digits[:-places]}.{digits[-places:]}"


def shortest(value: Fraction, places: int) -> str:
    """A value rounded to at most so many decimal places, without noughts at the end.

    >>> shortest(Fraction("2.50"), 2), shortest(Fraction(2), 2)
    ('2.5', '2')
    """
    text = decimal(value, places)
    return text.rstrip("0").rstrip(".") if "." in text else text
