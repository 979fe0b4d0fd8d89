"""Prices of a per cent: worths that follow such prices must give them back."""

from fractions import Fraction
from itertools import product

import pytest

from halfpail.blending.point_prices import BagWorth, PointPrices, fit_point_prices
from halfpail.domain.label import Grade
from halfpail.domain.matter import Nutrient
from halfpail.solvers.highs import Highs

GRADES = [
    Grade(n=Fraction(n), p2o5=Fraction(p), k2o=Fraction(k))
    for n, p, k in product((2, 6, 12), (0, 4), (0, 6))
]
PLENTY = "1000"


def prices(n: str, p2o5: str, k2o: str, wanted: tuple[str, str, str]) -> PointPrices:
    nutrients = (Nutrient.N, Nutrient.P2O5, Nutrient.K2O)
    return PointPrices(
        per_point=dict(zip(nutrients, map(Fraction, (n, p2o5, k2o)), strict=True)),
        wanted_kg=dict(zip(nutrients, map(Fraction, wanted), strict=True)),
    )


def worths(truth: PointPrices) -> list[BagWorth]:
    return [
        BagWorth(grade=grade, bag_kg=Fraction(kg), worth=truth.of(grade, Fraction(kg)))
        for grade in GRADES
        for kg in (2, 5, 15)
    ]


@pytest.mark.parametrize("told", [("0.3", "0.1", "0.2"), ("0.3", "-0.2", "0.1"), ("0", "0", "0")])
def test_prices_without_a_limit_come_out_again(told):
    found = fit_point_prices(
        worths(prices(told[0], told[1], told[2], wanted=(PLENTY, PLENTY, PLENTY))), Highs()
    )
    assert [float(p) for p in found.per_point.values()] == pytest.approx(
        [float(p) for p in told], abs=1e-5
    )


# The most N that any of these bags brings is 15 kg at 12 %: 1.8 kg; three quarters of it is one
# of the amounts that are tried.
def test_what_is_still_wanted_comes_out_again():
    truth = prices("0.3", "-0.05", "0.1", wanted=("1.35", PLENTY, PLENTY))
    found = fit_point_prices(worths(truth), Highs())
    assert found.wanted_kg[Nutrient.N] == Fraction("1.35")
    for one in worths(truth):
        assert float(found.of(one.grade, one.bag_kg)) == pytest.approx(float(one.worth), abs=1e-3)


def test_no_worth_is_below_nought_and_more_of_a_bag_is_never_worth_less():
    told = prices("0.1", "-0.5", "0.1", wanted=("1", "1", "1"))
    for grade in GRADES:
        rising = [told.of(grade, Fraction(kg)) for kg in range(1, 40)]
        assert rising[0] >= 0
        assert rising == sorted(rising)


def test_a_bag_that_holds_nothing_is_worth_nothing():
    nothing = Grade(n=Fraction(0), p2o5=Fraction(0), k2o=Fraction(0))
    told = prices("1", "1", "1", wanted=("1", "1", "1"))
    assert told.useful_kg(nothing) is None
    assert told.of(nothing, Fraction(5)) == 0
