"""The worth of a bag against trying every number of them free, and against the price itself."""

from dataclasses import replace
from fractions import Fraction
from functools import cache
from random import Random

import pytest

from halfpail.application.ports import KnownWithout, SeasonEffort
from halfpail.application.weigh_bag import Weighed, at_price, weigh_bag, without
from halfpail.domain.bed import Content
from halfpail.domain.season import Ingredient, Limit, Plot, SeasonPlan, SeasonProblem
from halfpail.domain.season_check import check_season
from halfpail.engine.planner import Planner
from halfpail.solvers.highs import Highs

CENT = Fraction(1, 100)
ENGINE = Planner(Highs())


@cache
def best(problem: SeasonProblem) -> SeasonPlan:
    plan = ENGINE.solve(problem)
    assert isinstance(plan, SeasonPlan)
    assert plan.bound == plan.value
    return plan


def season(seed: int, bags: int = 3, beds: int = 2) -> SeasonProblem:
    """A small season, made up: every bag gives some nitrogen and potash."""
    chance = Random(seed)
    ingredients = tuple(
        Ingredient(
            key=f"bag {number}",
            contents={
                Content.N_TYPICAL: Fraction(chance.randint(1, 12), 100),
                Content.K2O: Fraction(chance.randint(0, 8), 100),
            },
            scoop_kg=Fraction(chance.randint(5, 9), 10),
            bag_kg=Fraction(chance.randint(2, 6)),
            price=Fraction(chance.randint(200, 900), 100),
            shed_kg=Fraction(chance.choice((0, 0, 1))),
            offered=chance.randint(1, 3),
            may_go_straight=chance.random() < 0.3,
        )
        for number in range(bags)
    )
    limits = tuple(
        Limit(
            plot=f"bed {bed}",
            content=content,
            at_least=Fraction(chance.randint(5, 30), 100),
            price_per_kg=Fraction(chance.choice((30, 80))),
        )
        for bed in range(beds)
        for content in (Content.N_TYPICAL, Content.K2O)
    )
    caps = tuple(
        Limit(plot=f"bed {bed}", content=Content.N_TYPICAL, at_most=Fraction(35, 100))
        for bed in range(beds)
    )
    return SeasonProblem(
        ingredients=ingredients,
        plots=tuple(Plot(key=f"bed {bed}") for bed in range(beds)),
        limits=(*limits, *caps),
        mixes=1,
        most_scoops=4,
        most_bags=2,
    )


def told(problem: SeasonProblem, known: KnownWithout, work: float = 1.0) -> SeasonPlan:
    """The best plan, found by beginning from the best without the bag."""
    plan = ENGINE.solve(problem, SeasonEffort(without=known, work=work))
    assert isinstance(plan, SeasonPlan)
    return plan


def weighed(problem: SeasonProblem, key: str) -> Weighed:
    return weigh_bag(problem, key, best(without(problem, key)), told, best(problem))


SEASONS = [(seed, bag) for seed in range(4) for bag in range(3)]


@pytest.mark.parametrize(("seed", "bag"), SEASONS)
def test_it_is_the_most_that_any_number_of_free_bags_saves_each(seed, bag):
    # Break-even by one and by n bags free: optimisation.md, section 5.4 (derived).
    problem, key = season(seed), f"bag {bag}"
    alone = best(without(problem, key)).value
    offered = problem.ingredients[bag].offered
    saved = [
        (alone - best(at_price(problem, key, Fraction(0), offered=n)).value) / n
        for n in range(1, offered + 1)
    ]
    found = weighed(problem, key)
    assert found.price.is_exact
    assert found.price.low_money == max(saved)
    assert found.count == 0 or saved[found.count - 1] == max(saved)


@pytest.mark.parametrize(("seed", "bag"), SEASONS)
def test_it_pays_a_cent_below_and_no_more_a_cent_above(seed, bag):
    problem, key = season(seed), f"bag {bag}"
    price = weighed(problem, key).price.low_money
    alone = best(without(problem, key)).value
    assert best(at_price(problem, key, price + CENT)).value == alone
    if price > CENT:
        assert best(at_price(problem, key, price - CENT)).value < alone


def test_the_price_asked_today_does_not_change_the_worth():
    problem = season(1)
    dear = at_price(problem, "bag 0", Fraction(100))
    cheap = at_price(problem, "bag 0", Fraction(1, 100))
    assert weighed(dear, "bag 0").price == weighed(cheap, "bag 0").price


def test_without_a_proof_the_worth_lies_between_two_ends():
    def unsure(
        problem: SeasonProblem, known: KnownWithout | None = None, work: float = 1.0
    ) -> SeasonPlan:
        plan = best(problem)
        return replace(plan, bound=plan.value * Fraction(98, 100))

    problem = season(2)
    for bag in problem.ingredients:
        exact = weighed(problem, bag.key).price
        found = weigh_bag(
            problem, bag.key, unsure(without(problem, bag.key)), unsure, unsure(problem)
        )
        assert found.price.low_money <= exact.low_money <= found.price.high_money
        assert not found.price.is_exact


def test_a_budget_holds_the_price():
    problem = season(3)
    for bag in problem.ingredients:
        key = bag.key
        poor = replace(problem, budget=Fraction(4))
        found = weighed(poor, key)
        alone = best(without(poor, key)).value
        assert best(at_price(poor, key, found.price.high_money + CENT)).value == alone
        if found.price.low_money > CENT:
            assert best(at_price(poor, key, found.price.low_money - CENT)).value < alone


@pytest.mark.parametrize(("seed", "bag"), SEASONS)
def test_beginning_from_the_best_without_a_bag_finds_the_same_value(seed, bag):
    problem, key = season(seed), f"bag {bag}"
    known = KnownWithout(bag=key, plan=best(without(problem, key)))
    for price in (Fraction(0), Fraction(1), Fraction(50)):
        asked = at_price(problem, key, price)
        found = told(asked, known)
        assert found.value == found.bound == best(asked).value
        assert not check_season(asked, found).breaches
