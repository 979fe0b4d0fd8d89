"""The card for the shop: prices of a per cent recovered from worths that follow them."""

from fractions import Fraction

import pytest

from halfpail.application.make_shop_card import TRIED, TRIED_KG, ShopCard, make_shop_card
from halfpail.application.ports import SeasonEffort
from halfpail.domain.bed import Content
from halfpail.domain.season import SeasonPlan, SeasonProblem, Unmet
from halfpail.solvers.highs import Highs
from tests.unit.application.worth_garden import worth_garden

GARDEN = worth_garden()
BEST = 100


class Valuing:
    """An engine for which a gift saves so much for each per cent of what it holds [money/kg]."""

    def __init__(self, n: str, p2o5: str, k2o: str) -> None:
        self.prices = dict(
            zip(
                (Content.N_LABEL, Content.P2O5, Content.K2O),
                (Fraction(n), Fraction(p2o5), Fraction(k2o)),
                strict=True,
            )
        )

    def solve(
        self, problem: SeasonProblem, effort: SeasonEffort = SeasonEffort()
    ) -> SeasonPlan | Unmet:
        gifts = [bag for bag in problem.ingredients if bag.price == 0 and bag.offered == 1]
        saved = sum(
            bag.bag_kg
            * max(
                Fraction(0),
                sum((100 * bag.contents[c] * p for c, p in self.prices.items()), Fraction(0)),
            )
            for bag in gifts
        )
        value = Fraction(BEST - saved)
        return SeasonPlan(
            stirs=(),
            feedings=(),
            purchases={},
            money=value,
            missed=Fraction(0),
            bound=value,
            proven_by="made up",
        )


def card(n: str, p2o5: str, k2o: str) -> ShopCard:
    made = make_shop_card(GARDEN, Valuing(n, p2o5, k2o), Highs())
    assert isinstance(made, ShopCard)
    return made


def test_every_grade_is_tried_middling_and_large_and_stands_on_the_card():
    made = card("0.3", "-0.2", "0.1")
    assert len(made.grades) == len(TRIED)
    assert len(made.tried) == len(TRIED) * len(TRIED_KG)
    assert {one.bag_kg for one in made.tried} == set(TRIED_KG)


def test_the_prices_come_out_again_and_price_every_grade():
    made = card("0.3", "-0.2", "0.1")
    found = [float(price) for price in made.prices.per_point.values()]
    assert found == pytest.approx([0.3, -0.2, 0.1], abs=1e-5)
    for line in made.grades:
        grade = line.grade
        told = Fraction("0.3") * grade.n - Fraction("0.2") * grade.p2o5 + grade.k2o / 10
        assert float(line.worth_per_kg) == pytest.approx(max(0.0, float(told)), abs=1e-4)
    for one in made.tried:
        by_card = made.prices.of(one.grade, one.bag_kg)
        assert float(by_card) == pytest.approx(float(one.worth), abs=1e-3)


class NoPlan:
    def solve(
        self, problem: SeasonProblem, effort: SeasonEffort = SeasonEffort()
    ) -> SeasonPlan | Unmet:
        return Unmet(sentence="none", proven=True)


def test_where_there_is_no_plan_there_is_no_card():
    assert isinstance(make_shop_card(GARDEN, NoPlan(), Highs()), Unmet)
