"""Sums that a pencil repeats: the numbers written are the numbers reckoned with.

An amount is written with a few decimals and its sum is reckoned from what is written, so whoever
repeats it gets the digit on the page. As many decimals are written as it takes to come to the same
answer as the exact numbers.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import prod

from halfpail.quantities.rounding import decimal, shortest, to_nearest

_MORE_PLACES = 4

Reckon = Callable[[Sequence[Fraction]], Fraction]
Show = Callable[[Fraction], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class PencilSum:
    """One sum: what is reckoned, what it comes to, and what stands behind (unit, what is dropped).

    `about` says what the sum is of, such as the name of a bag.
    """

    left: str
    result: str
    after: str = ""
    about: str = ""


def comes_out(
    numbers: Sequence[Fraction], reckon: Reckon, show: Show, fewest: int
) -> tuple[tuple[str, ...], str]:
    """Numbers as written, and what they come to: with enough decimals to hit the exact answer.

    >>> third = [Fraction(1, 3)]
    >>> comes_out(third, lambda n: 30 * n[0], lambda x: decimal(x, 0), fewest=1)
    (('0.33',), '10')
    """
    exact = show(reckon(numbers))
    for places in range(fewest, fewest + _MORE_PLACES + 1):
        rounded = [to_nearest(number, Fraction(1, 10**places)) for number in numbers]
        if show(reckon(rounded)) == exact:
            break
    return tuple(decimal(number, places) for number in rounded), show(reckon(rounded))


def product(factors: Sequence[str], about: str = "") -> PencilSum:
    """Numbers as written, multiplied, and the product with all its decimals.

    >>> product(["18.7", "12"]).result
    '224.4'
    """
    numbers = [Fraction(factor) for factor in factors]
    return PencilSum(
        left=" × ".join(factors),
        result=shortest(
            prod(numbers, start=Fraction(1)), sum(_places(factor) for factor in factors)
        ),
        about=about,
    )


def total(numbers: Sequence[str], about: str = "") -> PencilSum:
    """Numbers as written, added.

    >>> total(["48", "224.4"]).left, total(["48", "224.4"]).result
    ('48 + 224.4', '272.4')
    """
    summed = sum((Fraction(number) for number in numbers), Fraction(0))
    places = max(map(_places, numbers), default=0)
    return PencilSum(left=" + ".join(numbers), result=shortest(summed, places), about=about)


def _places(number: str) -> int:
    """Decimals of a number as written."""
    return len(number.partition(".")[2])
