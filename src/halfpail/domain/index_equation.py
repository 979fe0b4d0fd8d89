"""Rates of P2O5 and K2O by equation from a soil-test index, as North Carolina works them."""

from dataclasses import dataclass
from fractions import Fraction

from halfpail.sources import Citation

NONE = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class IndexEquation:
    """A curve `square` I² - `slope` I + `level` of the index I [kg/m²].

    `reason` says why a curve is shown and not used; it is empty where it may be used.
    """

    number: int
    square: Fraction
    slope: Fraction
    level: Fraction
    reason: str
    citation: Citation


def rate_by_index(equation: IndexEquation, index: Fraction) -> Fraction:
    """The rate of P2O5 or K2O at an index [kg/m²].

    Past its lowest point the curve would rise again; there it stays at the lowest point, and
    never below nought.

    >>> from halfpail.sources import Mark
    >>> curve = IndexEquation(number=1, square=Fraction(1), slope=Fraction(6), level=Fraction(9),
    ...                       reason="", citation=Citation(mark=Mark.VERIFIED))
    >>> [int(rate_by_index(curve, Fraction(index))) for index in (0, 2, 3, 10)]
    [9, 1, 0, 0]
    """
    at = min(index, equation.slope / (2 * equation.square))
    return max(NONE, equation.square * at**2 - equation.slope * at + equation.level)
