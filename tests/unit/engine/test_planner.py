"""The engine on small seasons whose best plan can be found by hand."""

from dataclasses import replace
from fractions import Fraction

import pytest

from benchmarks.gardens import Garden, problem_of
from halfpail.application.ports import SeasonEffort, SeasonProgress
from halfpail.domain.bed import Content
from halfpail.domain.season import (
    Ingredient,
    Limit,
    Plot,
    SeasonPlan,
    SeasonProblem,
    Unmet,
)
from halfpail.domain.season_check import check_season
from halfpail.engine.planner import Planner
from halfpail.solvers.highs import Highs


def bag(key: str, n: str, p: str, price: int, **more: object) -> Ingredient:
    figures: dict[str, object] = {
        "scoop_kg": Fraction(1),
        "bag_kg": Fraction(5),
        "offered": 3,
    }
    return Ingredient(
        key=key,
        contents={Content.N_LABEL: Fraction(n), Content.P2O5: Fraction(p)},
        price=Fraction(price),
        **{**figures, **more},  # type: ignore[arg-type]  # any field may be given
    )


def problem(
    *bags: Ingredient, limits: tuple[Limit, ...], mixes: int = 1, **more: object
) -> SeasonProblem:
    plots = tuple(Plot(key=key) for key in sorted({limit.plot for limit in limits}))
    return SeasonProblem(
        ingredients=bags,
        plots=plots,
        limits=limits,
        mixes=mixes,
        most_scoops=6,
        most_bags=3,
        **more,  # type: ignore[arg-type]  # any field may be given
    )


def needs(plot: str, n: str, most_p: str | None = None) -> tuple[Limit, ...]:
    limits = [Limit(plot=plot, content=Content.N_LABEL, at_least=Fraction(n))]
    if most_p is not None:
        limits.append(Limit(plot=plot, content=Content.P2O5, at_most=Fraction(most_p)))
    return tuple(limits)


def solved(season: SeasonProblem, effort: SeasonEffort = SeasonEffort()) -> SeasonPlan:
    answer = Planner(Highs()).solve(season, effort)
    assert isinstance(answer, SeasonPlan), answer
    assert check_season(season, answer).breaches == ()
    return answer


def test_one_bag_is_bought_whole() -> None:
    """0.3 kg N from a 10 per cent bag is 3 kg: one bag of 5 kg at 8."""
    plan = solved(problem(bag("meal", "0.10", "0", 8), limits=needs("east", "0.3")))
    assert (plan.money, plan.missed, plan.bound) == (8, 0, 8)
    assert plan.purchases == {"meal": 1}


def test_the_shed_is_used_before_the_shop() -> None:
    stocked = bag("meal", "0.10", "0", 8, shed_kg=Fraction(3))
    plan = solved(problem(stocked, limits=needs("east", "0.3")))
    assert (plan.money, plan.purchases) == (0, {})


def test_a_priced_shed_is_paid_by_weight() -> None:
    stocked = bag("meal", "0.10", "0", 8, shed_kg=Fraction(3), shed_price_per_kg=Fraction(2))
    plan = solved(problem(stocked, limits=needs("east", "0.3")))
    assert (plan.money, plan.bound) == (6, 6)


def test_whole_rounds_leave_mix_over_and_count_it() -> None:
    """East may have 0.1 kg P2O5 with 0.3 kg N: meal and bone 5 to 1 at best, in whole rounds."""
    season = problem(
        bag("meal", "0.12", "0", 20, shed_kg=Fraction(2), offered=0),
        bag("blend", "0.05", "0.05", 4),
        limits=needs("east", "0.3", "0.1"),
    )
    plan = solved(season)
    assert plan.purchases == {"blend": 1}
    assert plan.gap == 0


def test_two_mixes_serve_what_one_cannot() -> None:
    """West must have no phosphorus, east must have some: one mix cannot, two can."""
    bags = (bag("meal", "0.10", "0", 8), bag("bone", "0.04", "0.10", 9))
    limits = (
        *needs("west", "0.1", "0"),
        *needs("east", "0.1"),
        Limit(plot="east", content=Content.P2O5, at_least=Fraction("0.1")),
    )
    one = Planner(Highs()).solve(problem(*bags, limits=limits, mixes=1))
    assert isinstance(one, Unmet)
    assert one.proven
    two = solved(problem(*bags, limits=limits, mixes=2))
    assert (two.money, two.bound) == (17, 17)


def test_a_straight_bag_saves_a_mix() -> None:
    bags = (
        bag("meal", "0.10", "0", 8, may_go_straight=True),
        bag("bone", "0.04", "0.10", 9),
    )
    limits = (
        *needs("west", "0.1", "0"),
        Limit(plot="east", content=Content.P2O5, at_least=Fraction("0.1")),
    )
    assert solved(problem(*bags, limits=limits)).money == 17


