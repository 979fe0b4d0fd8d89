"""Beds of one kind put together: nothing is lost, and nothing gets dearer."""

from fractions import Fraction
from itertools import chain

import pytest

from benchmarks.gardens import Garden, problem_of
from halfpail.domain.season import SeasonProblem
from halfpail.engine.figures import figures_of
from halfpail.engine.groups import likely_groups
from halfpail.engine.kinds import kinds_of
from halfpail.engine.own_mixes import own_mixes
from halfpail.solvers.highs import Highs
from tests.unit.application.seasons import a_bag, a_season, at_least, at_most


def a_garden(beds: int, seed: int = 0, *, hard: bool = False) -> SeasonProblem:
    return problem_of(Garden(bags=10, beds=beds, mixes=2, seed=seed, hard=hard))


def test_beds_that_differ_in_size_alone_are_one_kind() -> None:
    limits = [
        *(at_least("a", "0.2"), at_most("a", "0.1")),
        *(at_least("b", "0.6"), at_most("b", "0.3")),
        *(at_least("c", "0.6"), at_most("c", "0.4")),
    ]
    kinds = kinds_of(a_season([a_bag("one", "0.1", "0.02")], limits))
    assert kinds.members == ((0, 1), (2,))
    assert kinds.sizes[0][1] / kinds.sizes[0][0] == pytest.approx(3)
    together = [limit for limit in kinds.figures.problem.limits if limit.plot == "a"]
    assert [limit.at_least or limit.at_most for limit in together] == [
        Fraction("0.8"),
        Fraction("0.4"),
    ]


@pytest.mark.parametrize("seed", range(4))
def test_with_a_mix_of_its_own_a_kind_costs_what_its_beds_do(seed: int) -> None:
    """The programme in parts is the same for the beds and for their kinds: HiGHS says so."""
    problem = a_garden(30, seed)
    kinds = kinds_of(problem)
    assert len(kinds.members) < 12
    assert sorted(chain(*kinds.members)) == list(range(30))
    one_by_one = Highs().solve(own_mixes(figures_of(problem), whole=False).programme)
    together = Highs().solve(own_mixes(kinds.figures, whole=False).programme)
    assert together.value == pytest.approx(one_by_one.value, rel=1e-6)


def test_whole_bags_for_kinds_are_a_bound_for_whole_bags_for_beds() -> None:
    problem = a_garden(12, 1)
    beds = Highs().solve(own_mixes(figures_of(problem)).programme)
    kinds = Highs().solve(own_mixes(kinds_of(problem).figures).programme)
    assert kinds.value is not None
    assert beds.value is not None
    assert kinds.value <= beds.value + 1e-6


def test_beds_of_no_like_stay_by_themselves() -> None:
    assert len(kinds_of(a_garden(9, hard=True)).members) == 9


@pytest.mark.parametrize("count", [1, 2, 3])
def test_every_way_shares_out_every_bed_once(count: int) -> None:
    figures = kinds_of(a_garden(20)).figures
    amount = figures.contents[0, 0] + 1.0 + 0.0 * figures.contents[: figures.plots, 0]
    wished = figures.contents[: len(amount)]
    ways = list(likely_groups(wished, amount, count))
    assert len({frozenset(groups) for groups in ways}) == len(ways)
    for groups in ways:
        assert len(groups) <= count
        assert sorted(chain(*groups)) == list(range(len(amount)))
