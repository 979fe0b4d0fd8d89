"""The card for the shop: prices of a per cent recovered from worths that follow them."""

from dataclasses import replace
from fractions import Fraction

import pytest

from halfpail.application.make_shop_card import TRIED, ShopCard, make_shop_card
from halfpail.application.ports import SeasonEffort
from halfpail.domain.bed import Content
from halfpail.domain.label import Grade
from halfpail.domain.matter import Nutrient
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


@pytest.mark.parametrize("prices", [("0.3", "0.1", "0.2"), ("0.3", "-0.2", "0.1"), ("0", "0", "0")])
def test_the_prices_come_out_again(prices):
    found = card(*prices).point_worth_per_kg
    told = [float(found[nutrient]) for nutrient in (Nutrient.N, Nutrient.P2O5, Nutrient.K2O)]
    assert told == pytest.approx([float(price) for price in prices], abs=2e-6)


def test_the_table_has_every_grade_and_both_worths():
    made = card("0.3", "-0.2", "0.1")
    assert len(made.grades) == len(TRIED)
    for row in made.grades:
        expected = max(
            Fraction(0),
            Fraction("0.3") * row.grade.n
            - Fraction("0.2") * row.grade.p2o5
            + Fraction("0.1") * row.grade.k2o,
        )
        assert row.worth_per_kg == expected
        assert float(row.card_worth_per_kg) == pytest.approx(float(expected), abs=1e-4)


def test_phosphorus_may_take_a_bag_below_nothing_but_no_price_is_below_nought():
    made = card("0.1", "-0.5", "0.1")
    assert made.worth_per_kg(Grade(n=Fraction(1), p2o5=Fraction(9), k2o=Fraction(1))) == 0


def test_still_wanted_is_what_the_beds_should_get_less_what_the_shed_holds():
    empty = card("0", "0", "0").wanted_kg
    aims = {
        name: sum(
            need.aim * bed.area_m2
            for bed in GARDEN.beds
            for need in bed.needs
            if need.nutrient == name
        )
        for name in ("N", "P2O5", "K2O")
    }
    assert {str(nutrient): kg for nutrient, kg in empty.items()} == aims
    assert aims["N"] > 0
    full = replace(
        GARDEN,
        bags=tuple(
            replace(bag, shed_kg=Fraction(1, 10)) if bag.key == "Potash" else bag
            for bag in GARDEN.bags
        ),
    )
    made = make_shop_card(full, Valuing("0", "0", "0"), Highs())
    assert isinstance(made, ShopCard)
    assert made.wanted_kg[Nutrient.K2O] == aims["K2O"] - Fraction(1, 10) * Fraction(20, 100)
    assert made.wanted_kg[Nutrient.N] == aims["N"]
