"""Buying within a budget: what is spent, what is left, and a curve that never rises."""

from dataclasses import replace
from fractions import Fraction

from halfpail.application.buy_within_budget import budget_curve, buying_list
from halfpail.application.ports import SeasonEffort
from halfpail.application.pose_season import pose_season
from halfpail.domain.season import SeasonPlan, SeasonProblem
from halfpail.engine.planner import Planner
from halfpail.solvers.highs import Highs
from tests.unit.application.worth_garden import worth_garden

ENGINE = Planner(Highs())
GARDEN = worth_garden()


def plan(purchases: dict[str, int], missed: int) -> SeasonPlan:
    return SeasonPlan(
        stirs=(),
        feedings=(),
        purchases=purchases,
        money=Fraction(0),
        missed=Fraction(missed),
        bound=Fraction(0),
        proven_by="made up",
    )


def test_the_list_adds_up():
    garden = replace(GARDEN, preferences=replace(GARDEN.preferences, budget=Fraction(30)))
    bought = buying_list(garden, plan({"Green blend": 2, "Blue blend": 1}, missed=0))
    assert [(line.bag, line.count, line.cost) for line in bought.purchases] == [
        ("Green blend", 2, 8),
        ("Blue blend", 1, 11),
    ]
    assert [line.saved_money for line in bought.purchases] == [10, None]
    assert (bought.cost, bought.left_of_budget) == (19, 11)


def test_nothing_bought_costs_nothing():
    bought = buying_list(GARDEN, plan({}, missed=5))
    assert (bought.purchases, bought.cost, bought.left_of_budget) == ((), 0, None)


def test_the_curve_runs_from_nothing_to_all_that_would_be_spent_and_never_rises():
    problem = pose_season(GARDEN)
    curve = budget_curve(problem, ENGINE)
    unlimited = ENGINE.solve(problem)
    assert isinstance(unlimited, SeasonPlan)
    assert curve[0].budget == 0
    assert curve[0].cost == 0
    assert curve[-1].value == unlimited.value
    assert curve[-1].budget == curve[-1].cost
    assert all(point.cost <= point.budget for point in curve)
    values = [point.value for point in curve]
    assert values == sorted(values, reverse=True)
    assert len(set(values)) > 1
    assert all(point.value == point.cost + point.missed for point in curve)
    assert all(point.bound <= point.value for point in curve)


class Clumsy:
    """Finds a good plan for little money and a worse one for more."""

    def solve(self, problem: SeasonProblem, effort: SeasonEffort = SeasonEffort()) -> SeasonPlan:
        if problem.budget is None:
            return plan({"Blue blend": 1}, missed=0)
        return plan({}, missed=3 if problem.budget < 5 else 9)


def test_a_plan_for_less_money_is_also_one_for_more():
    curve = budget_curve(pose_season(GARDEN), Clumsy(), steps=3)
    assert [point.missed for point in curve] == [3, 3, 3, 0]
