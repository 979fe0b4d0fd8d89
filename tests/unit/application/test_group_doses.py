"""A few cup sizes for many beds: least money and misses, never a hard limit broken."""

from dataclasses import replace
from fractions import Fraction

from halfpail.application.group_doses import GroupedDoses, group_doses
from halfpail.domain.bed import Content
from halfpail.domain.season import Feeding, SeasonPlan, SeasonProblem, Stir
from halfpail.domain.season_check import check_season
from halfpail.domain.season_cost import recost
from halfpail.solvers.highs import Highs
from tests.unit.application.seasons import a_bag, a_season, at_least, at_most

BEDS = {"a": 8, "b": 9, "c": 20, "d": 21}


def a_fed_season(rounds: int = 20) -> tuple[SeasonProblem, SeasonPlan]:
    """Beds that want 8, 9, 20, 21 measures of a meal of 10 % N; a measure brings 25 g."""
    measure_kg = Fraction(25, 1000)
    limits = [
        limit
        for bed, measures in BEDS.items()
        for limit in (
            at_least(bed, str(measures * measure_kg), price="100"),
            at_most(bed, str((measures + 2) * measure_kg), Content.N_LABEL),
        )
    ]
    season = a_season([a_bag("meal", "0.10", "0", offered=5)], limits)
    plan = SeasonPlan(
        stirs=(Stir(scoops={"meal": 1}, rounds=rounds),),
        feedings=tuple(Feeding(plot=bed, of=0, measures=n) for bed, n in BEDS.items()),
        purchases={},
        money=Fraction(0),
        missed=Fraction(0),
        bound=Fraction(0),
        proven_by="hand",
    )
    return season, recost(season, plan)


def grouped(season: SeasonProblem, plan: SeasonPlan, sizes: int) -> GroupedDoses:
    found = group_doses(season, plan, sizes, Highs())
    assert found is not None
    assert check_season(season, found.plan).breaches == ()
    return found


def test_two_sizes_serve_two_kinds_of_beds() -> None:
    """9 and 21 measures, each wanted by one bed and within the most of its neighbour."""
    found = grouped(*a_fed_season(), 2)
    assert found.sizes == {0: (Fraction(9, 4), Fraction(21, 4))}
    assert found.worse_money == 0
    assert [each.measures for each in found.plan.feedings] == [9, 9, 21, 21]


def test_no_more_is_given_than_is_stirred() -> None:
    """9, 9, 21 and 21 measures are all that 15 rounds of one scoop hold."""
    found = grouped(*a_fed_season(rounds=15), 2)
    assert sum(each.measures for each in found.plan.feedings) == 60
    season, plan = a_fed_season(rounds=15)
    poorer = replace(plan, stirs=(replace(plan.stirs[0], rounds=14),))
    found = grouped(season, replace(recost(season, poorer), bound=Fraction(0)), 2)
    assert sum(each.measures for each in found.plan.feedings) <= 56


def test_as_many_sizes_as_beds_leave_all_as_it_is() -> None:
    season, plan = a_fed_season()
    found = grouped(season, plan, 4)
    assert (found.worse_money, found.plan.value) == (0, plan.value)


def test_one_size_that_fits_all_costs_what_the_large_beds_miss() -> None:
    """10 measures are the most of bed a: c and d then miss 10 and 11 of 25 g, at 100 a kilogram."""
    found = grouped(*a_fed_season(), 1)
    assert found.sizes == {0: (Fraction(10, 4),)}
    assert found.worse_money == Fraction(21 * 25, 1000) * 100


def test_none_where_a_hard_need_and_a_hard_most_leave_no_common_size() -> None:
    season, plan = a_fed_season()
    hard = replace(
        season, limits=tuple(replace(limit, price_per_kg=None) for limit in season.limits)
    )
    assert group_doses(hard, plan, 1, Highs()) is None
    assert group_doses(hard, plan, 2, Highs()) is not None
