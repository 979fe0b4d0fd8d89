"""Recipes near a recipe: a scoop more of a bag, a scoop less, or some of a bag for another."""

from collections.abc import Iterator, Sequence

from halfpail.domain.season import SeasonProblem
from halfpail.engine.recipes import Recipe, lowest_terms, may_meet


def near_recipes(problem: SeasonProblem, recipe: Recipe, bags: Sequence[int]) -> list[Recipe]:
    """Recipes of `bags` a step away, those from rounds of two and three times as much too."""
    found: dict[Recipe, None] = {}
    for times in (1, 2, 3):
        if sum(recipe) * times <= problem.most_scoops:
            for scoops in _steps([n * times for n in recipe], bags):
                held = tuple(bag for bag, n in enumerate(scoops) if n)
                fits = 0 < sum(scoops) <= problem.most_scoops and len(held) <= problem.most_bags
                if fits and may_meet(problem, held):
                    found[lowest_terms(tuple(scoops))] = None
    found.pop(recipe, None)
    return list(found)


def _steps(scoops: list[int], bags: Sequence[int]) -> Iterator[list[int]]:
    there = [bag for bag, n in enumerate(scoops) if n]
    for more in bags:
        yield _moved(scoops, more, 1)
        for less in there:
            for n in {1, 2, scoops[less]}:
                if less != more and n <= scoops[less]:
                    yield _moved(_moved(scoops, less, -n), more, n)
    for less in there:
        for n in range(1, scoops[less] + 1):
            yield _moved(scoops, less, -n)


def _moved(scoops: list[int], bag: int, by: int) -> list[int]:
    return [n + by * (i == bag) for i, n in enumerate(scoops)]
