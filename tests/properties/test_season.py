"""What must hold of every season plan, on made-up gardens of fixed seeds.

Plans are looked over by the check in the domain, which shares nothing with the engine. On tiny
gardens one programme over all recipes there are, solved to the end, says what is best.
"""

from dataclasses import replace
from fractions import Fraction
from random import Random

import pytest

from benchmarks.gardens import Garden, problem_of
from halfpail.application.ports import SeasonEffort
from halfpail.blending.programme import Status
from halfpail.domain.bed import Content
from halfpail.domain.season import (
    Ingredient,
    Limit,
    Plot,
    SeasonPlan,
    SeasonProblem,
    Unmet,
)
from halfpail.domain.season_check import check_season
from halfpail.engine.chosen_mixes import chosen_mixes
from halfpail.engine.figures import figures_of
from halfpail.engine.planner import Planner
from halfpail.engine.recipes import all_recipes
from halfpail.solvers.highs import Highs

PLANNER = Planner(Highs())
SHORT = SeasonEffort(relative_gap=0.02, work=0.05)
TINY = (*range(10), 1022, 1035, 1039)


def tiny(seed: int, mixes: int = 1) -> SeasonProblem:
    """Four bags and three beds with every kind of rule in them."""
    chance = Random(seed)
    bags = tuple(
        Ingredient(
            key=f"bag {n}",
            contents={
                Content.N_LABEL: Fraction(chance.randint(0, 12), 100),
                Content.P2O5: Fraction(chance.choice((0, 0, 2, 5, 8)), 100),
                Content.K2O: Fraction(chance.choice((0, 3, 6, 20)), 100),
            },
            scoop_kg=Fraction(chance.randint(5, 9), 10),
            bag_kg=Fraction(chance.randint(2, 8)),
            price=Fraction(chance.randint(3, 15)),
            shed_kg=Fraction(chance.choice((0, 0, 3)), 2),
            shed_price_per_kg=Fraction(chance.choice((0, 0, 1))),
            offered=chance.randint(0, 3),
            may_mix=chance.random() < 0.9,
            may_go_straight=chance.random() < 0.4,
        )
        for n in range(4)
    )
    plots = tuple(Plot(key=f"bed {n}", straight_ok=chance.random() < 0.8) for n in range(3))
    limits = []
    for plot in plots:
        for content in (Content.N_LABEL, Content.P2O5, Content.K2O):
            need = Fraction(chance.randint(0, 30), 100)
            price = None if chance.random() < 0.1 else Fraction(chance.randint(20, 120))
            if need:
                limits.append(
                    Limit(plot=plot.key, content=content, at_least=need, price_per_kg=price)
                )
            most = need * Fraction(chance.randint(10, 25), 10)
            over = None if chance.random() < 0.6 else Fraction(chance.randint(10, 90))
            limits.append(Limit(plot=plot.key, content=content, at_most=most, price_per_kg=over))
    pair = frozenset(("bag 0", "bag 1"))
    return SeasonProblem(
        ingredients=bags,
        plots=plots,
        limits=tuple(limits),
        mixes=mixes,
        most_scoops=4,
        most_bags=chance.choice((2, 3)),
        measure=Fraction(1, chance.choice((2, 4))),
        apart=frozenset({pair}) if chance.random() < 0.3 else frozenset(),
        budget=Fraction(chance.randint(10, 40)) if chance.random() < 0.3 else None,
        mixes_per_plot=chance.choice((1, 1, 2)) if mixes > 1 else 1,
    )


def best_value(problem: SeasonProblem) -> float | None:
    """The best value with all recipes in one programme; None when there is no plan."""
    figures = figures_of(problem)
    bags = [n for n in range(figures.bags) if figures.may_mix[n]]
    recipes = [tuple(int(n) for n in row) for row in all_recipes(problem, bags)]
    outcome = Highs().solve(chosen_mixes(figures, recipes).programme)
    if outcome.status is Status.INFEASIBLE:
        return None
    assert outcome.status is Status.OPTIMAL
    return outcome.value


