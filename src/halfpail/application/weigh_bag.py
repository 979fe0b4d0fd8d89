"""The highest price worth paying for one bag: the season without it against the season with it.

A season plan buys n bags at a price exactly if what the rest then costs, plus n times the price, is
less than the best plan without the bag. So the highest price is the largest, over all n, of

    (value of the best plan without it - value of the rest with n bags given free) / n.

The search starts from one n and asks at the price found whether any number of bags still pays; the
plan that answers yes gives the next, higher price. It ends when none pays.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from math import inf

from halfpail.domain.season import Ingredient, SeasonPlan, SeasonProblem, Unmet

NONE = Fraction(0)
_MOST_TURNS = 12

Solve = Callable[[SeasonProblem], SeasonPlan | Unmet]


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
        solve: the engine, with its effort.
        plan_now: the best plan of `problem`, if it is known, to start from.
    """
    search = _Search(problem, key, plan_without)
    offered = search.bag.offered
    if plan_now is not None and plan_now.purchases.get(key):
        search.answer(plan_now, search.bag.price)
    else:
        one_free = solve(at_price(problem, key, NONE, offered=1))
        (search.answer if offered == 1 else search.learn)(one_free, NONE)
    for _ in range(_MOST_TURNS):
        asked = search.pays
        if search.low >= search.high:
            break
        search.answer(solve(at_price(problem, key, asked)), asked)
        if search.pays == asked:
            break
    return search.done()


class _Search:
    """What is known of the highest price so far."""

    def __init__(self, problem: SeasonProblem, key: str, plan_without: SeasonPlan) -> None:
        self.problem = problem
        self.bag = next(one for one in problem.ingredients if one.key == key)
        self.without = plan_without
        self.pays = NONE
        self.low = NONE
        self.high: Fraction | float = inf
        self.count = 0
        self.plan: SeasonPlan | None = None
        self.rest = plan_without.value
        self.short_of_money = False

    def learn(self, plan: SeasonPlan | Unmet, price: Fraction) -> None:
        """A plan that buys some of the bag at `price` tells up to which price it would pay."""
        if isinstance(plan, Unmet):
            return
        count = plan.purchases.get(self.bag.key, 0)
        if not count:
            return
        rest = plan.value - count * price
        pays = (self.without.value - rest) / count
        if pays <= self.pays:
            return
        self.pays, self.count, self.plan, self.rest = pays, count, plan, rest
        affordable = self._affordable(plan, count)
        self.short_of_money = affordable < pays
        self.low = max(self.low, min((self.without.bound - rest) / count, affordable))

    def answer(self, plan: SeasonPlan | Unmet, asked: Fraction) -> None:
        """The best plan with all on offer at the price `asked`.

        Its bound proves that no number of bags pays much above that price; its purchases tell
        up to which price they would pay.
        """
        if not isinstance(plan, Unmet):
            self.high = min(self.high, asked + max(NONE, self.without.value - plan.bound))
            self.learn(plan, asked)

    def done(self) -> Weighed:
        high = self.high if isinstance(self.high, Fraction) else self.without.value
        return Weighed(
            price=Between(low_money=min(self.low, high), high_money=high),
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
