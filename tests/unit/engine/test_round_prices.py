"""Bounds on a single mix by prices and whole rounds, held against trying every number there is."""

from dataclasses import replace
from math import ceil, inf
from random import Random

import numpy as np
import pytest

from halfpail.blending.programme import Status
from halfpail.engine.bed_costs import capped_costs_at
from halfpail.engine.bed_tables import line_cost
from halfpail.engine.chosen_mixes import chosen_mixes
from halfpail.engine.figures import Figures, figures_of
from halfpail.engine.one_mix import bag_money, fewest_bags, hands, recipes_over
from halfpail.engine.recipes import Recipe, all_recipes, mixes_of
from halfpail.engine.round_prices import bounds_by_rounds
from halfpail.solvers.highs import Highs
from tests.properties.test_season import tiny


def figures(seed: int) -> Figures:
    return figures_of(tiny(seed))


def worth_of(season: Figures, seed: int) -> np.ndarray:
    chance = np.random.default_rng(seed)
    return chance.uniform(0.0, 2.0, season.bags) * season.price / season.bag_kg


def best(season: Figures, recipes: list[Recipe]) -> float:
    outcome = Highs().solve(chosen_mixes(season, recipes).programme)
    if outcome.status is Status.INFEASIBLE or outcome.value is None:
        return inf
    return outcome.value


@pytest.mark.parametrize("seed", range(12))
def test_each_cost_on_a_bed_is_the_least_over_its_measures(seed: int) -> None:
    season = replace(figures(seed), straight=((),) * 3)
    mixes = mixes_of(season, all_recipes(season.problem, [0, 1, 2, 3]))
    prices = np.array([0.0, 0.7, 3.0])[:, None] * np.ones(len(mixes.scoops))
    table = capped_costs_at(season, mixes, worth_of(season, seed), prices)
    amounts = np.arange(200.0)
    for plot, sides in enumerate(season.sides):
        for row, contents in enumerate(mixes.contents):
            missed = sum(line_cost(s, contents[s.content] * amounts / s.scale) for s in sides)
            for at, price in enumerate((0.0, 0.7, 3.0)):
                least = (missed + price * amounts).min()
                assert table[at, row, plot] == pytest.approx(least)


@pytest.mark.parametrize("seed", range(12))
def test_no_plan_with_a_recipe_is_below_its_bound(seed: int) -> None:
    season = figures(seed)
    without = best(season, [])
    for chosen in [(0,), (1, 2), (0, 3)]:
        if not season.may_mix[list(chosen)].all():
            continue
        mixes = mixes_of(season, recipes_over(season, chosen))
        told = np.min(
            [
                bounds_by_rounds(season, mixes, chosen, hand, worth_of(season, seed), inf)
                for hand in hands(season, chosen)
            ],
            axis=0,
        )
        for scoops, bound in zip(mixes.scoops.tolist(), told, strict=True):
            least = best(season, [tuple(scoops)])
            assert min(bound, without) <= least + 1e-6


@pytest.mark.parametrize("seed", range(40))
def test_bags_beside_a_shed_with_a_price_cost_the_least_of_every_number(seed: int) -> None:
    chance, season = Random(seed), figures(seed)
    size, price, shed, dear = (chance.randint(1, 9) for _ in range(4))
    season = replace(
        season,
        bag_kg=np.full(4, float(size)),
        price=np.full(4, float(price)),
        shed_kg=np.full(4, float(shed)),
        shed_price=np.full(4, dear / 4),
    )
    for used in (0.0, 0.5, 3.0, 7.0, 11.0, 26.5):
        fewest = max(0, ceil((used - shed) / size))
        least = min(n * price + max(0.0, used - n * size) * dear / 4 for n in range(fewest, 40))
        kg = np.array([used])
        assert bag_money(season, kg, fewest_bags(season, kg, 0), 0)[0] == pytest.approx(least)
