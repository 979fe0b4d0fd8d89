"""Reference gardens through the season engine: python -m benchmarks.season SETTING...

Settings are name=value: size=14x12x2 (bags, beds, mixes; may be given more than once), seeds=5,
kind=ordinary or hard, straights=yes or no, gap=0.02, work=1, seconds=60. Without any, a small
choice of all kinds is run. For each garden: the value of the plan, the proven bound and gap,
seconds in all, seconds until a plan within two per cent of the best found, and how many rules a
separate check finds broken. At the end, how many were proven and the median times.
"""

import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import median

from benchmarks.gardens import Garden, problem_of
from halfpail.application.ports import SeasonEffort, SeasonProgress
from halfpail.domain.season import Unmet
from halfpail.domain.season_check import check_season
from halfpail.engine.planner import Planner
from halfpail.solvers.highs import Highs

CENTS = 0.5
"""A plan counts as proven at the gap asked for or at this much money, whichever is larger."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """How one garden went; `seconds` is the whole run, `good` until a good plan was there."""

    garden: Garden
    value: float
    bound: float
    seconds: float
    good: float
    breaches: int

    @property
    def gap(self) -> float:
        """How much better a plan could still be, as a share."""
        return (self.value - self.bound) / self.value if self.value else 0.0


def run(garden: Garden, effort: SeasonEffort) -> Result | None:
    """Plan one garden; None when no plan keeps its rules."""
    news: list[SeasonProgress] = []
    problem = problem_of(garden)
    told = SeasonEffort(
        relative_gap=effort.relative_gap,
        absolute_gap=CENTS if effort.relative_gap else 0.0,
        work=effort.work,
        seconds=effort.seconds,
        on_progress=news.append,
    )
    answer = Planner(Highs()).solve(problem, told)
    if isinstance(answer, Unmet):
        return None
    value = float(answer.value)
    good = (n.seconds for n in news if n.value is not None and n.value <= 1.02 * value)
    return Result(
        garden=garden,
        value=value,
        bound=float(answer.bound),
        seconds=answer.seconds,
        good=next(good, answer.seconds),
        breaches=len(check_season(problem, answer).breaches),
    )


def gardens(settings: Sequence[tuple[str, str]]) -> Iterator[Garden]:
    """The gardens the settings ask for."""
    named = dict(settings)
    sizes = [value for name, value in settings if name == "size"] or ["8x6x2", "14x12x1"]
    hard = [named["kind"] == "hard"] if "kind" in named else [False, True]
    straight = [named["straights"] == "yes"] if "straights" in named else [True, False]
    for size in sizes:
        bags, beds, mixes = (int(part) for part in size.split("x"))
        for is_hard in hard:
            for has_straight in straight:
                for seed in range(int(named.get("seeds", "3"))):
                    yield Garden(
                        bags=bags,
                        beds=beds,
                        mixes=mixes,
                        seed=seed,
                        hard=is_hard,
                        straight=has_straight,
                    )


def main(arguments: Sequence[str]) -> None:
    """Print a line for each garden and the medians."""
    settings = [(name, value) for name, _, value in (a.partition("=") for a in arguments)]
    named = dict(settings)
    effort = SeasonEffort(
        relative_gap=float(named.get("gap", "0.02")),
        work=float(named.get("work", "1")),
        seconds=float(named.get("seconds", "60")),
    )
    print(f"{'garden':<48}{'value':>9}{'bound':>9}{'gap':>8}{'seconds':>9}{'good':>7}  broken")
    results = []
    for garden in gardens(settings):
        result = run(garden, effort)
        if result is None:
            print(f"{garden.name:<48}{'no plan':>9}", flush=True)
            continue
        results.append(result)
        print(
            f"{garden.name:<48}{result.value:>9.2f}{result.bound:>9.2f}{result.gap:>8.2%}"
            f"{result.seconds:>9.2f}{result.good:>7.2f}  {result.breaches}",
            flush=True,
        )
    _summary(results, effort)


def _summary(results: Sequence[Result], effort: SeasonEffort) -> None:
    if not results:
        return
    proven = [
        r
        for r in results
        if r.value - r.bound
        <= max(effort.relative_gap * r.value, CENTS * bool(effort.relative_gap)) + 1e-6
    ]
    print(
        f"{len(proven)} of {len(results)} proven; median gap {median(r.gap for r in results):.2%}, "
        f"seconds {median(r.seconds for r in results):.2f}, "
        f"good plan {median(r.good for r in results):.2f}; "
        f"rules broken {sum(r.breaches for r in results)}"
    )


if __name__ == "__main__":
    main(sys.argv[1:])
