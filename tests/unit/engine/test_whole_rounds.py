"""Bounds by whole rounds against what a programme of the same mixes answers."""

from itertools import combinations

import numpy as np
import pytest

from benchmarks.gardens import Garden, problem_of
from halfpail.blending.ports import Effort
from halfpail.engine.chosen_mixes import chosen_mixes
from halfpail.engine.few_recipes import choices_below
from halfpail.engine.figures import figures_of
from halfpail.engine.recipes import all_recipes, mixes_of
from halfpail.engine.stock import only_there, stock_of
from halfpail.engine.whole_rounds import WholeRounds
from halfpail.solvers.highs import Highs


def go_on() -> None:
    """Nobody stops these."""


@pytest.mark.parametrize("count", [1, 2, 3])
@pytest.mark.parametrize("most", [1000, 5])
def test_choices_below_are_all_choices_written_out(count: int, most: int) -> None:
    table = np.random.default_rng(count).uniform(1, 9, size=(9, 4))
    costs = {
        rows: float(table[list(rows)].min(axis=0).sum()) for rows in combinations(range(9), count)
    }
    target = sorted(costs.values())[len(costs) // 2]
    expected = sorted(cost for cost in costs.values() if cost < target)
    rows, found = choices_below(table, count, target, most, go_on)
    assert found.tolist() == pytest.approx(expected[: most + 1])
    for row, cost in zip(rows, found, strict=True):
        assert costs[tuple(sorted(row.tolist()))] == pytest.approx(cost)


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("mixes", [1, 2, 3])
def test_no_plan_with_a_basket_is_below_its_bound(seed: int, mixes: int) -> None:
    garden = Garden(bags=8, beds=4, mixes=mixes, seed=seed, hard=seed == 1)
    figures = figures_of(problem_of(garden))
    chance = np.random.default_rng(seed)
    basket = np.minimum(figures.offered, chance.integers(0, 2, figures.bags))
    here = only_there(figures, basket)
    bags = [int(i) for i in np.flatnonzero(basket)][:3]
    rows = all_recipes(figures.problem, bags)
    rows = rows[chance.permutation(len(rows))[:6]]
    worth = chance.uniform(0, 4, figures.bags)
    rounds = WholeRounds(here, mixes_of(here, rows), stock_of(here, basket, worth), worth)
    choices = np.array(list(combinations(range(len(rows)), mixes)))
    bounds = rounds.bounds(choices, go_on)
    for choice, bound in list(zip(choices, bounds, strict=True))[:8]:
        recipes = [tuple(int(n) for n in rows[r]) for r in choice]
        held = (basket.tolist(), basket.tolist())
        best = Highs().solve(chosen_mixes(figures, recipes, basket=held).programme, Effort())
        if best.value is not None:
            assert bound <= best.value + 1e-6
