"""The highest price worth paying for one bag: the season without it against the season with it.

A season plan buys n bags at a price exactly if what the rest then costs, plus n times the price, is
less than the best plan without the bag. So the highest price is the largest, over all n, of

    (value of the best plan without it - value of the rest with n bags given free) / n.

All of them given free say whether they are worth anything; one given free says what the first is
worth. All can never gain less than some, so where the first gains at least half of what all do, no
other number pays more. Where it does not, the search asks at the price found so far whether any
number of bags still pays; a plan that answers yes gives the next, higher price.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil
from typing import Protocol

from halfpail.application.ports import KnownWithout
from halfpail.domain.season import Ingredient, SeasonPlan, SeasonProblem, Unmet
from halfpail.domain.season_check import check_season

NONE = Fraction(0)
_MOST_TURNS = 12
# A gift only has to show where to ask: what is hard to prove for a gift is often easy at a price.
_GIFT_WORK = 0.5


class Solve(Protocol):
    """The engine with its effort, or with a share of its work."""

    def __call__(
        self, problem: SeasonProblem, known: KnownWithout, work: float = 1.0
    ) -> SeasonPlan | Unmet:
        """The best plan, beginning from the best one without the bag."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Between:
    """A sum of money known to lie between two ends; where they meet it is exact."""

    low_money: Fraction
    high_money: Fraction

    @property
    def middle(self) -> Fraction:
        """Half way between the ends [money]."""
        return (self.low_money + self.high_money) / 2

    @property
    def is_exact(self) -> bool:
        """Whether the sum is known exactly."""
        return self.low_money == self.high_money


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """What a bag is worth: the highest price at which some number of them is still bought.

    `count` is that number (nought where it is worth nothing), `plan` the plan that buys it and
    `rest` what that plan comes to with the bags as a gift [money].
    `held_by_budget` says that the budget, and not the bag, sets the price.
    """

    price: Between
    count: int
    plan: SeasonPlan | None
    rest: Fraction
    held_by_budget: bool = False


def without(problem: SeasonProblem, key: str) -> SeasonProblem:
    """The season if none of a bag could be bought; what is in the shed stays."""
    return _with(problem, key, lambda bag: replace(bag, offered=0))


def at_price(
    problem: SeasonProblem, key: str, price: Fraction, offered: int | None = None
) -> SeasonProblem:
    """The season if a bag cost so much [money]."""
    return _with(
        problem,
        key,
        lambda bag: replace(bag, price=price, offered=bag.offered if offered is None else offered),
    )


def weigh_bag(
    problem: SeasonProblem,
    key: str,
    plan_without: SeasonPlan,
    solve: Solve,
    plan_now: SeasonPlan | None = None,
) -> Weighed:
    """What a bag is worth to a season.

    Args:
        problem: the season, with the bag at its price or at any other.
        key: the bag.
        plan_without: the best plan of `without(problem, key)`.
        solve: the engine, with its effort; it is told `plan_without` and may begin from it.
        plan_now: the best plan of `problem`, if it is known, to start from.
    """
    search = _Search(problem, key, plan_without)
    bag, known = search.bag, KnownWithout(bag=key, plan=plan_without)
    if plan_now is not None and plan_now.purchases.get(key):
        search.answer(plan_now, bag.price)
    for count in dict.fromkeys((bag.offered, 1)):
        if not search.is_open or search.is_hard:
            break
        search.gain(solve(_as_a_gift(problem, key, count), known, _GIFT_WORK), count)
    for _ in range(_MOST_TURNS):
        asked = search.pays
        if not search.is_open:
            break
        search.answer(solve(at_price(problem, key, asked), known), asked)
        if search.pays == asked:
            break
    return search.done()


def _as_a_gift(problem: SeasonProblem, key: str, count: int) -> SeasonProblem:
    """So many bags for nothing: as good as one sack that holds as much."""
    return _with(
        problem, key, lambda bag: replace(bag, bag_kg=count * bag.bag_kg, price=NONE, offered=1)
    )


class _Search:
    """What is known of the highest price so far."""

    def __init__(self, problem: SeasonProblem, key: str, plan_without: SeasonPlan) -> None:
        self.problem = problem
        self.bag = next(one for one in problem.ingredients if one.key == key)
        self.without = plan_without
        self.pays = NONE
        self.low = NONE
        self.high = plan_without.value
        self.all_gain = plan_without.value
        self.count = 0
        self.plan: SeasonPlan | None = None
        self.rest = plan_without.value
        self.short_of_money = False
        self.is_hard = False

    @property
    def is_open(self) -> bool:
        """Whether a higher price than the one that surely pays could pay."""
        return self.low < self.high

    def gain(self, plan: SeasonPlan | Unmet, count: int) -> None:
        """The best plan with so many bags as a gift, all on offer or one."""
        if isinstance(plan, Unmet):
            return
        self.is_hard = plan.bound < plan.value
        gain = max(NONE, self.without.value - plan.bound)
        self.all_gain = min(self.all_gain, gain) if count == self.bag.offered else self.all_gain
        self.high = min(self.high, max(gain, self.all_gain / 2))
        if plan.purchases.get(self.bag.key):
            self.learn(plan, plan.value, self._needed(plan, count))

    def _needed(self, plan: SeasonPlan, given: int) -> int:
        """How many of the bags given a plan makes use of; at least one."""
        used_kg = check_season(_as_a_gift(self.problem, self.bag.key, given), plan).used_kg
        from_shed_kg = NONE if self.bag.shed_price_per_kg else self.bag.shed_kg
        needed = ceil((used_kg[self.bag.key] - from_shed_kg) / self.bag.bag_kg)
        return min(given, max(1, needed))

    def answer(self, plan: SeasonPlan | Unmet, asked: Fraction) -> None:
        """The best plan with all on offer at the price `asked`.

        Its bound proves that no number of bags pays much above that price; its purchases tell
        up to which price they would pay.
        """
        if isinstance(plan, Unmet):
            return
        self.high = min(self.high, asked + max(NONE, self.without.value - plan.bound))
        count = plan.purchases.get(self.bag.key, 0)
        if count:
            self.learn(plan, plan.value - count * asked, count)

    def learn(self, plan: SeasonPlan, rest: Fraction, count: int) -> None:
        """A plan that takes so many of the bag and else comes to `rest`: up to what it pays."""
        pays = (self.without.value - rest) / count
        if pays <= self.pays:
            return
        self.pays, self.count, self.plan, self.rest = pays, count, plan, rest
        affordable = self._affordable(plan, count)
        self.short_of_money = affordable < pays
        self.low = max(self.low, min((self.without.bound - rest) / count, affordable))

    def done(self) -> Weighed:
        return Weighed(
            price=Between(low_money=min(self.low, self.high), high_money=self.high),
            count=self.count,
            plan=self.plan,
            rest=self.rest,
            held_by_budget=self.short_of_money,
        )

    def _affordable(self, plan: SeasonPlan, count: int) -> Fraction:
        """The price at which this plan would use up the budget [money]."""
        if self.problem.budget is None:
            return self.without.value
        others = sum(
            (
                bag.price * plan.purchases.get(bag.key, 0)
                for bag in self.problem.ingredients
                if bag.key != self.bag.key
            ),
            NONE,
        )
        return (self.problem.budget - others) / count


def _with(
    problem: SeasonProblem, key: str, change: Callable[[Ingredient], Ingredient]
) -> SeasonProblem:
    ingredients = tuple(change(bag) if bag.key == key else bag for bag in problem.ingredients)
    return replace(problem, ingredients=ingredients)
