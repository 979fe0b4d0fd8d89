"""What to buy for a sum of money, and what more money would make of the season."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import ceil

from halfpail.application.ports import SeasonEffort, SeasonEngine
from halfpail.domain.garden import Garden
from halfpail.domain.season import SeasonPlan, SeasonProblem, Unmet

NONE = Fraction(0)
STEPS = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """One line of a buying list [money]; `saved` beside the list price where that is known."""

    bag: str
    count: int
    price: Fraction
    cost: Fraction
    saved_money: Fraction | None


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyingList:
    """The bags a plan buys, in the order of the garden, and what they come to [money]."""

    purchases: tuple[Purchase, ...]
    cost: Fraction
    budget: Fraction | None

    @property
    def left_of_budget(self) -> Fraction | None:
        """What stays in the purse [money]; None without a budget."""
        return None if self.budget is None else self.budget - self.cost


@dataclass(frozen=True, slots=True, kw_only=True)
class BudgetPoint:
    """The best season found for so much money.

    `cost` is what its bags come to, `missed` the weight of what it misses (no money), and `value`
    everything that the plan makes least; `bound` is what no plan with this budget gets below.
    """

    budget: Fraction
    purchases: Mapping[str, int] = field(hash=False)
    cost: Fraction
    missed: Fraction
    value: Fraction
    bound: Fraction


def buying_list(garden: Garden, plan: SeasonPlan) -> BuyingList:
    """The bags that a plan buys."""
    lines = tuple(_purchases(garden, plan))
    return BuyingList(
        purchases=lines,
        cost=sum((line.cost for line in lines), NONE),
        budget=garden.preferences.budget,
    )


def _purchases(garden: Garden, plan: SeasonPlan) -> Iterator[Purchase]:
    for bag in garden.bags:
        count = plan.purchases.get(bag.key, 0)
        if count:
            price = bag.price or NONE
            saved = None if bag.list_price is None else count * (bag.list_price - price)
            yield Purchase(
                bag=bag.key, count=count, price=price, cost=count * price, saved_money=saved
            )


def budget_curve(
    problem: SeasonProblem,
    engine: SeasonEngine,
    effort: SeasonEffort = SeasonEffort(),
    steps: int = STEPS,
) -> tuple[BudgetPoint, ...]:
    """The best season for nothing, for as much as would ever be spent, and for sums between.

    The sums are whole units of money. A plan for less money is also one for more, so the curve
    never rises with the budget. Sums for which there is no plan at all are left out.
    """
    unlimited = engine.solve(replace(problem, budget=None), effort)
    if isinstance(unlimited, Unmet):
        return ()
    spent = _spent(problem, unlimited)
    budgets = sorted({min(spent, Fraction(ceil(spent * k / steps))) for k in range(steps)})
    found: list[BudgetPoint] = []
    for budget in budgets:
        plan = engine.solve(replace(problem, budget=budget), effort)
        if not isinstance(plan, Unmet):
            found.append(_point(problem, plan, budget, found))
    found.append(_point(problem, unlimited, spent, found))
    return tuple({point.budget: point for point in found}.values())


def _point(
    problem: SeasonProblem, plan: SeasonPlan, budget: Fraction, before: list[BudgetPoint]
) -> BudgetPoint:
    """The point of a plan, or the one before it under this budget where that is better."""
    if before and before[-1].value <= plan.value:
        return replace(before[-1], budget=budget, bound=min(plan.bound, before[-1].value))
    return BudgetPoint(
        budget=budget,
        purchases=plan.purchases,
        cost=_spent(problem, plan),
        missed=plan.missed,
        value=plan.value,
        bound=plan.bound,
    )


def _spent(problem: SeasonProblem, plan: SeasonPlan) -> Fraction:
    prices = {bag.key: bag.price for bag in problem.ingredients}
    return sum((prices[key] * count for key, count in plan.purchases.items()), NONE)