def test_bags_apart_never_share_a_mix() -> None:
    bags = (bag("meal", "0.10", "0", 8), bag("ash", "0", "0.10", 3))
    limits = (
        *needs("east", "0.1"),
        Limit(plot="east", content=Content.P2O5, at_least=Fraction("0.1")),
    )
    assert solved(problem(*bags, limits=limits)).money == 11
    parted = problem(*bags, limits=limits, apart=frozenset({frozenset({"meal", "ash"})}))
    answer = Planner(Highs()).solve(parted)
    assert isinstance(answer, Unmet)
    assert answer.proven


def test_a_miss_is_priced_apart_from_money() -> None:
    """Half a kilogram short at 2 the kilogram is cheaper than any bag."""
    limit = Limit(
        plot="east",
        content=Content.N_LABEL,
        at_least=Fraction("0.5"),
        price_per_kg=Fraction(2),
    )
    plan = solved(problem(bag("meal", "0.10", "0", 8), limits=(limit,)))
    assert (plan.money, plan.missed, plan.value, plan.bound) == (0, 1, 1, 1)


def test_a_budget_is_kept() -> None:
    limits = needs("east", "0.3")
    cheap = bag("cheap", "0.02", "0", 3, offered=3)
    season = problem(bag("meal", "0.10", "0", 8), cheap, limits=limits, budget=Fraction(9))
    assert solved(season).money <= 9
    answer = Planner(Highs()).solve(problem(cheap, limits=limits, budget=Fraction(5)))
    assert isinstance(answer, Unmet)


def test_what_no_bag_holds_is_named() -> None:
    limit = Limit(plot="east", content=Content.MG, at_least=Fraction("0.1"))
    answer = Planner(Highs()).solve(problem(bag("meal", "0.1", "0", 8), limits=(limit,)))
    assert isinstance(answer, Unmet)
    assert answer.proven
    assert [give.limit for give in answer.gives] == [limit]
    assert "no bag holds any Mg" in answer.sentence


def test_what_must_give_is_measured() -> None:
    """15 kg of a 10 per cent bag hold 1.5 kg N; 2 kg are half a kilogram too many."""
    answer = Planner(Highs()).solve(problem(bag("meal", "0.10", "0", 8), limits=needs("east", "2")))
    assert isinstance(answer, Unmet)
    assert float(answer.gives[0].by_kg) == pytest.approx(0.5)


def test_the_same_season_gives_the_same_plan() -> None:
    bags = (bag("meal", "0.10", "0.01", 8), bag("blend", "0.05", "0.05", 4))
    season = problem(*bags, limits=(*needs("east", "0.3", "0.2"), *needs("west", "0.2", "0.1")))
    assert solved(season) == solved(season)


def test_progress_is_told_and_a_stop_is_kept() -> None:
    news: list[SeasonProgress] = []
    season = problem(bag("meal", "0.10", "0", 8), limits=needs("east", "0.3"))
    solved(season, SeasonEffort(on_progress=news.append))
    assert news
    assert all(n.value is None or n.bound is None or n.bound <= n.value + 1e-6 for n in news)
    Planner(Highs()).solve(season, SeasonEffort(should_stop=lambda: True))


def test_no_bound_told_on_the_way_is_above_the_plan() -> None:
    """What is proven for one mix on the way to two is not told as a bound for two."""
    news: list[SeasonProgress] = []
    bags = (bag("meal", "0.10", "0", 8), bag("bone", "0.04", "0.10", 9))
    limits = (
        Limit(
            plot="west",
            content=Content.N_LABEL,
            at_least=Fraction("0.1"),
            price_per_kg=Fraction(900),
        ),
        Limit(plot="west", content=Content.P2O5, at_most=Fraction(0)),
        *needs("east", "0.1"),
        Limit(plot="east", content=Content.P2O5, at_least=Fraction("0.1")),
    )
    plan = solved(problem(*bags, limits=limits, mixes=2), SeasonEffort(on_progress=news.append))
    assert plan.value == 17
    assert all(n.bound is None or n.bound <= 17 + 1e-6 for n in news)


def test_a_search_without_beds_ends():
    """Beds of a mix that nobody gets any more are none: nothing to plan, and nothing to miss."""
    problem = problem_of(Garden(bags=8, beds=6, mixes=1, seed=0))
    plan = Planner(Highs()).solve(replace(problem, plots=(), limits=()))
    assert isinstance(plan, SeasonPlan)
    assert (plan.money, plan.missed, plan.feedings) == (0, 0, ())
