"""One mix, or more: side by side on a garden of two beds."""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest

from halfpail.application.compare_mixes import ComparedSeason, compare_mixes
from halfpail.application.plan_season import GOOD_ENOUGH, with_mixes
from halfpail.application.pose_season import pose_season
from halfpail.application.season_answer import SeasonAnswer
from halfpail.domain.season import SeasonPlan
from halfpail.domain.season_check import check_season
from halfpail.engine.planner import Planner
from halfpail.solvers.highs import Highs
from tests.unit.application.test_plan_season import GARDEN, a_garden

ENGINE, SOLVER = Planner(Highs()), Highs()


@pytest.fixture(scope="module")
def compared() -> ComparedSeason:
    garden = a_garden()
    return compare_mixes(
        replace(garden, preferences=replace(garden.preferences, mixes=None)), ENGINE, SOLVER
    )


def test_the_ways_stand_in_order(compared: ComparedSeason) -> None:
    names = [way.name for way in compared.comparison.ways]
    assert names == ["one mix", "one mix and straight nitrogen", "two mixes", "three mixes"]


def test_no_way_is_beaten_by_one_it_allows(compared: ComparedSeason) -> None:
    values = [way.value for way in compared.comparison.ways]
    assert all(value is not None for value in values)
    # Each way allows all that the one before it does; plans are proven to within 2 %.
    for fewer, more in pairwise(values):
        assert fewer is not None and more is not None
        assert more <= fewer * Fraction(102, 100)
    least = compared.comparison.no_better_than
    assert all(value is not None and value >= least for value in values)


def test_figures_are_those_of_the_plan(compared: ComparedSeason) -> None:
    season = compared.season
    assert isinstance(season, SeasonAnswer)
    way = next(one for one in compared.comparison.ways if one.name == compared.comparison.found)
    assert (way.money, way.missed) == (season.plan.money, season.plan.missed)
    assert way.better_possible == season.plan.value - season.plan.bound
    assert way.bags_bought == sum(season.plan.purchases.values())
    assert sum(way.fits["N"].values()) == 2
    problem = pose_season(with_mixes(a_garden(), way.mixes))
    assert check_season(problem, season.plan).breaches == ()


def test_the_rule_and_its_mark_are_told(compared: ComparedSeason) -> None:
    assert "our default, not published" in compared.comparison.rule


def test_nitrogen_is_supposed_straight_where_no_bag_may_go() -> None:
    garden = a_garden(GARDEN.replace("straight = true", ""))
    compared = compare_mixes(garden, ENGINE, SOLVER)
    names = [way.name for way in compared.comparison.ways]
    assert names[:2] == ["one mix", "one mix and straight nitrogen"]
    assert "supposed of Quick" in compared.comparison.supposed
    assert compared.comparison.asked == "one mix"


def test_two_mixes_asked_for_are_told_with_what_fewer_would_mean() -> None:
    garden = with_mixes(a_garden(), 2)
    compared = compare_mixes(garden, ENGINE, SOLVER, GOOD_ENOUGH)
    assert compared.comparison.asked == "two mixes"
    assert compared.comparison.why_not_fewer.startswith("One mix and straight nitrogen would")
    assert isinstance(compared.season, SeasonAnswer)
    assert isinstance(compared.season.plan, SeasonPlan)
