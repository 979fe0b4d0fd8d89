"""Truly different plans: each does without something that the best one uses."""

from fractions import Fraction

import pytest

from halfpail.application.other_plans import OtherPlans, other_plans
from halfpail.application.plan_season import plan_season, with_mixes
from halfpail.application.pose_season import pose_season
from halfpail.application.season_answer import SeasonAnswer
from halfpail.domain.season_check import check_season
from halfpail.engine.planner import Planner
from halfpail.solvers.highs import Highs
from tests.unit.application.test_plan_season import GARDEN, a_garden

ENGINE = Planner(Highs())
TEXT = GARDEN.replace(
    '[[beds]]\nname = "North"',
    """[[bags]]
name = "Other"
label = "4-3-4"
weight = "10 lb"
price = "5.50"
offered = 2
scoop_weighs = "12 oz"

[[beds]]
name = "North\"""",
)
GARDEN_OF_THREE = with_mixes(a_garden(TEXT), 1)


@pytest.fixture(scope="module")
def best() -> SeasonAnswer:
    answer = plan_season(GARDEN_OF_THREE, ENGINE)
    assert isinstance(answer, SeasonAnswer)
    return answer


@pytest.fixture(scope="module")
def others(best: SeasonAnswer) -> OtherPlans:
    return other_plans(GARDEN_OF_THREE, best, ENGINE, within=Fraction(1000))


def test_the_best_stands_first_and_the_others_behind_it(
    best: SeasonAnswer, others: OtherPlans
) -> None:
    worse = [plan.worse_money for plan in others.plans]
    assert worse == sorted(worse)
    assert any(plan.plan.feedings == best.plan.feedings for plan in others.plans)


def test_each_other_plan_lacks_a_bag_of_the_best(best: SeasonAnswer, others: OtherPlans) -> None:
    used = {bag.bag.name for bag in best.bags if bag.used_kg}
    rest = [plan for plan in others.plans if set(plan.bags) != used]
    assert rest
    assert all(not used <= set(plan.bags) for plan in rest)


def test_every_plan_is_one_of_this_garden(others: OtherPlans) -> None:
    problem = pose_season(GARDEN_OF_THREE)
    assert all(check_season(problem, plan.plan).breaches == () for plan in others.plans)


def test_three_names_are_given_to_those_that_deserve_them(others: OtherPlans) -> None:
    named = {name: plan for plan in others.choices for name in plan.named}
    assert set(named) == {"least money", "least P2O5 to build up", "fewest bags and mixes"}
    cheapest = named["least money"].figures.money
    assert cheapest == min(plan.figures.money or Fraction(0) for plan in others.plans)


def test_plans_much_worse_are_not_told(best: SeasonAnswer) -> None:
    near = other_plans(GARDEN_OF_THREE, best, ENGINE, within=Fraction(0))
    assert all(plan.worse_money <= 0 for plan in near.plans)
