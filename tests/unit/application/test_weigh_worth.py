"""What the bags of a small garden are worth, held against planning it again."""

from dataclasses import replace
from fractions import Fraction
from functools import cache

import pytest

from halfpail.application.ports import SeasonEffort
from halfpail.application.pose_season import pose_season
from halfpail.application.weigh_bag import Between
from halfpail.application.weigh_worth import Advice, BagWorth, WorthAnswer, advise, weigh_worth
from halfpail.domain.garden import Garden
from halfpail.domain.season import SeasonPlan, SeasonProblem, Unmet
from halfpail.engine.planner import Planner
from halfpail.solvers.highs import Highs
from tests.unit.application.worth_garden import worth_garden

CENT = Fraction(1, 100)
ENGINE = Planner(Highs())
GARDEN = worth_garden()


@cache
def answer() -> WorthAnswer:
    found = weigh_worth(GARDEN, ENGINE)
    assert isinstance(found, WorthAnswer)
    return found


def worth_of(name: str) -> BagWorth:
    return next(worth for worth in answer().bags if worth.bag == name)


def value(garden: Garden) -> Fraction:
    plan = ENGINE.solve(pose_season(garden))
    assert isinstance(plan, SeasonPlan)
    assert plan.bound == plan.value
    return plan.value


def costing(name: str, price: Fraction) -> Garden:
    bags = tuple(replace(bag, price=price) if bag.key == name else bag for bag in GARDEN.bags)
    return replace(GARDEN, bags=bags)


def without(name: str) -> Garden:
    return replace(GARDEN, bags=tuple(bag for bag in GARDEN.bags if bag.key != name))


def test_bags_that_cannot_be_bought_are_left_out():
    assert {worth.bag for worth in answer().bags} == {"Green blend", "Blue blend", "Potash"}


def test_the_worthiest_by_weight_comes_first():
    by_weight = [worth.worth_per_kg for worth in answer().bags]
    assert by_weight == sorted(by_weight, reverse=True)


@pytest.mark.parametrize("name", ["Green blend", "Blue blend", "Potash"])
def test_it_pays_a_cent_below_its_worth_and_no_more_a_cent_above(name):
    worth = worth_of(name)
    assert worth.worth.is_exact
    assert value(costing(name, worth.worth.high_money + CENT)) == value(without(name))
    if worth.worth.low_money > CENT:
        assert value(costing(name, worth.worth.low_money - CENT)) < value(without(name))


@pytest.mark.parametrize("name", ["Green blend", "Blue blend"])
def test_the_season_without_it_is_the_season_without_it(name):
    told = worth_of(name).value_without
    assert told.is_exact
    assert told.low_money == value(without(name))


def test_what_is_bought_is_worth_its_price_and_what_it_replaces_is_told():
    bought = [worth for worth in answer().bags if worth.buy]
    assert bought
    for worth in bought:
        assert worth.price is not None
        assert worth.price <= worth.worth.high_money
        assert worth.bag not in worth.replaces
    assert sum(worth.buy * (worth.price or 0) for worth in bought) == answer().buying.cost


def test_the_blends_are_the_same_stuff():
    # 6-1-4 and 6-1-4: the dearer by weight costs 1.10, the cheaper 0.80 per lb.
    (group,) = answer().same_stuff
    assert group.bags == ("Green blend", "Blue blend")
    assert group.cheapest == "Green blend"


def test_every_bag_has_its_working():
    reasons = " ".join(step.reason for step in answer().working)
    assert all(worth.bag in reasons for worth in answer().bags)


@pytest.mark.parametrize(
    ("price", "low", "high", "buy", "advice"),
    [
        (None, 3, 3, 0, Advice.ASK),
        (2, 3, 4, 0, Advice.BUY),
        (3, 3, 3, 1, Advice.BUY),
        (3, 3, 4, 0, Advice.CLOSE),
        (4, 3, 4, 0, Advice.LEAVE),
        (5, 3, 4, 0, Advice.LEAVE),
    ],
)
def test_the_advice_at_a_price(price, low, high, buy, advice):
    worth = Between(low_money=Fraction(low), high_money=Fraction(high))
    assert advise(None if price is None else Fraction(price), worth, buy) is advice


class NoPlan:
    def solve(
        self, problem: SeasonProblem, effort: SeasonEffort = SeasonEffort()
    ) -> SeasonPlan | Unmet:
        return Unmet(sentence="none", proven=True)


def test_where_there_is_no_plan_nothing_is_weighed():
    assert isinstance(weigh_worth(GARDEN, NoPlan()), Unmet)
