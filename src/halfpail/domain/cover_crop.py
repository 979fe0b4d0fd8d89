"""Plant-available nitrogen of fresh plants dug in: a straight line by what they hold."""

from collections.abc import Sequence
from fractions import Fraction

from halfpail.domain.straight_line import on_line


def plant_available(points: Sequence[tuple[Fraction, Fraction]], n_share: Fraction) -> Fraction:
    """Plant-available nitrogen of fresh plants [kg per kg dry matter], by their N [kg/kg].

    Raises:
        ValueError: more nitrogen than the line was made for; meals are no fresh plants.

    >>> line = [(Fraction(15, 1000), Fraction(0)), (Fraction(35, 1000), Fraction(35, 2000))]
    >>> plant_available(line, Fraction(25, 1000)) / Fraction(25, 1000)
    Fraction(7, 20)
    """
    if not 0 <= n_share <= points[-1][0]:
        raise ValueError("the line holds up to its last point only")
    return on_line(points, n_share)
