"""The proven best recipes of a problem: all are tried or, where they are too many, a solver asked.

Either way the last word is exact: of a shortlist that holds the best for certain, or of what a
solver proposed with its gap closed.
"""

from dataclasses import dataclass

from halfpail.blending.aims import curve, different_bags
from halfpail.blending.ports import Sieve, Solver
from halfpail.blending.scoops import (
    ScoopProblem,
    Weighed,
    truly_different,
    undominated,
    weigh,
)

MOST_TRIED = 60_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Searched:
    """All undominated recipes, cheapest first, and the best of truly different sets of bags."""

    curve: tuple[Weighed, ...]
    different_by_cost: tuple[Weighed, ...]
    different_by_distance: tuple[Weighed, ...]
    proven_by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Search:
    """The two ways to a proof; a sieve beyond `most_tried` recipes gives way to the solver."""

    sieve: Sieve
    solver: Solver
    most_tried: int = MOST_TRIED

    def tries_all(self, problem: ScoopProblem) -> bool:
        """Whether the problem is small enough to try every recipe."""
        return self.sieve.most_recipes(problem) <= self.most_tried

    def find(self, problem: ScoopProblem, different: int = 0) -> Searched:
        """The curve, and up to `different` recipes of truly different bags by cost and distance."""
        if self.tries_all(problem):
            return self._by_trying(problem, different)
        return self._by_solver(problem, different)

    def _by_trying(self, problem: ScoopProblem, different: int) -> Searched:
        shortlist = self.sieve.sift(problem, different)
        recipes = weigh(problem, shortlist.recipes)
        return Searched(
            curve=tuple(undominated(recipes)),
            different_by_cost=_first(recipes, different, by_cost=True),
            different_by_distance=_first(recipes, different, by_cost=False),
            proven_by=f"every recipe was tried, {shortlist.tried:,} of them",
        )

    def _by_solver(self, problem: ScoopProblem, different: int) -> Searched:
        recipes = different_bags(problem, self.solver, different)
        return Searched(
            curve=tuple(curve(problem, self.solver)),
            different_by_cost=_first(recipes, different, by_cost=True),
            different_by_distance=_first(recipes, different, by_cost=False),
            proven_by=f"{self.solver.name} left no better one open",
        )


def _first(recipes: list[Weighed], most: int, *, by_cost: bool) -> tuple[Weighed, ...]:
    ordered = sorted(recipes, key=lambda one: one.by_cost if by_cost else one.by_distance)
    return tuple(truly_different(ordered, most))