def solved(problem: SeasonProblem, effort: SeasonEffort = SeasonEffort()) -> SeasonPlan | None:
    """The plan, looked over; None when there is provably none."""
    answer = PLANNER.solve(problem, effort)
    if isinstance(answer, Unmet):
        assert answer.proven or effort.work < 1
        return None
    check = check_season(problem, answer)
    assert check.breaches == ()
    assert (check.money, check.missed) == (answer.money, answer.missed)
    assert answer.bound <= answer.value
    return answer


@pytest.mark.parametrize("seed", TINY)
def test_one_mix_is_the_best_of_all_recipes(seed: int) -> None:
    problem = tiny(seed)
    plan, best = solved(problem), best_value(problem)
    if plan is None or best is None:
        assert plan is None
        assert best is None
        return
    assert plan.gap == 0
    assert float(plan.value) == pytest.approx(best, rel=1e-6, abs=1e-6)


@pytest.mark.parametrize("seed", range(100, 105))
def test_the_bound_for_two_mixes_is_below_the_best_and_the_plan_is_not(seed: int) -> None:
    problem = tiny(seed, mixes=2)
    plan = solved(problem, SeasonEffort(work=0.3))
    best = best_value(problem)
    if plan is None or best is None:
        assert plan is None
        return
    assert float(plan.bound) <= best + 1e-5
    assert float(plan.value) >= best - 1e-5


@pytest.mark.parametrize("seed", range(220, 228))
def test_two_mixes_are_the_best_of_all_recipes_too(seed: int) -> None:
    problem = tiny(seed, mixes=2)
    plan, best = solved(problem), best_value(problem)
    if plan is None or best is None:
        assert plan is None
        assert best is None
        return
    assert plan.gap == 0
    assert float(plan.value) == pytest.approx(best, rel=1e-6, abs=1e-6)


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("hard", [False, True], ids=["ordinary", "hard"])
def test_plans_of_middling_gardens_keep_every_rule(seed: int, hard: bool) -> None:
    garden = Garden(bags=8, beds=6, mixes=2, seed=seed, hard=hard, straight=seed % 2 == 0)
    assert solved(problem_of(garden), SHORT) is not None


@pytest.mark.parametrize("seed", TINY[:8])
def test_a_cheaper_bag_never_makes_the_best_plan_dearer(seed: int) -> None:
    problem = tiny(seed)
    bags = problem.ingredients
    cheaper = replace(bags[seed % 4], price=bags[seed % 4].price / 2)
    others = tuple(cheaper if bag.key == cheaper.key else bag for bag in bags)
    before = solved(problem)
    after = solved(replace(problem, ingredients=others))
    if before is not None:
        assert after is not None
        assert before.gap == after.gap == 0
        assert after.value <= before.value


@pytest.mark.parametrize("seed", TINY[:8])
def test_one_bag_more_never_makes_the_best_plan_dearer(seed: int) -> None:
    problem = tiny(seed)
    fewer = solved(replace(problem, ingredients=problem.ingredients[:-1]))
    more = solved(problem)
    if fewer is not None:
        assert more is not None
        assert fewer.gap == more.gap == 0
        assert more.value <= fewer.value


@pytest.mark.parametrize("seed", range(200, 204))
def test_one_mix_more_is_never_worse(seed: int) -> None:
    one = solved(replace(tiny(seed, mixes=2), mixes=1, mixes_per_plot=1))
    two = solved(tiny(seed, mixes=2), SeasonEffort(work=0.3))
    if one is not None:
        assert two is not None
        assert two.value <= one.value


def test_a_plan_from_little_work_keeps_every_rule_too() -> None:
    problem = problem_of(Garden(bags=14, beds=12, mixes=3, seed=1, hard=True))
    assert solved(problem, SeasonEffort(work=0.01)) is not None
