"""What a solver must offer, and how much effort it may spend."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol

from halfpail.blending.programme import Outcome, Programme
from halfpail.blending.scoops import ScoopProblem, Scoops


class Ability(StrEnum):
    """What a solver can do beyond a linear programme."""

    WHOLE = "whole columns"
    PRODUCTS = "products of columns"
    PRICES = "row prices"


@dataclass(frozen=True, slots=True, kw_only=True)
class Effort:
    """Limits of one solve. Work limits (nodes) keep answers repeatable; seconds is a safety net.

    `cutoff` says that only values better than it matter; `start` is a point to begin from;
    `on_progress(value or None, bound or None)` is told of news; `should_stop()` ends early.
    `ranges` asks for the ranges of costs and limits as well (linear programmes only).
    """

    relative_gap: float = 0.0
    absolute_gap: float = 0.0
    nodes: int | None = None
    seconds: float | None = None
    cutoff: float | None = None
    start: tuple[float, ...] | None = None
    on_progress: Callable[[float | None, float | None], None] | None = None
    should_stop: Callable[[], bool] | None = None
    ranges: bool = False


class Solver(Protocol):
    """One door to one solver."""

    name: str
    abilities: frozenset[Ability]

    def solve(self, programme: Programme, effort: Effort = Effort()) -> Outcome:
        """The best point within the effort, its value and the proven bound."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Shortlist:
    """Recipes among which, for certain, are the ones asked for, and how many were tried."""

    recipes: tuple[Scoops, ...]
    tried: int


class Sieve(Protocol):
    """Tries every recipe of a problem and keeps the few worth an exact look."""

    def most_recipes(self, problem: ScoopProblem) -> int:
        """How many recipes there are to try."""
        ...

    def sift(self, problem: ScoopProblem, different: int, *, by_cost: bool = True) -> Shortlist:
        """Every undominated recipe, and `different` best ones of truly different bags."""
        ...
