"""What each bag is worth to a garden: highest price worth paying, how many, what it replaces."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from fractions import Fraction
from functools import partial

from halfpail.application.buy_within_budget import BuyingList, buying_list
from halfpail.application.group_same_stuff import SameStuff, group_same_stuff
from halfpail.application.keep_apart import cautions_of
from halfpail.application.ports import Each, KnownWithout, SeasonEffort, SeasonEngine
from halfpail.application.pose_season import pose_season
from halfpail.application.weigh_bag import Between, Weighed, weigh_bag, without
from halfpail.domain.garden import Garden
from halfpail.domain.season import SeasonPlan, SeasonProblem, Unmet
from halfpail.domain.stock import Bag
from halfpail.findings import Notice, Severity
from halfpail.quantities.showing import show_money
from halfpail.working import Step, Working

NONE = Fraction(0)
OF_EVERY_WORTH = ("soil_test", "extension")


class Advice(StrEnum):
    """What to do at today's price."""

    BUY = "buy"
    LEAVE = "leave it"
    CLOSE = "too close to call"
    ASK = "ask the price"


@dataclass(frozen=True, slots=True, kw_only=True)
class BagWorth:
    """One bag beside the season [money].

    `worth` is the highest price at which some number of it, `worth_count`, is still bought: above
    it the bag drops out; `worth_per_kg` is its middle by weight where it is not exact. `buy` is
    how many the best plan buys at today's price. `value_without`
    is what the season comes to, money and misses, if none can be bought; `replaces` counts the
    bags of others that are then bought instead.
    """

    bag: str
    bag_kg: Fraction
    price: Fraction | None
    worth: Between
    worth_per_kg: Fraction
    worth_count: int
    held_by_budget: bool
    buy: int
    advice: Advice
    value_without: Between
    replaces: Mapping[str, int] = field(hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class WorthAnswer:
    """What every bag is worth to a garden with so many mixes, and what to buy today."""

    garden: str
    currency: str
    mixes: int
    value: Between
    bags: tuple[BagWorth, ...]
    buying: BuyingList
    same_stuff: tuple[SameStuff, ...]
    notices: tuple[Notice, ...] = ()
    working: Working = ()


def weigh_worth(
    garden: Garden,
    engine: SeasonEngine,
    effort: SeasonEffort = SeasonEffort(),
    on_bag: Callable[[str], None] | None = None,
    each: Each = map,
) -> WorthAnswer | Unmet:
    """What every bag that could be bought is worth, from the most to the least.

    Bags to be avoided, of unknown weight or sold out are left out; a bag without a price is
    weighed all the same. `on_bag` is told each bag before its worth is there; `each` may weigh
    several at once.
    """
    now = engine.solve(pose_season(garden), effort)
    if isinstance(now, Unmet):
        return now
    found: list[tuple[BagWorth, Step]] = []
    weighed = [bag for bag in garden.bags if bag.bag_kg and not bag.avoid and bag.offered != 0]
    worths = each(partial(_bag_worth, garden, now=now, engine=engine, effort=effort), weighed)
    for bag in weighed:
        if on_bag:
            on_bag(bag.key)
        found += next(worths)
    found.sort(key=lambda pair: -pair[0].worth_per_kg)
    bags = tuple(worth for worth, _ in found)
    return WorthAnswer(
        garden=garden.name,
        currency=garden.preferences.currency,
        mixes=pose_season(garden).mixes,
        value=Between(low_money=now.bound, high_money=now.value),
        bags=bags,
        buying=buying_list(garden, now),
        same_stuff=group_same_stuff(
            [bag for bag in garden.bags if not bag.avoid],
            {worth.bag: worth.worth_per_kg for worth in bags},
        ),
        notices=tuple(_notices(garden, bags)),
        working=tuple(step for _, step in found),
    )


def _bag_worth(
    garden: Garden,
    bag: Bag,
    now: SeasonPlan,
    engine: SeasonEngine,
    effort: SeasonEffort,
) -> list[tuple[BagWorth, Step]]:
    """The worth of one bag with its working; nothing where no plan can do without it."""
    problem = pose_season(_priced(garden, bag))
    buy = now.purchases.get(bag.key, 0)
    alone = engine.solve(without(problem, bag.key), effort) if buy else now
    if isinstance(alone, Unmet):
        return []

    def solve(problem: SeasonProblem, known: KnownWithout, work: float = 1.0) -> SeasonPlan | Unmet:
        return engine.solve(problem, replace(effort, without=known, work=work * effort.work))

    weighed = weigh_bag(problem, bag.key, alone, solve, now if buy else None)
    bought = weighed.plan.purchases if weighed.plan else {}
    assert bag.bag_kg
    worth = BagWorth(
        bag=bag.key,
        bag_kg=bag.bag_kg,
        price=bag.price,
        worth=weighed.price,
        worth_per_kg=weighed.price.middle / bag.bag_kg,
        worth_count=weighed.count,
        held_by_budget=weighed.held_by_budget,
        buy=buy,
        advice=advise(bag.price, weighed.price, buy),
        value_without=Between(low_money=alone.bound, high_money=alone.value),
        replaces={
            key: count - bought.get(key, 0)
            for key, count in alone.purchases.items()
            if weighed.count and count > bought.get(key, 0)
        },
    )
    return [(worth, _step(bag, weighed, alone, garden.preferences.currency))]


def advise(price: Fraction | None, worth: Between, buy: int) -> Advice:
    """What to do at a price [money], given the worth and how many the plan buys at that price."""
    if price is None:
        return Advice.ASK
    if buy or price < worth.low_money:
        return Advice.BUY
    return Advice.LEAVE if price >= worth.high_money else Advice.CLOSE


def _priced(garden: Garden, bag: Bag) -> Garden:
    """The garden with a price for this bag, so that it is on offer; which one does not matter."""
    if bag.price is not None:
        return garden
    bags = tuple(replace(one, price=NONE) if one is bag else one for one in garden.bags)
    return replace(garden, bags=bags)


def _step(bag: Bag, weighed: Weighed, alone: SeasonPlan, currency: str) -> Step:
    def money(amount: Fraction) -> str:
        return show_money(amount, currency)

    if not weighed.count:
        return Step(
            reason=f"{bag.name}: no number of them, even as a gift, makes the season better",
            sum=f"the season comes to {money(alone.value)} with them and without",
        )
    count = weighed.count
    saved = f"{money(alone.value)} - {money(weighed.rest)}"
    highest = money(weighed.price.high_money)
    if count == 1:
        return Step(
            reason=(
                f"{bag.name}: the season without it, less the season with one as a gift; more of "
                "them pay no higher price"
            ),
            sum=f"{saved} = {highest}",
        )
    return Step(
        reason=(
            f"{bag.name}: the season without it, less the season with {count} of them as a gift, "
            "for each of them; no other number pays a higher price"
        ),
        sum=f"({saved}) / {count} = {highest}",
    )


def _notices(garden: Garden, bags: tuple[BagWorth, ...]) -> Iterator[Notice]:
    yield Notice(
        severity=Severity.NOTE,
        sentence=(
            "A price counts the money saved elsewhere and, at the weights of the season plan, "
            "what the beds would otherwise go short of or get too much of."
        ),
    )
    if any(not worth.worth.is_exact for worth in bags):
        yield Notice(
            severity=Severity.NOTE,
            sentence=(
                "Where two prices stand, the highest price worth paying lies between them: below "
                "the lower one buy, above the higher one leave it."
            ),
        )
    if any(worth.held_by_budget for worth in bags):
        yield Notice(
            severity=Severity.NOTE,
            sentence="The budget, not the season, holds some of these prices down.",
        )
    yield from cautions_of([], *OF_EVERY_WORTH)
    yield from cautions_of([bag for bag in garden.bags if _is_bought(bag, bags)], "directions")


def _is_bought(bag: Bag, bags: tuple[BagWorth, ...]) -> bool:
    return any(worth.bag == bag.key and worth.buy for worth in bags)
