"""How salty a mix is, weight for weight, and how little of it may lie with seed."""

from collections.abc import Iterable
from fractions import Fraction


def mixture_index(parts: Iterable[tuple[Fraction, Fraction | None]]) -> Fraction | None:
    """Salt index [index] of parts by their share [0-1] and index; None where one is not known.

    It is the mean by weight; sodium nitrate is 100. What is not known is never nought.

    >>> mixture_index([(Fraction(1, 2), Fraction(80)), (Fraction(1, 2), Fraction(0))])
    Fraction(40, 1)
    >>> mixture_index([(Fraction(1), None)]) is None
    True
    """
    total = Fraction(0)
    for share, index in parts:
        if index is None:
            return None
        total += share * index
    return total


def along_row_kg_per_m(rate_kg_per_m2: Fraction, row_space_m: Fraction) -> Fraction:
    """What a rate over the ground [kg/m²] is along a metre of row [kg/m].

    Corn in 30-inch rows, 8 lb an acre: 0.73 oz on 100 ft (Kansas State University's table).

    >>> along_row_kg_per_m(Fraction(1, 100), Fraction(1, 2))
    Fraction(1, 200)
    """
    return rate_kg_per_m2 * row_space_m


def most_with_seed_kg_per_m(
    n_and_k2o_kg_per_m: Fraction, n_and_k2o_share: Fraction
) -> Fraction | None:
    """Of a food the most that may lie with the seed on a metre of row [kg/m]; None: no limit.

    `n_and_k2o_share` is its N and K2O together [kg/kg].

    >>> most_with_seed_kg_per_m(Fraction(1, 1000), Fraction(1, 10))
    Fraction(1, 100)
    """
    return n_and_k2o_kg_per_m / n_and_k2o_share if n_and_k2o_share else None
