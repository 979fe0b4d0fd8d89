"""How the season engine grows with beds and bags: python -m benchmarks.season_growth SETTING...

Settings are size=14x12x2 (bags, beds, mixes; may be given more than once) and seconds=60. Each
garden is ordinary, with straight bags, seed 0, and planned to 5 % in a process of its own, so that
its memory is its own: seconds of processor time, the most memory held, value, bound and gap.
"""

import sys
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from resource import RUSAGE_SELF, getrusage

from benchmarks.gardens import Garden, problem_of
from benchmarks.season_race import Run, ours

GAP = 0.05
KIB_PER_MIB = 1024
SIZES = (
    *(f"14x{beds}x2" for beds in (12, 25, 50, 100, 200)),
    *(f"{bags}x12x2" for bags in (30, 40, 60)),
    *("30x40x3", "40x100x3"),
)


def measured(garden: Garden, limit: float) -> tuple[Run, float, float]:
    """The run, its seconds of processor time and the most memory its process held [MiB]."""
    run = ours(problem_of(garden), limit, GAP)
    usage = getrusage(RUSAGE_SELF)
    return run, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / KIB_PER_MIB


def main(arguments: Sequence[str]) -> None:
    """Print a line for each garden."""
    settings = [one.partition("=")[::2] for one in arguments]
    limit = float(dict(settings).get("seconds", "60"))
    sizes = [value for name, value in settings if name == "size"] or SIZES
    print(
        f"{'bags':>5}{'beds':>6}{'mixes':>7}{'seconds':>9}{'MiB':>7}{'value':>9}{'bound':>9}{'gap':>8}"
    )
    for size in sizes:
        bags, beds, mixes = (int(part) for part in size.split("x"))
        garden = Garden(bags=bags, beds=beds, mixes=mixes, seed=0)
        with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as child:
            run, seconds, mib = child.submit(measured, garden, limit).result()
        print(
            f"{bags:>5}{beds:>6}{mixes:>7}{seconds:>9.1f}{mib:>7.0f}{run.value:>9.2f}{run.bound:>9.2f}"
            f"{run.gap:>8.1%}",
            flush=True,
        )


if __name__ == "__main__":
    main(sys.argv[1:])
