"""The season engine beside SCIP on models of the books: python -m benchmarks.season_race SETTING...

Settings are those of benchmarks.season (size, seeds, kind, straights), and seconds=60 for each
run. Every run is held to seconds of processor time, not of the clock, so that other work on the
machine spoils nothing; all take one thread and stop at a gap of 2 % or 50 cents. For each garden
and each contender: the value, the bound, the gap, seconds to a plan within 2 % of the best that
any found, and seconds to the proof. A run that is not done counts as the limit.
"""

import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from math import inf
from statistics import median
from time import process_time

from benchmarks.bare_season import by_shares, textbook
from benchmarks.gardens import Garden, problem_of
from benchmarks.season import CENTS, gardens
from halfpail.application.ports import SeasonEffort, SeasonProgress
from halfpail.blending.ports import Effort
from halfpail.blending.programme import Programme
from halfpail.domain.season import SeasonProblem, Unmet
from halfpail.engine.planner import Planner
from halfpail.solvers.highs import Highs
from halfpail.solvers.scip import Scip

GAP = 0.02
OURS = "ours"
BARE: dict[str, Callable[[SeasonProblem], Programme]] = {
    "textbook": textbook,
    "shares": by_shares,
}


@dataclass(slots=True)
class Run:
    """One contender on one garden: its news as (value, bound, seconds of processor time)."""

    name: str
    limit: float
    began: float = field(default_factory=process_time)
    news: list[tuple[float, float, float]] = field(default_factory=list)

    def tell(self, value: float | None, bound: float | None) -> None:
        """Keep what has become better."""
        best, proven = (self.value, self.bound)
        now = (best if value is None else min(best, value), max(proven, bound or 0.0))
        if now != (best, proven) or not self.news:
            self.news.append((*now, process_time() - self.began))

    @property
    def value(self) -> float:
        """The best plan so far [money]."""
        return self.news[-1][0] if self.news else inf

    @property
    def bound(self) -> float:
        """What no plan is below [money]."""
        return self.news[-1][1] if self.news else 0.0

    @property
    def gap(self) -> float:
        """How much better a plan could still be, as a share; all of it where there is none."""
        return max(0.0, 1 - self.bound / self.value) if 0 < self.value < inf else 1.0

    def good(self, best: float) -> float:
        """Seconds to a plan within two per cent of the best."""
        most = best + max(GAP * best, CENTS)
        return next((s for value, _, s in self.news if value <= most), self.limit)

    @property
    def proven(self) -> float:
        """Seconds to the proof."""
        done = (s for value, bound, s in self.news if is_proven(value, bound))
        return min(next(done, self.limit), self.limit)

    def is_over(self) -> bool:
        """Whether its seconds are used up."""
        return process_time() - self.began > self.limit


def is_proven(value: float, bound: float) -> bool:
    """Within two per cent or fifty cents, whichever is larger."""
    return value < inf and value - bound <= max(GAP * value, CENTS) + 1e-6


def ours(problem: SeasonProblem, limit: float, gap: float = GAP) -> Run:
    """The season engine, held to seconds of processor time."""
    run = Run(OURS, limit)

    def hear(news: SeasonProgress) -> None:
        run.tell(news.value, news.bound)

    answer = Planner(Highs()).solve(
        problem,
        SeasonEffort(
            relative_gap=gap, absolute_gap=CENTS, on_progress=hear, should_stop=run.is_over
        ),
    )
    if not isinstance(answer, Unmet):
        run.tell(float(answer.value), float(answer.bound))
    return run


def bare(name: str, problem: SeasonProblem, limit: float) -> Run:
    """SCIP on a model as it is."""
    run = Run(name, limit)
    programme = BARE[name](problem)
    outcome = Scip().solve(
        programme,
        Effort(relative_gap=GAP, absolute_gap=CENTS, on_progress=run.tell, should_stop=run.is_over),
    )
    run.tell(outcome.value, outcome.bound)
    return run


def race(garden: Garden, limit: float) -> list[Run]:
    """All contenders on one garden, ours first."""
    problem = problem_of(garden)
    return [ours(problem, limit), *(bare(name, problem, limit) for name in BARE)]


def main(arguments: Sequence[str]) -> None:
    """Print a line for each garden and contender, and what they come to."""
    settings = [(name, value) for name, _, value in (a.partition("=") for a in arguments)]
    limit = float(dict(settings).get("seconds", "20"))
    print(f"{'garden':<44}{'by':<10}{'value':>9}{'bound':>9}{'gap':>8}{'good':>7}{'proven':>8}")
    races = []
    for garden in gardens(settings or [("size", "8x6x2"), ("seeds", "2")]):
        runs = race(garden, limit)
        best = min(run.value for run in runs)
        for run in runs:
            print(
                f"{garden.name:<44}{run.name:<10}{run.value:>9.2f}{run.bound:>9.2f}"
                f"{run.gap:>8.1%}{run.good(best):>7.1f}{run.proven:>8.1f}",
                flush=True,
            )
        races.append((best, runs))
    _sum_up(races)


def _sum_up(races: Sequence[tuple[float, Sequence[Run]]]) -> None:
    for number, first in enumerate(races[0][1]):
        runs = [(best, each[number]) for best, each in races]
        done = sum(is_proven(run.value, run.bound) for _, run in runs)
        print(
            f"{first.name}: {done} of {len(runs)} proven; median gap "
            f"{median(run.gap for _, run in runs):.1%}, good plan "
            f"{median(run.good(best) for best, run in runs):.1f} s, proof "
            f"{median(run.proven for _, run in runs):.1f} s"
        )
    faster = [min(r.proven for r in runs[1:]) / max(runs[0].proven, 0.01) for _, runs in races]
    tighter = sum(runs[0].gap <= min(r.gap for r in runs[1:]) + 1e-9 for _, runs in races)
    print(
        f"to the proof ours is {median(faster):.1f} times as fast as the better model, in the "
        f"median; its gap is no wider on {tighter} of {len(races)}"
    )


if __name__ == "__main__":
    main(sys.argv[1:])
