"""Prices of a per cent on a label that agree best with what some bags are worth.

A bag is worth the sum of its per cents times their prices, for each kilogram of it, up to the
weight at which it brings as much of one nutrient as is still wanted.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from halfpail.blending.ports import Solver
from halfpail.blending.programme import Column, Programme, Row, Status
from halfpail.domain.label import Grade
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.quantities.rounding import to_nearest

NONE = Fraction(0)

_FINEST = Fraction(1, 10**6)
_SMALL = 1e-6
_RUNG = Fraction(3, 4)
_RUNGS = 12
_SWEEPS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class BagWorth:
    """A bag of a grade and weight, and what it is worth [money]."""

    grade: Grade
    bag_kg: Fraction
    worth: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class PointPrices:
    """Prices of one per cent of a nutrient for each kilogram of a bag [money/kg].

    `wanted_kg` is how much of each nutrient a bag may bring before more of the bag is no use.
    """

    per_point: Mapping[Nutrient, Fraction] = field(hash=False)
    wanted_kg: Mapping[Nutrient, Fraction] = field(hash=False)

    def per_kg(self, grade: Grade) -> Fraction:
        """What a kilogram of a grade is worth [money/kg], never below nought."""
        return max(NONE, sum((self.per_point[n] * p for n, p in _points(grade).items()), NONE))

    def useful_kg(self, grade: Grade) -> Fraction | None:
        """How much of a grade is of use [kg]; None for one that holds nothing."""
        return _useful_kg(self.wanted_kg, grade)

    def of(self, grade: Grade, bag_kg: Fraction) -> Fraction:
        """What a bag is worth [money]."""
        useful_kg = self.useful_kg(grade)
        return NONE if useful_kg is None else self.per_kg(grade) * min(bag_kg, useful_kg)


def fit_point_prices(worths: Sequence[BagWorth], solver: Solver) -> PointPrices:
    """The prices and wanted amounts whose worths by weight miss the given ones least in all.

    For a bag that is worth nothing only a price above nought is a miss. P2O5 may take away from
    the worth; N and K2O never do. Of wanted amounts that miss as little the largest are taken,
    at most as much as the richest bag brings.
    """
    richest = {
        n: max((_points(one.grade)[n] * one.bag_kg / 100 for one in worths), default=NONE)
        for n in PRIMARY
    }
    wanted = dict(richest)
    missed, prices = _prices(worths, wanted, solver)
    for _ in range(_SWEEPS):
        for nutrient in PRIMARY:
            for rung in range(_RUNGS):
                tried = {**wanted, nutrient: richest[nutrient] * _RUNG**rung}
                found, at = _prices(worths, tried, solver)
                if found < missed - _SMALL:
                    missed, prices, wanted = found, at, tried
    return PointPrices(per_point=prices, wanted_kg=wanted)


def _prices(
    worths: Sequence[BagWorth], wanted_kg: Mapping[Nutrient, Fraction], solver: Solver
) -> tuple[float, dict[Nutrient, Fraction]]:
    """The best prices for certain wanted amounts, and by how much they miss."""
    columns = [Column(name=str(nutrient), cost=_SMALL) for nutrient in PRIMARY]
    columns.append(Column(name="P2O5 takes away", cost=_SMALL))
    rows = []
    for one in worths:
        miss = len(columns)
        columns.append(Column(name="miss", cost=1.0))
        useful_kg = _useful_kg(wanted_kg, one.grade) or NONE
        part = min(one.bag_kg, useful_kg) / one.bag_kg
        points = (*_points(one.grade).values(), -one.grade.p2o5)
        terms = tuple((i, float(part * point)) for i, point in enumerate(points))
        worth = float(one.worth / one.bag_kg)
        rows.append(Row(name="not above", terms=(*terms, (miss, -1.0)), at_most=worth))
        if worth > 0:
            rows.append(Row(name="not below", terms=(*terms, (miss, 1.0)), at_least=worth))
    found = solver.solve(Programme(columns=tuple(columns), rows=tuple(rows)))
    if found.status is not Status.OPTIMAL or found.value is None:
        raise ArithmeticError(f"no prices fit: {found.status}")
    n, p2o5, k2o, taken = (to_nearest(Fraction(price), _FINEST) for price in found.point[:4])
    return found.value, {Nutrient.N: n, Nutrient.P2O5: p2o5 - taken, Nutrient.K2O: k2o}


def _useful_kg(wanted_kg: Mapping[Nutrient, Fraction], grade: Grade) -> Fraction | None:
    enough = (100 * wanted_kg[n] / point for n, point in _points(grade).items() if point)
    return min(enough, default=None)


def _points(grade: Grade) -> dict[Nutrient, Fraction]:
    return dict(zip(PRIMARY, (grade.n, grade.p2o5, grade.k2o), strict=True))
