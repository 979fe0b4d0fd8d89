"""Whether plans keep every rule, in exact sums: python -m benchmarks.season_rules [COUNT].

Random gardens (500 unless told) with budgets, bags that must stay apart, two mixes for a bed and
bags in the shed. Each plan is counted over by `domain.season_check`, which shares nothing with
the engine. Printed: how many gardens had a plan, and how many rules all plans break together.
"""

import sys
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from random import Random
from statistics import median

from benchmarks.gardens import Garden, problem_of
from halfpail.application.ports import SeasonEffort
from halfpail.domain.season import SeasonProblem, Unmet
from halfpail.domain.season_check import check_season
from halfpail.engine.planner import Planner
from halfpail.solvers.highs import Highs

SHORT = SeasonEffort(relative_gap=0.05, absolute_gap=0.5, work=0.05)


def random_season(seed: int) -> SeasonProblem:
    """A small garden with every kind of rule thrown in by chance."""
    chance = Random(f"rules {seed}")
    garden = Garden(
        bags=chance.randint(3, 10),
        beds=chance.randint(1, 8),
        mixes=chance.randint(1, 3),
        seed=seed,
        hard=chance.random() < 0.5,
        straight=chance.random() < 0.5,
    )
    problem = problem_of(garden)
    keys = [bag.key for bag in problem.ingredients]
    pairs = {frozenset(chance.sample(keys, 2)) for _ in range(chance.choice((0, 0, 1, 3)))}
    plots = tuple(replace(p, straight_ok=chance.random() < 0.8) for p in problem.plots)
    return replace(
        problem,
        plots=plots,
        apart=frozenset(pairs),
        budget=Fraction(chance.randint(5, 80)) if chance.random() < 0.3 else None,
        mixes_per_plot=chance.choice((1, 1, 2)) if garden.mixes > 1 else 1,
        most_scoops=chance.choice((4, 8, 12)),
        most_bags=chance.choice((1, 2, 3, 4)),
        measure=Fraction(1, chance.choice((1, 2, 4))),
    )


def main(arguments: Sequence[str]) -> None:
    """Print what all gardens come to."""
    count = int(arguments[0]) if arguments else 500
    planner, plans, broken, seconds = Planner(Highs()), 0, 0, []
    for seed in range(count):
        problem = random_season(seed)
        answer = planner.solve(problem, SHORT)
        seconds.append(answer.seconds)
        if isinstance(answer, Unmet):
            continue
        plans += 1
        for breach in check_season(problem, answer).breaches:
            broken += 1
            print(f"seed {seed}: {breach.place} {breach.sentence}", flush=True)
    print(
        f"{count} gardens: {plans} plans, {count - plans} without one; {broken} rules broken; "
        f"{median(seconds):.2f} s in the median, {max(seconds):.1f} s at worst"
    )


if __name__ == "__main__":
    main(sys.argv[1:])
