"""What is in the way of a season, and repairs that are tried: by hand, and over many seasons."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchmarks.gardens import Garden as ReferenceGarden
from benchmarks.gardens import problem_of
from halfpail.application.mend_season import Bench, Mending, mend_season
from halfpail.application.mend_short import mend_short, short_of_least
from halfpail.application.ports import SeasonEffort
from halfpail.application.pose_season import pose_season
from halfpail.application.season_in_the_way import SeasonWords, in_the_way
from halfpail.blending.programme import Status
from halfpail.blending.season_rows import easiest_season
from halfpail.domain.bed import Content
from halfpail.domain.season import SeasonPlan, SeasonProblem, Unmet
from halfpail.domain.season_check import check_season
from halfpail.engine.planner import Planner
from halfpail.quantities.units import System
from halfpail.solvers.highs import Highs
from tests.unit.application.seasons import a_bag, a_season, at_least, at_most
from tests.unit.application.test_plan_season import a_garden, a_plan

BENCH = Bench(
    engine=Planner(Highs()),
    solver=Highs(),
    words=SeasonWords(units=System.METRIC),
    effort=SeasonEffort(relative_gap=0.02, work=0.2),
)
HASTY = replace(BENCH, effort=SeasonEffort(relative_gap=0.05, work=0.05))
MEAL, BONE = a_bag("meal", "0.10", "0"), a_bag("bone", "0.04", "0.10", 9)


def mended(season: SeasonProblem) -> Mending:
    """What is told of a season that cannot be; every repair is checked."""
    unmet = BENCH.engine.solve(season, BENCH.effort)
    assert isinstance(unmet, Unmet)
    mending = mend_season(season, unmet, BENCH)
    for repair in mending.repairs:
        assert check_season(repair.problem, repair.plan).breaches == ()
        assert isinstance(BENCH.engine.solve(repair.problem, BENCH.effort), SeasonPlan)
    return mending


def test_what_no_bag_holds_is_told_without_a_search() -> None:
    season = a_season([MEAL], [at_least("east", "0.1"), at_least("east", "0.02", Content.MG)])
    mending = mended(season)
    assert mending.hints == ("No bag here holds any Mg, which east cannot do without.",)
    assert mending.in_the_way == ("east needs at least 20 g of Mg",)
    assert any(one.sentence.startswith("Look for a bag that holds Mg") for one in mending.repairs)


def test_the_richest_bag_falls_short_of_a_need_before_a_most() -> None:
    """Bone brings 0.4 kg N with a kilogram of P2O5: 40 g N before 100 g P2O5 stop it."""
    mending = mended(a_season([BONE], [at_least("east", "0.1"), at_most("east", "0.1")]))
    assert mending.hints == (
        "east: even bone, which gives the most label N for its P2O5, brings only 40 g of the "
        "100 g needed before P2O5 stops it.",
    )
    assert mending.in_the_way == (
        "east needs at least 100 g of label N",
        "east may get at most 100 g of P2O5",
    )


def test_all_bags_together_fall_short() -> None:
    """One bag of 5 kg at 10 % holds 0.5 kg N; the two beds need 0.6 kg."""
    meal = replace(MEAL, offered=1)
    mending = mended(a_season([meal], [at_least("east", "0.3"), at_least("west", "0.3")]))
    assert mending.hints == ("All bags here together hold 500 g of label N; the beds need 600 g.",)
    assert "meal: 1 on offer" in mending.in_the_way
    assert mending.repairs[0].sentence == "Find 1 more of meal."
    assert mending.repairs[0].plan.money == 16


def test_the_budget_is_raised_to_the_least_that_does() -> None:
    season = a_season([MEAL], [at_least("east", "0.6")], budget=Fraction(10))
    mending = mended(season)
    assert "at most $10.00 may be spent" in mending.in_the_way
    assert mending.repairs[0].sentence == "Raise the budget to $16.00."
    assert mending.repairs[0].plan.money == 16


def test_one_more_mix_is_offered_where_mixes_are_too_few() -> None:
    """West must have no P2O5 and east must have some: one mix cannot, two can."""
    season = a_season(
        [MEAL, BONE],
        [
            at_least("west", "0.1"),
            at_most("west", "0"),
            at_least("east", "0.1", Content.P2O5),
        ],
    )
    mending = mended(season)
    assert mending.in_the_way[0].startswith("only one mix in whole scoops")
    assert [one.sentence for one in mending.repairs[:2]] == [
        "Stir 2 mixes.",
        "Give meal straight to the beds.",
    ]
    assert mending.repairs[0].plan.money == 17


def test_less_is_asked_as_the_last_way_and_no_most_is_passed() -> None:
    mending = mended(a_season([BONE], [at_least("east", "0.1"), at_most("east", "0.1")]))
    last = mending.repairs[-1]
    assert last.sentence == "Ask for 60 g less label N (east)."
    assert check_season(last.problem, last.plan).received["east", Content.P2O5] <= Fraction(1, 10)
    assert all(
        limit in last.problem.limits for limit in a_season([BONE], [at_most("east", "0.1")]).limits
    )


def test_without_any_one_limit_in_the_way_the_others_can_hold() -> None:
    season = a_season(
        [replace(MEAL, offered=1), BONE],
        [
            at_least("east", "0.4"),
            at_least("west", "0.4"),
            at_least("west", "0.05", Content.P2O5),
            at_most("east", "0"),
            at_most("west", "0.2"),
        ],
    )
    found = in_the_way(season, Highs(), BENCH.words)
    assert found.limits
    for limit in found.limits:
        rest = tuple(one for one in season.limits if one is not limit)
        eased = easiest_season(replace(season, limits=rest)).programme
        assert Highs().solve(eased).status is Status.OPTIMAL


# ------------------------------------------------------------------ beds short of their least


def test_beds_short_of_their_least_are_known_and_mended() -> None:
    garden = a_garden()
    plan = a_plan(garden)
    short = short_of_least(garden, pose_season(garden), plan)
    assert [(limit.plot, limit.content) for limit in short] == [("North", Content.N_LOW)]
    mending = mend_short(garden, plan, BENCH)
    assert mending is not None
    (repair,) = mending.repairs
    assert repair.sentence.startswith("Meet them all the same")
    assert short_of_least(garden, pose_season(garden), repair.plan) == ()


def test_beds_that_cannot_get_their_least_are_told_why() -> None:
    """Nothing on offer, and a pound of the blend in the shed: 18 g of label N for two beds."""
    garden = a_garden()
    scarce = replace(garden, bags=tuple(replace(bag, offered=0) for bag in garden.bags))
    plan = BENCH.engine.solve(pose_season(scarce), BENCH.effort)
    assert isinstance(plan, SeasonPlan)
    mending = mend_short(scarce, plan, BENCH)
    assert mending is not None
    # 455 g at 4 % label N and 35 % usable at the least hold 6 g; 0.10 lb on 100 and on 50 sq ft
    # are 68 g.
    assert mending.hints[0] == (
        "All bags here together hold 6 g of usable N, low; the beds need 68 g."
    )
    assert mending.in_the_way
    assert any("a bag that holds N" in one.sentence for one in mending.repairs)
    eased = mending.repairs[-1]
    assert eased.sentence.startswith("Ask for")
    assert check_season(eased.problem, eased.plan).breaches == ()


def test_nothing_is_mended_where_nothing_is_short() -> None:
    garden = a_garden()
    plan = BENCH.engine.solve(pose_season(garden), BENCH.effort)
    assert isinstance(plan, SeasonPlan)
    assert mend_short(garden, plan, BENCH) is None


# ------------------------------------------------------------------ over many seasons


@st.composite
def seasons(draw: st.DrawFn) -> SeasonProblem:
    """Two or three beds with hard ranges, a few bags, sometimes too little of everything."""
    share = st.sampled_from(["0", "0.02", "0.05", "0.10"])
    bags = [
        a_bag(f"bag {at}", draw(share), draw(share), offered=draw(st.integers(0, 2)))
        for at in range(draw(st.integers(1, 3)))
    ]
    amounts = st.sampled_from(["0.05", "0.2", "0.5"])
    limits = []
    for at in range(draw(st.integers(1, 3))):
        limits += [
            at_least(f"bed {at}", draw(amounts)),
            at_most(f"bed {at}", draw(st.sampled_from(["0", "0.05", "0.3"]))),
        ]
    budget = draw(st.sampled_from([None, 8, 20]))
    return a_season(bags, limits, budget=None if budget is None else Fraction(budget))


@settings(max_examples=25)
@given(seasons())
def test_every_repair_makes_the_season_possible(season: SeasonProblem) -> None:
    unmet = BENCH.engine.solve(season, BENCH.effort)
    if isinstance(unmet, Unmet):
        mending = mended(season)
        assert mending.in_the_way
        assert mending.repairs
        assert len(mending.repairs) <= 3


def firm(season: SeasonProblem) -> SeasonProblem:
    """The season with every need hard."""
    return replace(
        season,
        limits=tuple(
            replace(limit, price_per_kg=None) if limit.at_least else limit
            for limit in season.limits
        ),
    )


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(2))
def test_every_reference_garden_without_a_plan_ends_in_a_repair(seed: int) -> None:
    garden = ReferenceGarden(bags=8, beds=6, mixes=1, seed=seed, hard=True, straight=False)
    season = firm(problem_of(garden))
    unmet = BENCH.engine.solve(season, BENCH.effort)
    assert isinstance(unmet, Unmet)
    mending = mend_season(season, unmet, HASTY)
    assert mending.in_the_way
    assert mending.repairs
    for repair in mending.repairs:
        assert check_season(repair.problem, repair.plan).breaches == ()
