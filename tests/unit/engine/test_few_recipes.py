"""Few recipes for all beds, against every choice written out."""

from itertools import combinations_with_replacement

import numpy as np
import pytest

from halfpail.engine.few_recipes import bound_on_choices, cheapest_choice, every_choice

SEEDS = range(6)


def table_of(seed: int) -> np.ndarray:
    """Costs of seven recipes on five beds; some cannot serve a bed."""
    table = np.random.default_rng(seed).integers(1, 30, size=(7, 5)).astype(float)
    table[0, seed % 5] = np.inf
    return table


def written_out(table: np.ndarray, count: int, row: int) -> float:
    """The least cost of a choice with this recipe in it, by trying all."""
    others = combinations_with_replacement(range(len(table)), count - 1)
    return min(float(table[[row, *rest]].min(axis=0).sum()) for rest in others)


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("count", [1, 2, 3])
def test_every_choice_is_tried(seed, count):
    table = table_of(seed)
    expected = [written_out(table, count, row) for row in range(len(table))]
    assert every_choice(table, count).tolist() == expected


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("count", [2, 3])
def test_the_cheapest_choice_costs_what_the_bound_says(seed, count):
    table = table_of(seed)
    bound, with_each = bound_on_choices(table, count, np.inf)
    rows = cheapest_choice(table, count)
    assert len(rows) == count
    assert float(table[rows].min(axis=0).sum()) == bound == with_each.min()


@pytest.mark.parametrize("seed", SEEDS)
def test_where_too_many_to_try_the_bound_is_below_every_choice(seed, monkeypatch):
    monkeypatch.setattr("halfpail.engine.few_recipes._TRIES", 0)
    table = table_of(seed)
    bound, with_each = bound_on_choices(table, 2, np.inf)
    expected = [written_out(table, 2, row) for row in range(len(table))]
    assert bound <= min(expected) + 1e-9
    assert all(with_each[row] <= expected[row] + 1e-9 for row in range(len(table)))
