"""Portions of a bed and plans made of them, against exact sums and against a programme."""

from fractions import Fraction
from itertools import product
from math import inf

import numpy as np
import pytest

from benchmarks.gardens import Garden, problem_of
from halfpail.application.ports import SeasonEffort
from halfpail.blending.ports import Effort
from halfpail.domain.season import SeasonPlan
from halfpail.domain.season_check import check_season
from halfpail.engine.bed_tables import exact_costs
from halfpail.engine.chosen_mixes import chosen_mixes
from halfpail.engine.draft import Draft, settle
from halfpail.engine.figures import Figures, Floats, figures_of
from halfpail.engine.pace import Pace
from halfpail.engine.planner import Planner
from halfpail.engine.portion_plan import PortionPlan
from halfpail.engine.portions import BedPortions
from halfpail.engine.recipes import Recipe, mixes_of
from halfpail.solvers.highs import Highs


def a_garden(seed: int, *, hard: bool = False) -> Figures:
    return figures_of(problem_of(Garden(bags=8, beds=5, mixes=2, seed=seed, hard=hard)))


def two_recipes(figures: Figures) -> list[Recipe]:
    bags = [int(bag) for bag in np.flatnonzero(figures.may_mix)][2:5]
    first = tuple(2 * (bag == bags[0]) + (bag == bags[1]) for bag in range(figures.bags))
    second = tuple(3 * (bag == bags[2]) + (bag == bags[1]) for bag in range(figures.bags))
    return [first, second]


def prices(figures: Figures) -> Floats:
    return figures.price / figures.bag_kg


@pytest.mark.parametrize("seed", range(3))
def test_what_a_portion_misses_is_what_exact_sums_say(seed: int) -> None:
    figures, recipes = a_garden(seed), two_recipes(a_garden(seed))
    mixes = mixes_of(figures, np.array(recipes))
    worth = prices(figures) * figures.measure_kg
    nothing = settle(figures.problem, Draft(recipes=(), mixed={}, straight={}))
    assert nothing is not None
    for bed in range(figures.plots):
        found = list(
            BedPortions(figures, bed, mixes.contents).cheapest(worth, mixes.share @ worth, 1e9, 6)
        )
        assert found
        for portion in found:
            draft = Draft(
                recipes=tuple(recipes),
                mixed={(portion.recipe, bed): portion.measures} if portion.measures else {},
                straight={(bag, bed): count for bag, count in portion.straight},
            )
            alone = settle(figures.problem, draft)
            if alone is None:
                continue
            bare = settle_alone(figures, bed)
            assert float(alone.missed - nothing.missed) == pytest.approx(portion.missed - bare)


def settle_alone(figures: Figures, bed: int) -> float:
    """What a bed misses that gets nothing."""
    return sum(
        side.price * max(0.0, -side.bound * side.sign)
        for side in figures.sides[bed]
        if side.price < inf
    )


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("hard", [False, True])
def test_the_cheapest_portion_is_the_least_on_the_matrix(seed: int, hard: bool) -> None:
    figures = a_garden(seed, hard=hard)
    mixes = mixes_of(figures, np.array(two_recipes(figures)))
    worth = prices(figures)
    per_measure = worth * figures.measure_kg
    table = exact_costs(figures, mixes, worth)
    for bed in range(figures.plots):
        portions = BedPortions(figures, bed, mixes.contents)
        best = next(portions.cheapest(per_measure, mixes.share @ per_measure, 1e9, 1), None)
        if best is None:
            continue
        spent = sum(count * per_measure[bag] for bag, count in best.straight)
        if best.recipe >= 0:
            spent += best.measures * float(mixes.share[best.recipe] @ per_measure)
        assert best.missed + spent <= table[:, bed].min() + 1e-9


@pytest.mark.parametrize("seed", range(4))
def test_a_plan_of_portions_is_as_good_as_the_programme_says(seed: int) -> None:
    """HiGHS on the whole programme of two recipes, to gap nought, against portions."""
    figures, recipes = a_garden(seed), two_recipes(a_garden(seed))
    model = chosen_mixes(figures, recipes)
    best = Highs().solve(model.programme, Effort())
    assert best.value is not None
    pace = Pace(SeasonEffort(), 1e6)
    beds = PortionPlan(figures, Highs(), pace, recipes)
    basket = [float(round(best.point[column])) for column in model.bought]
    beds.look(prices(figures), best.value, basket, Effort())
    plan = beds.plan(Effort())
    assert plan is not None
    assert not plan.broken
    assert best.value - 1e-6 <= float(plan.value) <= 1.03 * best.value


def test_what_portions_in_parts_cost_is_a_bound_for_whole_ones() -> None:
    figures, recipes = a_garden(2), two_recipes(a_garden(2))
    beds = PortionPlan(figures, Highs(), Pace(SeasonEffort(), 1e6), recipes)
    basket = [float(n) for n in figures.offered]
    parts = beds.look(prices(figures), 10.0, basket, Effort())
    plan = beds.plan(Effort(), basket)
    assert plan is not None
    spent = sum(n * price for n, price in zip(basket, figures.price, strict=True))
    assert parts <= float(plan.missed) + spent + 1e-6


@pytest.mark.parametrize(("beds", "straight"), list(product([30, 45], [True, False])))
def test_large_gardens_keep_every_rule(beds: int, straight: bool) -> None:
    problem = problem_of(Garden(bags=12, beds=beds, mixes=2, seed=beds, straight=straight))
    plan = Planner(Highs()).solve(problem, SeasonEffort(relative_gap=0.1, work=0.1))
    assert isinstance(plan, SeasonPlan)
    assert check_season(problem, plan).breaches == ()
    assert Fraction(0) < plan.bound <= plan.value
