"""Mixes for groups of beds: the programme keeps to whole scoops, few bags and pairs apart."""

import numpy as np
import pytest

from benchmarks.gardens import Garden, problem_of
from halfpail.blending.ports import Effort
from halfpail.domain.bed import Content
from halfpail.engine.chosen_mixes import chosen_mixes
from halfpail.engine.figures import figures_of
from halfpail.engine.group_mixes import group_mixes
from halfpail.engine.near_recipes import near_recipes
from halfpail.engine.own_mixes import own_mixes
from halfpail.solvers.highs import Highs
from tests.unit.application.seasons import a_bag, a_season, at_least

GROUPS = ((0, 1, 2), (3, 4, 5))
PART = np.array([0.2, 0.3, 0.5, 0.5, 0.25, 0.25])
ROUNDS = (3, 2)


@pytest.mark.parametrize("seed", range(3))
def test_recipes_are_whole_few_and_cost_what_the_programme_of_them_says(seed: int) -> None:
    figures = figures_of(problem_of(Garden(bags=8, beds=6, mixes=2, seed=seed)))
    model = group_mixes(figures, GROUPS, PART, ROUNDS)
    outcome = Highs().solve(model.programme, Effort(relative_gap=0.01, nodes=2000))
    assert outcome.value is not None
    recipes = []
    for group in range(2):
        scoops = model.scoops(outcome.point, figures.bags, group)
        assert scoops == pytest.approx([round(n) for n in scoops], abs=1e-5)
        recipes.append(tuple(round(n) for n in scoops))
        assert sum(recipes[-1]) <= figures.problem.most_scoops
        assert np.count_nonzero(recipes[-1]) <= figures.problem.most_bags
    stirred = [recipe for recipe in recipes if any(recipe)]
    if stirred:
        free = Highs().solve(chosen_mixes(figures, stirred, whole_measures=False).programme)
        assert free.value is not None
        assert free.value <= outcome.value + 1e-6


def test_mixes_of_any_shares_are_between_a_mix_for_every_bed_and_whole_scoops() -> None:
    figures = figures_of(problem_of(Garden(bags=8, beds=6, mixes=2, seed=0)))
    own = Highs().solve(own_mixes(figures, whole=False).programme).value
    shares = Highs().solve(group_mixes(figures, GROUPS, PART).programme).value
    whole = Highs().solve(group_mixes(figures, GROUPS, PART, ROUNDS).programme, Effort(nodes=500))
    assert own is not None
    assert shares is not None
    assert whole.value is not None
    assert own <= shares + 1e-6 <= whole.value + 2e-6


def test_pairs_that_must_stay_apart_share_no_mix() -> None:
    bags = [a_bag("one", "0.1", "0"), a_bag("two", "0", "0.1")]
    limits = [at_least("a", "0.2"), at_least("a", "0.2", Content.P2O5)]
    together = figures_of(a_season(bags, limits))
    apart = figures_of(a_season(bags, limits, apart=frozenset({frozenset({"one", "two"})})))
    part = np.ones(1)
    assert Highs().solve(group_mixes(together, ((0,),), part, (1,)).programme).point
    assert not Highs().solve(group_mixes(apart, ((0,),), part, (1,)).programme).point


def test_a_step_moves_a_scoop_and_keeps_to_the_rules() -> None:
    problem = a_season([a_bag(key, "0.1", "0") for key in "abcd"], [at_least("a", "0.2")])
    near = near_recipes(problem, (2, 1, 0, 0), [0, 1, 2, 3])
    assert {(3, 1, 0, 0), (1, 1, 1, 0), (1, 0, 0, 0), (0, 1, 2, 0), (5, 1, 0, 0)} <= set(near)
    assert (2, 1, 0, 0) not in near
    assert all(sum(n > 0 for n in recipe) <= 3 and 0 < sum(recipe) <= 6 for recipe in near)
    assert len(near) == len(set(near))
