"""Worth of bags: python benchmarks/worth.py [bags|card]...

`bags` weighs every bag of the sample garden with one mix, says how many are exact and how long it
took, asks again one cent below and one cent above each price, and weighs them once more by solving
every case from scratch: without the bag, and with each number of it free.

`card` makes the card for the shop for two gardens, the sample as it is and the same with an empty
shed and the other bags at list price, and holds its verdict on seeded random bags against planning
the whole season with each of them.
"""

import sys
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from random import Random
from time import perf_counter

from halfpail.application.make_shop_card import TRIED, ShopCard, gift, make_shop_card
from halfpail.application.open_garden import open_garden
from halfpail.application.ports import KnownWithout, SeasonEffort, SeasonEngine
from halfpail.application.pose_season import pose_season
from halfpail.application.weigh_bag import at_price, without
from halfpail.application.weigh_worth import BagWorth, weigh_worth
from halfpail.domain.garden import Garden
from halfpail.domain.season import SeasonPlan, SeasonProblem, Unmet
from halfpail.quantities.units import size_of
from halfpail.wiring import services

CENT = Fraction(1, 100)
NONE = Fraction(0)
RANDOM_BAGS = 100
SEED = 2026
WEIGHTS_LB = (4, 5, 8, 10, 12, 15, 20, 25, 40)
# Clearance prices, cents per pound.
CENTS_PER_LB = (10, 100)


class Counting:
    """An engine that counts what it is asked."""

    def __init__(self, engine: SeasonEngine) -> None:
        self.engine = engine
        self.asked = 0

    def solve(
        self, problem: SeasonProblem, effort: SeasonEffort = SeasonEffort()
    ) -> SeasonPlan | Unmet:
        self.asked += 1
        return self.engine.solve(problem, effort)


def sample_garden() -> Garden:
    """The sample garden with one mix."""
    garden = open_garden(services().read_sample_garden()).garden
    return replace(garden, preferences=replace(garden.preferences, mixes=1))


def in_season(garden: Garden) -> Garden:
    """The same garden with an empty shed and every bag at its list price."""
    bags = tuple(
        replace(bag, shed_kg=NONE, price=bag.list_price or bag.price) for bag in garden.bags
    )
    return replace(garden, bags=bags)


def plan_of(engine: SeasonEngine, problem: SeasonProblem) -> SeasonPlan:
    plan = engine.solve(problem)
    assert isinstance(plan, SeasonPlan)
    return plan


# ------------------------------------------------------------------ every bag of the sample garden


def weigh_bags() -> None:
    garden, engine = sample_garden(), Counting(services().engine)
    began = perf_counter()
    answer = weigh_worth(garden, engine, each=services().each)
    seconds = perf_counter() - began
    assert not isinstance(answer, Unmet)
    exact = sum(worth.worth.is_exact for worth in answer.bags)
    print(f"ours: {len(answer.bags)} bags, {exact} exact, {seconds:.1f} s")
    problem = pose_season(garden)
    began, before = perf_counter(), engine.asked
    scratch = {worth.bag: from_scratch(problem, worth.bag, engine) for worth in answer.bags}
    seconds, asked = perf_counter() - began, engine.asked - before
    print(f"from scratch: {asked} seasons, {seconds:.1f} s")
    for worth in answer.bags:
        low, high = (
            f"{float(end):7.2f}" for end in (worth.worth.low_money, worth.worth.high_money)
        )
        again = f"{float(scratch[worth.bag]):7.2f}"
        print(f"{worth.bag:34} {low} {high}  from scratch {again}  {confirmed(problem, worth)}")


def from_scratch(problem: SeasonProblem, key: str, engine: SeasonEngine) -> Fraction:
    """The most that any number of free bags saves each."""
    alone = plan_of(engine, without(problem, key)).value
    offered = next(bag.offered for bag in problem.ingredients if bag.key == key)
    return max(
        (alone - plan_of(engine, at_price(problem, key, NONE, offered=n)).value) / n
        for n in range(1, offered + 1)
    )


def confirmed(problem: SeasonProblem, worth: BagWorth) -> str:
    """Whether it still pays a cent below the lower end, and no more a cent above the higher."""
    engine = services().engine
    alone = worth.value_without.high_money
    above = plan_of(engine, at_price(problem, worth.bag, worth.worth.high_money + CENT)).value
    told = "no more a cent above" if above >= alone else "STILL PAYS A CENT ABOVE"
    if worth.worth.low_money <= CENT:
        return told
    below = plan_of(engine, at_price(problem, worth.bag, worth.worth.low_money - CENT)).value
    return f"{'pays a cent below' if below < alone else 'PAYS NOT A CENT BELOW'}, {told}"


# ------------------------------------------------------------------ the card for the shop


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What the card says of a random bag, and what planning with it says."""

    by_card: bool
    by_plan: bool


def try_card() -> None:
    for name, garden in (
        ("sample garden", sample_garden()),
        ("empty shed, list prices", in_season(sample_garden())),
    ):
        began = perf_counter()
        card = make_shop_card(garden, services().engine, services().solver)
        assert isinstance(card, ShopCard)
        print(f"{name}: card of {len(TRIED)} grades in {perf_counter() - began:.1f} s")
        points = card.prices.per_point.items()
        wanted = card.prices.wanted_kg.items()
        print(
            "   still wanted", {str(n): f"{float(kg / size_of('lb')):.1f} lb" for n, kg in wanted}
        )
        print("  ", {str(n): f"{float(100 * p * size_of('lb')):.1f} c/lb" for n, p in points})
        found = list(verdicts(garden, card))
        agree = sum(one.by_card == one.by_plan for one in found)
        bought = sum(one.by_plan for one in found)
        said = sum(one.by_card for one in found)
        both = sum(one.by_card and one.by_plan for one in found)
        print(
            f"   agrees on {agree} of {len(found)}; worth buying {bought}, card says buy {said}, "
            f"both {both}; 'never buy' would agree on {len(found) - bought}"
        )


def verdicts(garden: Garden, card: ShopCard) -> Iterator[Verdict]:
    engine, chance = services().engine, Random(SEED)
    now = plan_of(engine, pose_season(garden))
    for _ in range(RANDOM_BAGS):
        grade = f"{chance.randint(2, 12)}-{chance.randint(0, 8)}-{chance.randint(0, 8)}"
        weight_kg = chance.choice(WEIGHTS_LB) * size_of("lb")
        bag = gift(grade, weight_kg, garden)
        cents = chance.randint(*CENTS_PER_LB)
        price = Fraction(round(cents * weight_kg / size_of("lb")), 100)
        offer = replace(garden, bags=(*garden.bags, replace(bag, price=price)))
        plan = engine.solve(
            pose_season(offer), SeasonEffort(without=KnownWithout(bag=bag.key, plan=now))
        )
        assert isinstance(plan, SeasonPlan)
        by_plan = plan.value < now.value
        by_card = card.prices.of(bag.label.analysis.grade, weight_kg) > price
        yield Verdict(by_card=by_card, by_plan=by_plan)


def main(wanted: list[str]) -> None:
    """Run what is wanted; all of it when nothing is named."""
    for name, run in (("bags", weigh_bags), ("card", try_card)):
        if not wanted or name in wanted:
            run()


if __name__ == "__main__":
    main(sys.argv[1:])
