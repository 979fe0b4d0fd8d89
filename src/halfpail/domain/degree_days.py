"""Degree-days of one day, by each of the published rules, which differ; exact.

All temperatures of one call are in the same unit, °C or °F, and the answer is in its degrees.
"""

from fractions import Fraction


def simple(highest: Fraction, lowest: Fraction, base: Fraction) -> Fraction:
    """Mean of the day above a base, never below nought [degrees] (Midwestern climate center).

    >>> simple(Fraction(85), Fraction(65), Fraction(65))
    Fraction(10, 1)
    """
    return max(Fraction(0), _mean(highest, lowest) - base)


def floor_first(highest: Fraction, lowest: Fraction, base: Fraction) -> Fraction:
    """The same, but what lies below the base is set to it before the mean [degrees].

    Both readings of the one formula are in use (Agricultural and Forest Meteorology, 1997).

    >>> floor_first(Fraction(60), Fraction(40), Fraction(50))
    Fraction(5, 1)
    """
    return _mean(max(highest, base), max(lowest, base)) - base


def capped(highest: Fraction, lowest: Fraction, base: Fraction, cap: Fraction) -> Fraction:
    """Floor first, and what lies above a cap is set to it [degrees]: 86/50 °F for maize.

    >>> capped(Fraction(90), Fraction(60), Fraction(50), Fraction(86))
    Fraction(23, 1)
    """
    return floor_first(min(highest, cap), min(lowest, cap), base)


def four_cases(highest: Fraction, lowest: Fraction, base: Fraction) -> Fraction:
    """By where the base lies between lowest, mean and highest [degrees] (Met Éireann).

    >>> four_cases(Fraction(60), Fraction(40), Fraction(50))
    Fraction(5, 2)
    """
    mean = _mean(highest, lowest)
    if lowest >= base:
        return mean - base
    if highest <= base:
        return Fraction(0)
    above, below = highest - base, base - lowest
    return above / 2 - below / 4 if mean >= base else above / 4


def _mean(highest: Fraction, lowest: Fraction) -> Fraction:
    if lowest > highest:
        raise ValueError("the lowest temperature of a day is not above its highest")
    return (highest + lowest) / 2
