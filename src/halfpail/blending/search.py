"""The proven best recipes of a problem: all are tried or, where they are too many, a solver asked.

Either way the last word is exact: of a shortlist that holds the best for certain, or of what a
solver proposed with its gap closed.
"""

from dataclasses import dataclass
from math import comb

from halfpail.blending.aims import curve, different_bags
from halfpail.blending.ports import Sieve, Solver
from halfpail.blending.scoops import (
    ScoopProblem,
    Weighed,
    truly_different,
    undominated,
    weigh,
)

MOST_TRIED = 300_000_000
MOST_WAYS = 1_000_000
"""Of sharing out the scoops among some bags: more than this are slow to write out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Searched:
    """All undominated recipes, cheapest first, and the best of truly different sets of bags."""

    curve: tuple[Weighed, ...]
    different: tuple[Weighed, ...]
    proven_by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Search:
    """The two ways to a proof; a sieve beyond `most_tried` recipes gives way to the solver."""

    sieve: Sieve
    solver: Solver
    most_tried: int = MOST_TRIED

    def tries_all(self, problem: ScoopProblem) -> bool:
        """Whether the problem is small enough to try every recipe."""
        in_mix = range(1, min(problem.most_bags, problem.most_scoops, len(problem.bags)) + 1)
        ways = max(comb(problem.most_scoops, bags) for bags in in_mix)
        return ways <= MOST_WAYS and self.sieve.most_recipes(problem) <= self.most_tried

    def find(self, problem: ScoopProblem, different: int = 0, *, by_cost: bool = True) -> Searched:
        """The curve, and the `different` best of truly different bags, by cost or distance."""
        if self.tries_all(problem):
            return self._by_trying(problem, different, by_cost=by_cost)
        return self._by_solver(problem, different, by_cost=by_cost)

    def _by_trying(self, problem: ScoopProblem, different: int, *, by_cost: bool) -> Searched:
        shortlist = self.sieve.sift(problem, different, by_cost=by_cost)
        recipes = weigh(problem, shortlist.recipes)
        return Searched(
            curve=tuple(undominated(recipes)),
            different=_first(recipes, different, by_cost=by_cost),
            proven_by=f"every recipe was tried or ruled out, {shortlist.tried:,} of them",
        )

    def _by_solver(self, problem: ScoopProblem, different: int, *, by_cost: bool) -> Searched:
        recipes = different_bags(problem, self.solver, different)
        return Searched(
            curve=tuple(curve(problem, self.solver)),
            different=_first(recipes, different, by_cost=by_cost),
            proven_by=f"{self.solver.name} left no better one open",
        )


def _first(recipes: list[Weighed], most: int, *, by_cost: bool) -> tuple[Weighed, ...]:
    ordered = sorted(recipes, key=lambda one: one.by_cost if by_cost else one.by_distance)
    return tuple(truly_different(ordered, most))
