"""Random recipes: the proven answer against trying all, and the time it takes.

    python -m benchmarks.recipe [PROBLEMS [LARGE]]

PROBLEMS (300) wishes of up to 14 bags are answered and compared in every number with the oracle,
that tries all one by one: best, cheapest, closest, the whole curve, the alternatives. Every fifth
is also answered by both solvers. LARGE (20) wishes of 30 bags, 12 scoops, 4 bags are timed.
"""

import sys
from collections.abc import Callable
from statistics import median
from time import perf_counter

from benchmarks.random_recipes import Size, random_wish
from benchmarks.trying_all import all_recipes, best, different, front
from halfpail.application.find_recipe import find_recipe
from halfpail.application.pose_recipe import pose_recipe
from halfpail.application.recipe_answer import Choice, NoRecipe, RecipeAnswer
from halfpail.blending.aims import cheapest, closest
from halfpail.blending.search import Search
from halfpail.domain.recipe import Prefer, RecipeWish
from halfpail.solvers.highs import Highs
from halfpail.solvers.scip import Scip
from halfpail.solvers.sieve import EveryRecipe

SEARCH = Search(sieve=EveryRecipe(), solver=Highs())
DOORS = (Highs(), Scip())
LARGE = Size(bags=30, scoops=12, in_mix=4)


def size_of(seed: int) -> Size:
    """Mostly 8 scoops of 3 bags; every thirtieth 12 scoops of 4 bags."""
    if seed % 30 == 29:
        return Size(bags=10 + seed % 5, scoops=12, in_mix=4)
    return Size(bags=4 + seed % 11, scoops=4 + seed % 5, in_mix=2 + seed % 2)


def disagreements(wish: RecipeWish, answer: RecipeAnswer | NoRecipe) -> list[str]:
    """In what the answer differs from trying all; empty where they agree."""
    tried = all_recipes(wish)
    if isinstance(answer, NoRecipe) or not tried:
        agree = isinstance(answer, NoRecipe) and not tried
        return [] if agree else ["whether there is a recipe"]
    cheap = wish.prefer is Prefer.CHEAPEST
    others = different(tried, wish.alternatives + 1, cheapest=cheap)[1:]
    checks = {
        "best": _same(wish, answer.best, best(tried, cheapest=cheap).scoops),
        "cheapest": _same(wish, answer.cheapest, best(tried, cheapest=True).scoops),
        "closest": _same(wish, answer.closest, best(tried, cheapest=False).scoops),
        "curve": [(one.cost, one.distance) for one in answer.curve] == front(tried),
        "alternatives": len(others) == len(answer.alternatives)
        and all(
            _same(wish, ours, theirs.scoops)
            for ours, theirs in zip(answer.alternatives, others, strict=True)
        ),
    }
    return [name for name, agrees in checks.items() if not agrees]


def solver_disagreements(wish: RecipeWish, answer: RecipeAnswer | NoRecipe) -> list[str]:
    """Solvers whose least cost or least distance is another."""
    problem = pose_recipe(wish).problem
    differing = []
    for door in DOORS:
        least = cheapest(problem, door), closest(problem, door)
        if isinstance(answer, NoRecipe):
            agree = least == (None, None)
        else:
            agree = (
                least[0] is not None
                and least[1] is not None
                and least[0].cost == answer.cheapest.cost
                and least[1].distance == answer.closest.distance
            )
        if not agree:
            differing.append(door.name)
    return differing


def _same(wish: RecipeWish, choice: Choice, scoops: tuple[int, ...]) -> bool:
    ours = tuple(choice.recipe.scoops.get(bag.key, 0) for bag in wish.bags)
    return ours == scoops


def timed(work: Callable[[], RecipeAnswer | NoRecipe]) -> tuple[RecipeAnswer | NoRecipe, float]:
    """What the work answers, and its seconds."""
    began = perf_counter()
    return work(), perf_counter() - began


def main(problems: int, large: int) -> int:
    """Print agreement and times; the number of disagreements."""
    wrong, seconds, without = 0, [], 0
    for seed in range(problems):
        wish = random_wish(seed, size_of(seed))
        answer, taken = timed(lambda wish=wish: find_recipe(wish, SEARCH))  # type: ignore[misc]  # a lambda with a default
        seconds.append(taken)
        without += isinstance(answer, NoRecipe)
        faults = disagreements(wish, answer)
        if seed % 5 == 0:
            faults += solver_disagreements(wish, answer)
        if faults:
            wrong += 1
            print(f"seed {seed}: differs in {', '.join(faults)}")
    print(f"{problems - wrong} of {problems} agree with trying all ({without} have no recipe)")
    _print_times("up to 14 bags", seconds)
    big = []
    for seed in range(large):
        wish = random_wish(1000 + seed, LARGE)
        big.append(timed(lambda wish=wish: find_recipe(wish, SEARCH))[1])  # type: ignore[misc]  # a lambda with a default
    if big:
        _print_times("30 bags, 12 scoops, 4 bags in the mix", big)
    return wrong


def _print_times(what: str, seconds: list[float]) -> None:
    print(f"{what}: median {median(seconds):.3f} s, worst {max(seconds):.3f} s")


if __name__ == "__main__":
    numbers = [int(argument) for argument in sys.argv[1:]]
    sys.exit(main(*(numbers + [300, 20][len(numbers) :])) > 0)
