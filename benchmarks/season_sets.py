"""The reference gardens in sets of 20, planned within ten seconds each.

    python -m benchmarks.season_sets [SECONDS [SEEDS]]

Ordinary and hard gardens, with and without straight bags: 8 bags and 6 beds with two mixes, 14 bags
and 12 beds with one, two and three, SEEDS (5) of each. Every garden is held to SECONDS (10) of
processor time, so that other work on the machine spoils nothing. For each set: how many are proven
to 2 % or 50 cents, the middle of the seconds to the proof and to a plan within 2 % of the best, the
middle gap, and what stays open.
"""

import sys
from statistics import median

from benchmarks.gardens import Garden, problem_of
from benchmarks.season_race import Run, is_proven, ours

SECONDS, SEEDS = 10.0, 5
SIZES = ((8, 6, 2), (14, 12, 1), (14, 12, 2), (14, 12, 3))


def one_set(*, hard: bool, straight: bool, seconds: float, seeds: int) -> list[tuple[Garden, Run]]:
    """Every garden of a set with how it went; one without any plan is left out."""
    found = []
    for bags, beds, mixes in SIZES:
        for seed in range(seeds):
            garden = Garden(
                bags=bags, beds=beds, mixes=mixes, seed=seed, hard=hard, straight=straight
            )
            run = ours(problem_of(garden), seconds)
            if run.news:
                found.append((garden, run))
    return found


def main(seconds: float = SECONDS, seeds: int = SEEDS) -> None:
    """Print a line for each set, and a line for each garden that is not proven."""
    for hard in (False, True):
        for straight in (True, False):
            runs = one_set(hard=hard, straight=straight, seconds=seconds, seeds=seeds)
            proven = [run for _, run in runs if is_proven(run.value, run.bound)]
            name = f"{'hard' if hard else 'ordinary'}, {'' if straight else 'no '}straights"
            print(
                f"{name}: {len(proven)} of {len(runs)} proven in {seconds:g} s; "
                f"middle: proof {median(run.proven for _, run in runs):.2f} s, good plan "
                f"{median(run.good(run.value) for _, run in runs):.2f} s, "
                f"gap {median(run.gap for _, run in runs):.2%}",
                flush=True,
            )
            for garden, run in runs:
                if not is_proven(run.value, run.bound):
                    print(f"  open: {garden.name}, {run.value:.2f}, gap {run.gap:.1%}", flush=True)


if __name__ == "__main__":
    told = sys.argv[1:]
    main(float(told[0]) if told else SECONDS, int(told[1]) if told[1:] else SEEDS)
