"""A plan whose amounts are of a few sizes: one cup for these beds, another for those.

Recipes, rounds and bags stay as they are. For one mix or straight bag after another the sizes, and
which bed gets which, are chosen so that money and misses stay least, proven by the solver; what
else a bed gets is taken as it then stands.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import floor

from halfpail.blending.ports import Solver
from halfpail.blending.programme import Column, Programme, Row, Status
from halfpail.blending.season_rows import Food
from halfpail.domain.season import Feeding, Limit, SeasonPlan, SeasonProblem
from halfpail.domain.season_check import check_season
from halfpail.domain.season_cost import recost

NONE = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupedDoses:
    """The plan in a few sizes [scoops] of each food, and what that costs beside free amounts.

    `worse_money` counts misses in.
    """

    plan: SeasonPlan
    sizes: Mapping[Food, tuple[Fraction, ...]] = field(hash=False)
    worse_money: Fraction


def group_doses(
    problem: SeasonProblem, plan: SeasonPlan, most_sizes: int, solver: Solver
) -> GroupedDoses | None:
    """The plan with at most so many sizes of each food; None where hard limits forbid it."""
    grouped = plan
    for food in dict.fromkeys(each.of for each in plan.feedings):
        found = _grouped(problem, grouped, food, most_sizes, solver)
        if found is None:
            return None
        grouped = found
    counted = recost(problem, grouped)
    bound = min(plan.bound, counted.value)
    counted = replace(counted, bound=bound, proven_by=plan.proven_by, seconds=plan.seconds)
    if check_season(problem, counted).breaches:
        return None
    return GroupedDoses(
        plan=counted, sizes=_sizes(problem, counted), worse_money=counted.value - plan.value
    )


def _sizes(problem: SeasonProblem, plan: SeasonPlan) -> dict[Food, tuple[Fraction, ...]]:
    sizes: dict[Food, set[int]] = {}
    for each in plan.feedings:
        sizes.setdefault(each.of, set()).add(each.measures)
    return {
        food: tuple(problem.measure * measures for measures in sorted(found))
        for food, found in sizes.items()
    }


def _grouped(
    problem: SeasonProblem, plan: SeasonPlan, food: Food, most_sizes: int, solver: Solver
) -> SeasonPlan | None:
    """The plan with few sizes of one food: sum(weight * gets) is least.

    Each bed gets one size, only sizes in use, few of them, and in all no more than there is.
    """
    most = _most_measures(problem, plan, food)
    fed = [each for each in plan.feedings if each.of == food]
    weights = {
        (bed.plot, size): weight
        for bed in fed
        for size in range(1, most + 1)
        if (weight := _weight(problem, plan, bed, size)) is not None
    }
    sizes = sorted({size for _, size in weights})
    if not sizes:
        return None
    columns = [Column(name=f"size {size}", high=1, whole=True) for size in sizes]
    in_use = {size: at for at, size in enumerate(sizes)}
    gets = {pair: len(columns) + at for at, pair in enumerate(weights)}
    columns += [
        Column(name=f"{plot} gets {size}", high=1, cost=float(weight), whole=True)
        for (plot, size), weight in weights.items()
    ]
    few = tuple((at, 1.0) for at in in_use.values())
    there = tuple((at, float(size)) for (_, size), at in gets.items())
    rows = [
        Row(name="few sizes", terms=few, at_most=most_sizes),
        Row(name="no more than there is", terms=there, at_most=most),
    ]
    rows += [
        Row(name="in use", terms=((at, 1.0), (in_use[size], -1.0)), at_most=0)
        for (_, size), at in gets.items()
    ]
    for bed in fed:
        one = tuple((at, 1.0) for (plot, _), at in gets.items() if plot == bed.plot)
        rows.append(Row(name="one size each", terms=one, at_least=1, at_most=1))
    outcome = solver.solve(Programme(columns=tuple(columns), rows=tuple(rows)))
    if outcome.status is not Status.OPTIMAL:
        return None
    chosen = {plot: size for (plot, size), at in gets.items() if outcome.point[at] > 0.5}
    return replace(
        plan,
        feedings=tuple(
            replace(each, measures=chosen[each.plot]) if each.of == food else each
            for each in plan.feedings
        ),
    )


def _most_measures(problem: SeasonProblem, plan: SeasonPlan, food: Food) -> int:
    """How many measures there are of a food in all."""
    if isinstance(food, int):
        stir = plan.stirs[food]
        return floor(stir.rounds * sum(stir.scoops.values()) / problem.measure)
    bag = next(bag for bag in problem.ingredients if bag.key == food)
    bought_kg = plan.purchases.get(food, 0) * bag.bag_kg
    stirred = sum(stir.rounds * stir.scoops.get(food, 0) for stir in plan.stirs)
    left_kg = bag.shed_kg + bought_kg - stirred * bag.scoop_kg
    return floor(left_kg / (problem.measure * bag.scoop_kg))


def _weight(
    problem: SeasonProblem, plan: SeasonPlan, bed: Feeding, measures: int
) -> Fraction | None:
    """What a bed misses with so much of one food [money]; None where a hard limit breaks."""
    others = tuple(one for one in plan.feedings if one.plot == bed.plot and one.of != bed.of)
    only = replace(plan, feedings=(*others, replace(bed, measures=measures)))
    limits = tuple(limit for limit in problem.limits if limit.plot == bed.plot)
    received = check_season(replace(problem, limits=limits), only).received
    weight = NONE
    for limit in limits:
        miss_kg = _miss_kg(limit, received.get((limit.plot, limit.content), NONE))
        if miss_kg and limit.price_per_kg is None:
            return None
        weight += miss_kg * (limit.price_per_kg or NONE)
    return weight


def _miss_kg(limit: Limit, got_kg: Fraction) -> Fraction:
    short = limit.at_least - got_kg if limit.at_least is not None else NONE
    over = got_kg - limit.at_most if limit.at_most is not None else NONE
    return max(short, over, NONE)
