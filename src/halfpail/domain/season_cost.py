"""What mixes and feedings come to in whole bags: the cheapest purchases that serve them."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from math import ceil

from halfpail.domain.season import Ingredient, SeasonPlan, SeasonProblem
from halfpail.domain.season_check import check_season


def cheapest_purchase(bag: Ingredient, used_kg: Fraction) -> int:
    """How many bags to buy beside the shed at least money, for a weight used [kg].

    As many as are missing; more only where the shed is dearer than a bag. Where too few are
    offered it is still what would be needed.

    >>> bag = Ingredient(key="meal", contents={}, scoop_kg=Fraction(1), bag_kg=Fraction(5),
    ...     price=Fraction(8), shed_kg=Fraction(2), offered=3)
    >>> cheapest_purchase(bag, Fraction(8)), cheapest_purchase(bag, Fraction(2))
    (2, 0)
    """
    fewest = max(0, ceil((used_kg - bag.shed_kg) / bag.bag_kg)) if bag.bag_kg else 0
    most = min(bag.offered, max(fewest, ceil(used_kg / bag.bag_kg))) if bag.bag_kg else 0

    def money(count: int) -> Fraction:
        from_shed_kg = max(Fraction(0), used_kg - count * bag.bag_kg)
        return count * bag.price + from_shed_kg * bag.shed_price_per_kg

    return min(range(fewest, max(fewest, most) + 1), key=lambda count: (money(count), count))


def recost(problem: SeasonProblem, plan: SeasonPlan) -> SeasonPlan:
    """The same mixes and feedings, bought and counted anew in a problem that may have changed.

    Money and misses [money] are those of this problem; nothing is proven of the plan any more.

    >>> from halfpail.domain.season import Feeding, Plot
    >>> bag = Ingredient(key="meal", contents={}, scoop_kg=Fraction(1), bag_kg=Fraction(5),
    ...     price=Fraction(8), offered=3, may_go_straight=True)
    >>> problem = SeasonProblem(ingredients=(bag,), plots=(Plot(key="east"),), limits=(),
    ...     mixes=1, most_scoops=4, most_bags=2)
    >>> old = SeasonPlan(stirs=(), feedings=(Feeding(plot="east", of="meal", measures=24),),
    ...     purchases={"meal": 3}, money=Fraction(30), missed=Fraction(0), bound=Fraction(30),
    ...     proven_by="hand")
    >>> recost(problem, old).purchases, recost(problem, old).money
    ({'meal': 2}, Fraction(16, 1))
    """
    used_kg = check_season(problem, plan).used_kg
    purchases = _purchases(problem, used_kg)
    bought = replace(plan, purchases=purchases, bound=Fraction(0), proven_by="nothing yet")
    check = check_season(problem, bought)
    return replace(bought, money=check.money, missed=check.missed)


def _purchases(problem: SeasonProblem, used_kg: Mapping[str, Fraction]) -> dict[str, int]:
    counts = {bag.key: cheapest_purchase(bag, used_kg[bag.key]) for bag in problem.ingredients}
    return {key: count for key, count in counts.items() if count}
