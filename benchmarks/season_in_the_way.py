"""Gardens that have no plan: python -m benchmarks.season_in_the_way [COUNT].

Reference gardens (20 unless told) in which something is asked that cannot be: a nutrient no bag
holds, money that does not reach, too little on offer, a need above a most, no phosphorus where
every bag holds some. For each: how it was spoilt, how many things are in the way, and the first
repair. A repair counts when the mended garden, planned from the start, has a plan.
"""

import sys
from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction
from time import perf_counter

from benchmarks.gardens import Garden, problem_of
from halfpail.application.mend_season import Bench, mend_season
from halfpail.application.ports import SeasonEffort
from halfpail.application.season_in_the_way import SeasonWords
from halfpail.domain.bed import Content
from halfpail.domain.season import Limit, SeasonPlan, SeasonProblem, Unmet
from halfpail.domain.season_check import check_season
from halfpail.engine.planner import Planner
from halfpail.solvers.highs import Highs

BENCH = Bench(
    engine=Planner(Highs()),
    solver=Highs(),
    words=SeasonWords(),
    effort=SeasonEffort(relative_gap=0.05, absolute_gap=0.5, work=0.2),
)


def needs_hold(problem: SeasonProblem) -> SeasonProblem:
    """The garden with its needs of nitrogen made hard, so that they can be in the way."""
    limits = tuple(
        replace(limit, price_per_kg=None)
        if limit.at_least is not None and limit.content is Content.N_TYPICAL
        else limit
        for limit in problem.limits
    )
    return replace(problem, limits=limits)


def no_magnesium(problem: SeasonProblem) -> SeasonProblem:
    """A bed that cannot do without something no bag holds."""
    wanted = Limit(plot=problem.plots[0].key, content=Content.MG, at_least=Fraction(1, 10))
    return replace(problem, limits=(*problem.limits, wanted))


def no_money(problem: SeasonProblem) -> SeasonProblem:
    """Needs that hold, and next to no money."""
    bags = tuple(replace(bag, shed_kg=Fraction(0)) for bag in problem.ingredients)
    return replace(needs_hold(problem), ingredients=bags, budget=Fraction(1))


def few_bags(problem: SeasonProblem) -> SeasonProblem:
    """Needs that hold, and one small bag of a kind on offer."""
    bags = tuple(
        replace(bag, shed_kg=Fraction(0), bag_kg=Fraction(1, 10), offered=1)
        for bag in problem.ingredients
    )
    return replace(needs_hold(problem), ingredients=bags)


def need_above_most(problem: SeasonProblem) -> SeasonProblem:
    """A bed whose need of potash lies above what it may get."""
    plot = problem.plots[0].key
    wanted = Limit(plot=plot, content=Content.K2O, at_least=Fraction(2))
    most = Limit(plot=plot, content=Content.K2O, at_most=Fraction(1))
    return replace(problem, limits=(*problem.limits, wanted, most))


def phosphorus_with_all(problem: SeasonProblem) -> SeasonProblem:
    """Needs that hold on beds that may get no phosphorus, and all bags hold some."""
    bags = tuple(
        replace(bag, contents={**bag.contents, Content.P2O5: Fraction(1, 50)})
        for bag in problem.ingredients
    )
    first = needs_hold(problem)
    plot = next(
        one.plot for one in first.limits if one.at_least and one.content is Content.N_TYPICAL
    )
    none = Limit(plot=plot, content=Content.P2O5, at_most=Fraction(0))
    return replace(first, ingredients=bags, limits=(*first.limits, none))


SPOILT: tuple[Callable[[SeasonProblem], SeasonProblem], ...] = (
    no_magnesium,
    no_money,
    few_bags,
    need_above_most,
    phosphorus_with_all,
)


def main(arguments: Sequence[str]) -> None:
    """Print a line for each garden."""
    count, done = int(arguments[0]) if arguments else 20, 0
    for number in range(count):
        spoil = SPOILT[number % len(SPOILT)]
        garden = Garden(bags=8, beds=6, mixes=1 + number % 2, seed=number)
        problem, began = spoil(problem_of(garden)), perf_counter()
        unmet = BENCH.engine.solve(problem, BENCH.effort)
        assert isinstance(unmet, Unmet), garden.name
        mending = mend_season(problem, unmet, BENCH)
        does = mending.in_the_way and any(_does(one.problem) for one in mending.repairs)
        done += bool(does)
        told = mending.repairs[0].sentence if mending.repairs else "no repair"
        print(
            f"{spoil.__name__:<20}{len(mending.in_the_way):>3} in the way  "
            f"{perf_counter() - began:>5.1f} s  {told}",
            flush=True,
        )
    print(f"{done} of {count} end in what is in the way and a repair that does")


def _does(problem: SeasonProblem) -> bool:
    plan = BENCH.engine.solve(problem, BENCH.effort)
    return isinstance(plan, SeasonPlan) and not check_season(problem, plan).breaches


if __name__ == "__main__":
    main(sys.argv[1:])
