"""How far below its label a product may be found before the law calls it short: one-sided."""

from fractions import Fraction
from itertools import pairwise

from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.reference.label_rules import allowances, primary_allowances


def label_allowance(nutrient: Nutrient, share: Fraction) -> Fraction:
    """The legal tolerance below a guaranteed share [kg/kg]; nought where no table tells.

    Between the listed guarantees of N, P2O5 and K2O it is interpolated, and beyond them the
    nearest one holds.

    >>> label_allowance(Nutrient.CA, Fraction(8, 100)) * 100
    Fraction(3, 5)
    """
    if nutrient in PRIMARY:
        return _interpolated(nutrient, share)
    listed = allowances().get(nutrient)
    return listed.below(share) if listed and share else Fraction(0)


def _interpolated(nutrient: Nutrient, share: Fraction) -> Fraction:
    listed = [(row.guarantee, row.below[nutrient]) for row in primary_allowances()]
    for (lower, below), (upper, above) in pairwise(listed):
        if lower <= share <= upper:
            return below + (above - below) * (share - lower) / (upper - lower)
    return listed[0][1] if share < listed[0][0] else listed[-1][1]
