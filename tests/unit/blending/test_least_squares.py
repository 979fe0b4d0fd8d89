"""Nearest shares against numpy: every set of shares above nought is tried, the best one kept."""

from fractions import Fraction
from itertools import combinations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from halfpail.blending.least_squares import nearest_shares

EVENNESS = Fraction(1, 1000)
SHARES = st.integers(0, 500).map(lambda n: Fraction(n, 1000))


@st.composite
def questions(draw):
    ingredients, sums = draw(st.integers(1, 4)), draw(st.integers(1, 3))
    row = st.lists(SHARES, min_size=sums, max_size=sums)
    contents = draw(st.lists(row, min_size=ingredients, max_size=ingredients))
    return contents, draw(row)


def misfit(shares, contents, wanted) -> float:
    x = np.append(shares, 1 - np.sum(shares))
    held = np.vstack([np.array(contents, dtype=float), np.zeros(len(wanted))])
    return float(np.sum((x @ held - np.array(wanted, dtype=float)) ** 2 + 0)) + float(
        EVENNESS
    ) * float(np.sum(x**2))


def best_by_trial(contents, wanted) -> float:
    """The least misfit over every set of ingredients, each set solved by numpy."""
    held = np.vstack([np.array(contents, dtype=float), np.zeros(len(wanted))])
    goal = np.array(wanted, dtype=float)
    best = np.inf
    for size in range(1, len(held) + 1):
        for chosen in map(list, combinations(range(len(held)), size)):
            part = held[chosen]
            system = np.zeros((size + 1, size + 1))
            system[:size, :size] = part @ part.T + float(EVENNESS) * np.eye(size)
            system[:size, size] = system[size, :size] = 1
            x = np.linalg.solve(system, np.append(part @ goal, 1))[:size]
            if x.min() >= -1e-12:
                whole = np.zeros(len(held))
                whole[chosen] = x
                best = min(best, misfit(whole[:-1], contents, wanted))
    return best


@given(questions())
def test_no_other_shares_come_nearer(question):
    contents, wanted = question
    shares = nearest_shares(contents, wanted, evenness=EVENNESS)
    assert min(shares) >= 0
    assert sum(shares) <= 1
    found = misfit([float(s) for s in shares], contents, wanted)
    assert abs(found - best_by_trial(contents, wanted)) <= 1e-9


@given(questions())
def test_falling_shares_fall_and_come_no_nearer_than_free_ones(question):
    contents, wanted = question
    falling = nearest_shares(contents, wanted, evenness=EVENNESS, falling=True)
    free = nearest_shares(contents, wanted, evenness=EVENNESS)
    assert list(falling) == sorted(falling, reverse=True)
    if list(free) == sorted(free, reverse=True):
        assert falling == free
    nearness = [misfit([float(s) for s in shares], contents, wanted) for shares in (free, falling)]
    assert nearness[0] <= nearness[1] + 1e-12
