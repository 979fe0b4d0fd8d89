"""What the use cases ask of the floor below: an engine for the season."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Protocol, TypeVar

from halfpail.domain.season import SeasonPlan, SeasonProblem, Unmet

T = TypeVar("T")
R = TypeVar("R")


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonProgress:
    """News from a running engine: value of the best plan, proven bound, seconds gone."""

    value: float | None
    bound: float | None
    seconds: float


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownWithout:
    """The best plan that buys none of one bag, with its bound: it may have any price and weight."""

    bag: str
    plan: SeasonPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonEffort:
    """How far to go. The answer is repeatable while only `work` and the gaps end the search.

    The search ends once a better plan could save at most `relative_gap` of the value or
    `absolute_gap` of money, whichever is larger. `work` scales every inner limit (1 is meant
    for about ten seconds); `seconds` is a safety net for slow machines; `should_stop` keeps the
    best plan found so far. With `without` only plans that use a certain bag need to be looked at;
    if none of them is better the known plan is the answer.
    """

    relative_gap: float = 0.0
    absolute_gap: float = 0.0
    work: float = 1.0
    seconds: float | None = None
    on_progress: Callable[[SeasonProgress], None] | None = None
    should_stop: Callable[[], bool] | None = None
    without: KnownWithout | None = None


class SeasonEngine(Protocol):
    """Finds a plan for the season and proves how good it is."""

    def solve(
        self, problem: SeasonProblem, effort: SeasonEffort = SeasonEffort()
    ) -> SeasonPlan | Unmet:
        """The best plan found with its proven bound, or why there is none."""
        ...


class Each(Protocol):
    """Works on many things, one after the other or at once; answers come in the order asked."""

    def __call__(self, work: Callable[[T], R], items: Iterable[T], /) -> Iterator[R]:
        """The answer for each."""
        ...
