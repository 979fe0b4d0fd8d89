"""What solvers propose, against every recipe of a small problem weighed exactly."""

from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest

from halfpail.blending.aims import (
    cheapest,
    closest,
    curve,
    different_bags,
    fewest_bags,
    fewest_scoops,
)
from halfpail.blending.ports import Solver
from halfpail.blending.scoops import ScoopProblem, Weighed, truly_different, undominated, weigh
from halfpail.solvers.highs import Highs
from halfpail.solvers.scip import Scip
from tests.unit.blending.problems import fractions, problem, within

BOTH = pytest.mark.parametrize("solver", [Highs(), Scip()], ids=lambda solver: solver.name)


def every(posed: ScoopProblem) -> list[Weighed]:
    return weigh(posed, product(range(posed.most_scoops + 1), repeat=len(posed.bags)))


@BOTH
def test_cheapest_and_closest(solver: Solver) -> None:
    posed = problem(demands=within("1"))
    tried = every(posed)
    least, nearest = cheapest(posed, solver), closest(posed, solver)
    assert least is not None and nearest is not None
    assert least.cost == min(one.cost for one in tried)
    assert nearest.distance == min(one.distance for one in tried) == 0


@BOTH
def test_the_curve_is_whole(solver: Solver) -> None:
    posed = problem(demands=within("3"))
    ours = [(one.cost, one.distance) for one in curve(posed, solver)]
    assert ours == [(one.cost, one.distance) for one in undominated(every(posed))]
    assert len(ours) > 3


@BOTH
def test_other_bags(solver: Solver) -> None:
    posed = problem(demands=within("1.5"))
    by_cost = sorted(every(posed), key=lambda one: one.by_cost)
    ours = different_bags(posed, solver, 3)
    assert [one.cost for one in ours] == [one.cost for one in truly_different(by_cost, 3)]


@BOTH
def test_fewest(solver: Solver) -> None:
    posed = problem(demands=within("0.2"))
    tried = every(posed)
    scoops, bags = fewest_scoops(posed, solver), fewest_bags(posed, solver)
    assert scoops is not None and sum(scoops.scoops) == min(sum(one.scoops) for one in tried)
    assert bags is not None and len(bags.bags) == min(len(one.bags) for one in tried)


@BOTH
def test_none_is_allowed(solver: Solver) -> None:
    posed = problem(demands=within("0"), most_scoops=3)
    assert every(posed) == []
    assert cheapest(posed, solver) is None
    assert closest(posed, solver) is None
    assert curve(posed, solver) == []


@BOTH
def test_a_proposal_a_hair_over_the_edge_is_not_taken(solver: Solver) -> None:
    """One bag breaks its demand by a part in 10^12: solvers cannot see it, exact sums can."""
    hair = Fraction(1, 10**12)
    demands = within("1")
    over = replace(demands[1], per_scoop=(hair, *demands[1].per_scoop[1:]))
    posed = replace(problem(demands=(demands[0], over)), cost=fractions(1, 3, 9))
    found = cheapest(posed, solver)
    assert found is not None
    assert found.scoops != (1, 0, 0)
    assert posed.allows(found.scoops)
