"""What holds a plan back: the limits it stands against, in words, with the beds they touch."""

from collections.abc import Iterator, Mapping
from fractions import Fraction

from halfpail.application.pose_season import contents
from halfpail.application.tell_season import LEEWAY, NONE, foods
from halfpail.domain.garden import Garden
from halfpail.domain.season import Limit, SeasonPlan, SeasonProblem
from halfpail.domain.season_check import SeasonCheck
from halfpail.domain.stock import Bag


def held_back_by(
    garden: Garden, problem: SeasonProblem, plan: SeasonPlan, check: SeasonCheck
) -> tuple[str, ...]:
    """One sentence for each kind of limit that is in the way of a better plan.

    A bed stands against a hard limit where one more measure of what it gets would break it. A
    priced limit is told where it is missed by more than the leeway of a scoop.
    """
    known = foods(garden, plan)
    names = {bed.key: bed.name for bed in garden.beds}
    gets: dict[str, list[Bag]] = {bed.key: [] for bed in garden.beds}
    for feeding in plan.feedings:
        gets[feeding.plot].append(known[feeding.of])
    measure_l = problem.measure * problem.scoop_l
    met: dict[str, list[str]] = {}
    for limit in problem.limits:
        given_kg = check.received.get((limit.plot, limit.content), NONE)
        more_kg = min(
            (contents(bag)[limit.content] * bag.scoop_kg(measure_l) for bag in gets[limit.plot]),
            default=NONE,
        )
        if words := _in_the_way(limit, given_kg, more_kg):
            met.setdefault(words, []).append(names[limit.plot])
    beds = [f"{words}: {', '.join(where)}" for words, where in met.items()]
    return (*beds, *_of_the_whole(garden, problem, plan))


def _in_the_way(limit: Limit, given_kg: Fraction, more_kg: Fraction) -> str:
    if limit.at_least is not None:
        missed = given_kg < limit.at_least * (1 - LEEWAY)
        return f"short of {limit.because}" if missed else ""
    assert limit.at_most is not None
    if limit.price_per_kg is not None:
        passed = given_kg > limit.at_most * (1 + LEEWAY)
        return f"over, at a weight: {limit.because}" if passed else ""
    return f"against {limit.because}" if given_kg + more_kg > limit.at_most else ""


def _of_the_whole(garden: Garden, problem: SeasonProblem, plan: SeasonPlan) -> Iterator[str]:
    """Limits of the garden as a whole that the plan has used up."""
    prices = {each.key: each.price for each in problem.ingredients}
    spent = sum((prices[key] * count for key, count in plan.purchases.items()), NONE)
    cheapest = min((each.price for each in problem.ingredients if each.offered), default=NONE)
    if problem.budget is not None and spent + cheapest > problem.budget:
        yield "the budget: no further bag fits in it"
    if len(plan.stirs) == garden.preferences.mixes:
        yield f"the number of mixes: {garden.preferences.mixes}"
    for number, each in enumerate(plan.stirs, start=1):
        yield from _of_a_mix(number, each.scoops, problem)
    bought = ((bag, plan.purchases.get(bag.key, 0)) for bag in garden.bags)
    sold_out = [bag.name for bag, count in bought if count and count == bag.offered]
    if sold_out:
        yield f"all that is on offer is bought: {', '.join(sold_out)}"


def _of_a_mix(number: int, scoops: Mapping[str, int], problem: SeasonProblem) -> Iterator[str]:
    if sum(1 for count in scoops.values() if count) >= problem.most_bags:
        yield f"mix {number} has the most bags allowed, {problem.most_bags}"
    if sum(scoops.values()) >= problem.most_scoops:
        yield f"mix {number} has the most scoops allowed, {problem.most_scoops}"
