"""Recipes weighed exactly, and what stays of a list of them."""

from fractions import Fraction

from halfpail.blending.scoops import (
    Weighed,
    lowest_terms,
    truly_different,
    undominated,
    weigh,
    whole_numbers,
)
from tests.unit.blending.problems import problem, within


def recipe(scoops: tuple[int, ...], cost: int, distance: int) -> Weighed:
    return Weighed(scoops=scoops, cost=Fraction(cost), distance=Fraction(distance))


def test_cost_and_distance_are_means_over_the_weight() -> None:
    posed = problem()
    assert posed.cost_of((3, 1, 0)) == Fraction(6, 4)
    assert posed.distance_of((3, 1, 0)) == 0
    assert posed.distance_of((1, 0, 1)) == 3


def test_an_edge_is_allowed_and_a_hair_beyond_is_not() -> None:
    edge = problem(demands=within("1"))
    assert edge.allows((1, 0, 0))
    assert not problem(demands=within("0.999999999999999999999")).allows((1, 0, 0))
    assert [demand.because for demand in edge.broken((0, 1, 0))] == ["not too much N"]


def test_limits_of_scoops_bags_and_pairs_hold() -> None:
    assert not problem(most_scoops=3).allows((3, 1, 0))
    assert not problem(most_bags=1).allows((3, 1, 0))
    apart = frozenset({frozenset({"four", "eight"})})
    assert not problem(apart=apart).allows((3, 1, 0))
    assert problem(apart=apart).allows((3, 0, 1))
    assert not problem().allows((0, 0, 0))


def test_a_recipe_without_what_it_is_divided_by_is_out() -> None:
    per_n = problem()
    per_n = type(per_n)(
        bags=per_n.bags,
        demands=(),
        cost=per_n.cost,
        cost_per=(Fraction(4), Fraction(8), Fraction(0)),
        misses=per_n.misses,
        miss_per=per_n.miss_per,
        most_scoops=6,
        most_bags=3,
    )
    assert not per_n.allows((0, 0, 1))
    assert per_n.allows((1, 0, 1))


def test_weighing_counts_a_recipe_and_its_double_once() -> None:
    assert [one.scoops for one in weigh(problem(), [(2, 2, 0), (1, 1, 0), (9, 1, 0)])] == [
        (1, 1, 0)
    ]
    assert lowest_terms((0, 0, 0)) == (0, 0, 0)


def test_of_equal_recipes_the_plainest_stays() -> None:
    two_bags, one_bag = recipe((1, 1, 0), 2, 2), recipe((0, 0, 3), 2, 2)
    dear, far, beaten = recipe((0, 1, 0), 3, 1), recipe((1, 0, 0), 1, 5), recipe((5, 1, 1), 4, 1)
    assert undominated([two_bags, beaten, dear, one_bag, far]) == [far, one_bag, dear]


def test_truly_different_sets_do_not_hold_each_other() -> None:
    best, more, less = recipe((1, 1, 0), 1, 0), recipe((1, 1, 1), 2, 0), recipe((0, 1, 0), 3, 0)
    other, more_other = recipe((0, 1, 1), 4, 0), recipe((1, 0, 1), 5, 0)
    assert truly_different([best, more, less, other, more_other], 3) == [best, other, more_other]
    assert truly_different([best, more, less, other, more_other], 2) == [best, other]


def test_whole_numbers_keep_proportions_and_signs() -> None:
    assert whole_numbers((Fraction(3, 10), Fraction(-1, 5), Fraction(0))) == (3, -2, 0)
    assert whole_numbers((Fraction(0), Fraction(0))) == (0, 0)
