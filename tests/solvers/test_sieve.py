"""The sieve keeps every recipe worth an exact look, and counts what it tried."""

import random
from dataclasses import replace
from fractions import Fraction
from itertools import product
from math import gcd
from operator import attrgetter

import pytest

from halfpail.blending.scoops import (
    Demand,
    ScoopProblem,
    Weighed,
    truly_different,
    undominated,
    weigh,
)
from halfpail.solvers.sieve import EveryRecipe


def random_problem(
    seed: int, bags: int = 5, most_scoops: int = 5, most_bags: int = 3
) -> ScoopProblem:
    """Coarse figures, so that ties and edges are common; a third of the seeds has no prices."""
    draw = random.Random(seed)
    mass = tuple(Fraction(draw.choice((1, 1, 2, 3)), 3) for _ in range(bags))
    shares = [[Fraction(draw.randint(0, 6)) for _ in range(bags)] for _ in range(2)]
    misses = tuple(tuple((s - 3) * m for s, m in zip(share, mass, strict=True)) for share in shares)
    off = draw.choice((Fraction(0), Fraction(1, 2), Fraction(1), Fraction(3)))
    demands = tuple(
        Demand(
            name=f"{number} {sign}",
            because="",
            per_scoop=tuple(sign * f - off * m for f, m in zip(miss, mass, strict=True)),
        )
        for number, miss in enumerate(misses)
        for sign in (1, -1)
    )
    prices = [Fraction(0 if seed % 3 == 0 else draw.randint(0, 3)) for _ in range(bags)]
    keys = tuple(f"bag {number}" for number in range(bags))
    return ScoopProblem(
        bags=keys,
        demands=demands,
        cost=tuple(p * m for p, m in zip(prices, mass, strict=True)),
        cost_per=mass,
        misses=misses,
        miss_per=mass,
        most_scoops=most_scoops,
        most_bags=most_bags,
        apart=frozenset({frozenset(draw.sample(keys, 2))}),
    )


def every(posed: ScoopProblem) -> list[Weighed]:
    counts = product(range(posed.most_scoops + 1), repeat=len(posed.bags))
    return weigh(posed, (c for c in counts if sum(c) <= posed.most_scoops))


def check(posed: ScoopProblem) -> int:
    """Compare with every recipe weighed; answers how long the curve is."""
    tried = every(posed)
    for by_cost in (True, False):
        kept = weigh(posed, EveryRecipe().sift(posed, 4, by_cost=by_cost).recipes)
        assert undominated(kept) == undominated(tried)
        key = attrgetter("by_cost" if by_cost else "by_distance")
        ours = truly_different(sorted(kept, key=key), 4)
        assert ours == truly_different(sorted(tried, key=key), 4)
    return len(undominated(tried))


def test_nothing_worth_a_look_falls_through() -> None:
    lengths = [check(random_problem(seed)) for seed in range(60)]
    assert max(lengths) > 3
    assert 0 in lengths


def test_figures_too_long_for_floating_point_are_decided_exactly() -> None:
    """Edges missed by a part in 10^20 either way."""
    hair = Fraction(1, 10**20)
    for seed in range(12):
        posed = random_problem(seed, bags=4)
        demands = tuple(
            replace(d, per_scoop=tuple(f + (-1) ** seed * hair * (f != 0) for f in d.per_scoop))
            for d in posed.demands
        )
        check(replace(posed, demands=demands))


def test_what_is_counted() -> None:
    posed = replace(random_problem(1, bags=6, most_scoops=6), demands=(), apart=frozenset())
    counts = product(range(7), repeat=6)
    lowest = [c for c in counts if 0 < sum(c) <= 6 and gcd(*c) == 1 and 6 - c.count(0) <= 3]
    assert EveryRecipe().sift(posed, 0).tried == len(lowest)
    assert EveryRecipe().most_recipes(posed) == 6 * 6 + 15 * 15 + 20 * 20


@pytest.mark.parametrize("most_bags", [1, 9])
def test_limits_wider_or_narrower_than_the_bags(most_bags: int) -> None:
    check(random_problem(4, bags=3, most_scoops=4, most_bags=most_bags))
