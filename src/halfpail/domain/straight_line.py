"""Reading between the points of a printed rule."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise


def on_line(points: Sequence[tuple[Fraction, Fraction]], at: Fraction) -> Fraction:
    """The value at a place on straight lines between points in order, level beyond the ends.

    The unit is that of the points [any]. Fresh plants of 2.5 % N in dry matter, on the line from
    1.5 % (0) to 3.5 % (35 lb per ton): 17.5 lb (PNW 636).

    >>> on_line([(Fraction("1.5"), Fraction(0)), (Fraction("3.5"), Fraction(35))], Fraction("2.5"))
    Fraction(35, 2)
    """
    if at <= points[0][0]:
        return points[0][1]
    for (left, low), (right, high) in pairwise(points):
        if at <= right:
            return low + (high - low) * (at - left) / (right - left)
    return points[-1][1]
