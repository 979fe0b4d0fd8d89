"""Prices, reasons and left-overs of a plan, on gardens small enough to follow by hand."""

from dataclasses import replace
from fractions import Fraction

import pytest

from halfpail.application.explain_season import SeasonExplanation, explain_season, with_room
from halfpail.application.plan_season import tell
from halfpail.application.pose_season import pose_season
from halfpail.blending.programme import Status
from halfpail.blending.season_rows import SeasonRows, fixed_season
from halfpail.domain.bed import Content
from halfpail.domain.season import Feeding, SeasonPlan, SeasonProblem, Stir
from halfpail.quantities.units import size_of
from halfpail.solvers.highs import Highs
from tests.unit.application.seasons import a_bag, a_season, at_least, at_most
from tests.unit.application.test_plan_season import a_garden, a_plan

LB = size_of("lb")
SOLVER = Highs()


def explained() -> SeasonExplanation:
    garden = a_garden()
    return explain_season(garden, tell(garden, a_plan(garden)), SOLVER)


def a_held_season() -> tuple[SeasonProblem, SeasonPlan]:
    """East and west want 0.4 kg N each at 10 a kilogram missed; P2O5 stops east at 0.1 kg.

    The mix, meal and bone 1 to 1, holds 0.15 kg N and 0.05 kg P2O5 in two scoops of a kilogram.
    """
    season = a_season(
        [a_bag("meal", "0.10", "0"), a_bag("bone", "0.05", "0.05")],
        [
            at_least("east", "0.4", price="10"),
            at_most("east", "0.1"),
            at_least("west", "0.4", price="10"),
        ],
    )
    plan = SeasonPlan(
        stirs=(Stir(scoops={"meal": 1, "bone": 1}, rounds=4),),
        feedings=(
            Feeding(plot="east", of=0, measures=16),
            Feeding(plot="west", of=0, measures=16),
        ),
        purchases={"meal": 1, "bone": 1},
        money=Fraction(16),
        missed=Fraction(2),
        bound=Fraction(0),
        proven_by="hand",
    )
    return season, plan


def row_of(rows: SeasonRows, plot: str, content: Content) -> tuple[int, float]:
    """The row of a most, and its scale."""
    return next(
        (row, scale)
        for limit, row, scale in rows.limits
        if limit.plot == plot and limit.content is content and limit.at_most is not None
    )


def test_a_plan_held_fixed_comes_to_its_own_value() -> None:
    """8 scoops stirred, 4 a bed: each misses 0.4 - 4 * 0.075 = 0.1 kg N at 10, with 16 paid."""
    outcome = SOLVER.solve(fixed_season(*a_held_season()).programme)
    assert outcome.status is Status.OPTIMAL
    assert outcome.value == pytest.approx(16 + 2 * 1)


def test_a_price_is_what_two_solves_either_side_say() -> None:
    """With mix to spare, a kilogram of P2O5 more on east brings 3 kg N, missed at 10 each."""
    season, plan = a_held_season()
    plan = replace(plan, stirs=(replace(plan.stirs[0], rounds=5),))
    rows = fixed_season(season, plan)
    outcome = SOLVER.solve(rows.programme)
    row, scale = row_of(rows, "east", Content.P2O5)
    assert outcome.row_prices[row] / scale == pytest.approx(-30)
    assert outcome.value is not None
    for more_kg in (0.001, -0.001):
        moved = SOLVER.solve(with_room(rows.programme, row, more_kg / scale)).value
        assert moved is not None
        assert moved - outcome.value == pytest.approx(-30 * more_kg, rel=1e-6)


def test_more_room_is_told_by_what_solving_again_saves() -> None:
    """Mix to spare, label N stops: 0.27 lb (1.5 x 0.18) at 0.0725 a scoop, 0.084 lb K2O of 0.10."""
    garden = a_garden()
    plan = a_plan(garden, stirs=(Stir(scoops={"Blend": 3, "Quick": 1}, rounds=4),))
    answer = tell(garden, plan)
    rows = fixed_season(pose_season(garden), answer.plan)
    base = SOLVER.solve(rows.programme).value
    assert base is not None
    told = explain_season(garden, answer, SOLVER).more_room
    assert list(told) == sorted(told, key=lambda one: -one.saves)
    limits = [one for one in told if one.what]
    assert {(one.where, one.what) for one in limits} == {("North", "label N"), ("South", "label N")}
    for one in limits:
        row, scale = row_of(rows, one.where, Content(one.what))
        wider = SOLVER.solve(with_room(rows.programme, row, float(one.more_kg) / scale)).value
        assert wider is not None
        assert float(one.saves) == pytest.approx(base - wider, abs=1e-5)


def test_each_bag_is_told_by_what_it_mainly_brings() -> None:
    blend, quick = explained().bags
    # Blend: 36 oz at 4 % K2O, of which there is no other source; Quick: 20 oz at 20 % N, quick.
    assert (blend.brings, blend.share, blend.instead) == (Content.K2O, 1, None)
    assert blend.brings_kg == Fraction(36, 16) * LB * Fraction(4, 100)
    assert quick.brings is Content.N_TYPICAL
    assert quick.brings_kg == Fraction(20, 16) * LB * Fraction(20, 100)
    assert quick.cost == 8


def test_the_next_cheapest_is_counted_in_whole_bags_with_its_phosphorus() -> None:
    quick = explained().bags[1]
    # 0.25 lb usable N out of a blend of 4 % label N at 45 % usable (granular, no source named)
    # is 13.9 lb: two bags of 10 lb at 5.00, and 2 % of them is P2O5.
    garden = a_garden()
    usable = garden.bags[0].usable_n.typical
    assert quick.instead == "Blend"
    assert quick.instead_bags == -(-Fraction(1, 4) * LB // (usable * 10 * LB))
    assert quick.instead_cost == 5 * quick.instead_bags
    assert quick.more_p2o5_kg == Fraction(1, 4) * LB * Fraction(2, 100) / usable


def test_what_is_left_over_is_told() -> None:
    left = {one.name: one.left_kg for one in explained().left_over}
    assert left["Blend"] == (11 - Fraction(36, 16)) * LB
    assert left["Mix 1"] == Fraction(52, 16) * LB * (1 - Fraction(6, 16))
