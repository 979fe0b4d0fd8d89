"""All recipes in whole scoops over a few bags, as rows of one array."""

from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from math import gcd

import numpy as np

from halfpail.domain.season import SeasonProblem
from halfpail.engine.figures import Figures, Floats, Wholes

Recipe = tuple[int, ...]
"""Scoops by bag, in lowest terms: a round of twice as much is two rounds of half."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixes:
    """Recipes with their contents and bag shares in one measure."""

    scoops: Wholes
    share: Floats
    contents: Floats

    def only(self, rows: np.ndarray) -> "Mixes":
        """The recipes in these rows."""
        return Mixes(scoops=self.scoops[rows], share=self.share[rows], contents=self.contents[rows])


def mixes_of(figures: Figures, scoops: Wholes) -> Mixes:
    """Contents and shares of recipes given as rows of scoops; a row of noughts is no mix."""
    share = scoops / np.maximum(scoops.sum(axis=1, keepdims=True), 1)
    return Mixes(scoops=scoops, share=share, contents=share @ figures.contents)


def all_recipes(problem: SeasonProblem, bags: list[int], most_bags: int | None = None) -> Wholes:
    """Every recipe over `bags` (by number) within the problem's scoops, bags and apart pairs."""
    most = min(most_bags or problem.most_bags, len(bags))
    width = len(problem.ingredients)
    blocks = [np.zeros((0, width), dtype=np.int64)]
    for size in range(1, most + 1):
        shape = parts(size, problem.most_scoops)
        for chosen in combinations(bags, size):
            if may_meet(problem, chosen):
                block = np.zeros((len(shape), width), dtype=np.int64)
                block[:, chosen] = shape
                blocks.append(block)
    return np.concatenate(blocks)


def may_meet(problem: SeasonProblem, bags: tuple[int, ...]) -> bool:
    """Whether no two of these bags must stay apart."""
    keys = [problem.ingredients[bag].key for bag in bags]
    return not any(frozenset(pair) in problem.apart for pair in combinations(keys, 2))


@lru_cache(maxsize=64)
def parts(size: int, most: int) -> Wholes:
    """Whole parts of at least one each, at most `most` in all, in lowest terms."""
    found = [[n] for n in range(1, most + 1)]
    for _ in range(size - 1):
        found = [[*row, n] for row in found for n in range(1, most - sum(row) + 1)]
    return np.array([row for row in found if gcd(*row) == 1], dtype=np.int64).reshape(-1, size)


def closest_recipes(figures: Figures, shares: Floats) -> list[Recipe]:
    """Recipes near a mix of free volume shares: for each number of scoops the nearest whole parts.

    Bags beyond the most allowed are dropped, smallest first; apart pairs keep the larger bag.
    """
    problem = figures.problem
    kept: list[int] = []
    for bag in np.argsort(-shares, kind="stable"):
        fits = shares[bag] > 0.01 and figures.may_mix[bag] and len(kept) < problem.most_bags
        if fits and may_meet(problem, (*kept, int(bag))):
            kept.append(int(bag))
    if not kept:
        return []
    part = shares[kept] / shares[kept].sum()
    found: dict[Recipe, None] = {}
    for scoops in range(1, problem.most_scoops + 1):
        whole = np.floor(part * scoops).astype(int)
        order = np.argsort(whole - part * scoops, kind="stable")
        whole[order[: scoops - whole.sum()]] += 1
        recipe = np.zeros(figures.bags, dtype=int)
        recipe[kept] = whole
        found[lowest_terms(tuple(int(n) for n in recipe))] = None
    return list(found)


def lowest_terms(recipe: Recipe) -> Recipe:
    """Divide by the greatest common number of scoops.

    >>> lowest_terms((4, 0, 2))
    (2, 0, 1)
    """
    common = gcd(*recipe) or 1
    return tuple(n // common for n in recipe)
