"""Sets of bags are ruled out only where no recipe of theirs keeps to the limits, and then often."""

from itertools import combinations

import numpy as np
import pytest

from halfpail.solvers import kept_recipes, sieve
from halfpail.solvers.scoop_figures import Window, figures_of
from halfpail.solvers.sets_of_bags import could_keep, scoop_counts, sets_of_bags
from tests.solvers.test_sieve import check, every, random_problem


def test_every_set_is_there_once_but_for_forbidden_pairs() -> None:
    posed = random_problem(3, bags=6)
    pair = {posed.bags.index(bag) for bag in next(iter(posed.apart))}
    parts = [sets_of_bags(posed, figures_of(posed), 3, first, 7) for first in (0, 7, 14)]
    wanted = [one for one in combinations(range(6), 3) if not pair <= set(one)]
    assert [tuple(one) for part in parts for one in part.T.tolist()] == wanted


def test_counts_in_lowest_terms() -> None:
    counts = scoop_counts(2, 4).tolist()
    assert sorted(counts) == [[1, 1], [1, 2], [1, 3], [2, 1], [3, 1]]


def test_no_set_with_a_recipe_in_the_window_is_ruled_out() -> None:
    kept = ruled_out = 0
    for seed in range(40):
        posed = random_problem(seed, bags=6, most_scoops=6)
        figures, recipes = figures_of(posed), every(posed)
        middle = sorted(recipes, key=lambda one: one.by_cost)[: len(recipes) // 4 + 1]
        least = min(c / q for c, q in zip(posed.cost, posed.cost_per, strict=True))
        for one in middle[-1:]:
            window = Window(cost=float(one.cost - least), distance=float(one.distance))
            inside = {
                tuple(sorted(other.bags))
                for other in recipes
                if other.cost <= one.cost and other.distance <= one.distance
            }
            for size in (1, 2, 3):
                sets = sets_of_bags(posed, figures, size, 0, 99)
                sets = sets[:, could_keep(figures.bounds, sets, posed.most_scoops)]
                stay = could_keep(figures.within(window), sets, posed.most_scoops)
                left = set(map(tuple, sets[:, stay].T.tolist()))
                assert {bags for bags in inside if len(bags) == size} <= left
                kept += len(left)
                ruled_out += sets.shape[1] - len(left)
    assert kept > 50
    assert ruled_out > 300


def test_what_is_known_of_limits_is_not_looked_at_again() -> None:
    posed = random_problem(2, bags=6)
    figures = figures_of(posed)
    sets = sets_of_bags(posed, figures, 2, 0, 99)
    known = could_keep(figures.bounds, sets, posed.most_scoops, known=len(figures.bounds))
    assert np.array_equal(known, np.arange(sets.shape[1]))


def test_in_small_parts_nothing_is_lost_either(monkeypatch: pytest.MonkeyPatch) -> None:
    """Some sets push out others that a limit was set by: then all are looked through again."""
    again: list[bool] = []
    once_more = kept_recipes.Different.once_more

    def told(self: kept_recipes.Different, chosen: list[tuple[int, ...]]) -> object:
        more = once_more(self, chosen)
        again.append(more is not None)
        return more

    monkeypatch.setattr(kept_recipes.Different, "once_more", told)
    monkeypatch.setattr(sieve, "_FIRST_SETS", 3)
    monkeypatch.setattr(sieve, "_MOST_SETS", 6)
    monkeypatch.setattr(sieve, "_MANY", 20)
    for seed in range(30):
        check(random_problem(seed, bags=6, most_bags=4))
    assert any(again)
    assert not all(again)
