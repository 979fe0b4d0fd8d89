"""Why no recipe meets a wish, and the smallest changes that would help, each tried out."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from math import ceil

from halfpail.application.pose_recipe import (
    MOST_SCOOPS,
    PosedRecipe,
    nutrients_of,
    only_off_in,
    pose_recipe,
)
from halfpail.application.recipe_answer import NoRecipe, Repair
from halfpail.application.recipe_choice import choice_of
from halfpail.blending.aims import fewest_bags, fewest_scoops
from halfpail.blending.explain import conflict
from halfpail.blending.families import as_programme, few_scoops
from halfpail.blending.programme import Programme
from halfpail.blending.scoops import ScoopProblem, Weighed
from halfpail.blending.search import Search
from halfpail.domain.recipe import GradeTarget, Prefer, RecipeWish, Target
from halfpail.quantities.rounding import shortest

HUNDREDTH = Fraction(1, 100)
MORE_SCOOPS = 24


def no_recipe(posed: PosedRecipe, search: Search, proven_by: str) -> NoRecipe:
    """What is in the way of a wish that no recipe meets, and what would help."""
    free = replace(posed.problem, demands=())
    nearest = next(iter(reversed(search.find(free).curve)), None)
    rows = conflict(_questionable(posed.problem), search.solver)
    broken = posed.problem.broken(nearest.scoops) if nearest else ()
    reasons = [row.because for row in rows] or [demand.because for demand in broken]
    return NoRecipe(
        wish=posed.wish,
        in_the_way=tuple(reasons),
        hints=tuple(_hints(posed)),
        repairs=tuple(_repairs(posed, search, nearest)),
        nearest=None if nearest is None else choice_of(posed, nearest),
        proven_by=proven_by,
        notices=posed.notices,
    )


def _questionable(problem: ScoopProblem) -> Programme:
    """The problem as rows, with room for many scoops once the row that limits them is dropped."""
    roomy = as_programme(replace(problem, most_scoops=10 * problem.most_scoops))
    limit = few_scoops(problem)
    rows = (limit if row.name == limit.name else row for row in roomy.rows)
    return replace(roomy, rows=tuple(rows))


def _repairs(posed: PosedRecipe, search: Search, nearest: Weighed | None) -> Iterator[Repair]:
    """Changes of one demand at a time, then of all numbers together."""
    for nutrient in nutrients_of(posed.wish):
        yield from _wider(posed, search, nutrient)
    yield from _more_scoops(posed, search)
    yield from _more_bags(posed, search)
    yield from _avoided_bag(posed, search)
    if nearest is not None:
        yield from _all_wider(posed, search, nearest)


def _wider(posed: PosedRecipe, search: Search, nutrient: str) -> Iterator[Repair]:
    """The least extra tolerance of one nutrient, the others as wished, rounded up to hundredths."""
    target = posed.wish.target
    middle = _middle(target, nutrient)
    if middle is None:
        return
    curve = search.find(only_off_in(posed, nutrient, middle)).curve
    if curve:
        wider = _with_reach(target, nutrient, middle, curve[-1].distance)
        wish = replace(posed.wish, target=wider)
        yield from _tried(wish, search, f"Allow {_limits(wider, nutrient)}")


def _all_wider(posed: PosedRecipe, search: Search, nearest: Weighed) -> Iterator[Repair]:
    """Every aimed number as far off as the nearest recipe is."""
    target = posed.wish.target
    aims = target.percent if isinstance(target, GradeTarget) else target.aim
    for nutrient, aim in aims.items():
        target = _with_reach(target, nutrient, aim, nearest.distance)
    if len(aims) > 1:
        words = " and ".join(_limits(target, nutrient) for nutrient in aims)
        yield from _tried(replace(posed.wish, target=target), search, f"Allow {words}")


def _more_scoops(posed: PosedRecipe, search: Search) -> Iterator[Repair]:
    """The fewest scoops that do, everything else as wished."""
    roomy = replace(posed.problem, most_scoops=max(MORE_SCOOPS, 2 * posed.wish.most_scoops))
    found = fewest_scoops(roomy, search.solver)
    if found is not None and sum(found.scoops) <= MOST_SCOOPS:
        wish = replace(posed.wish, most_scoops=sum(found.scoops))
        yield from _tried(wish, search, f"Allow {wish.most_scoops} scoops")


def _more_bags(posed: PosedRecipe, search: Search) -> Iterator[Repair]:
    """The fewest bags that do, everything else as wished."""
    roomy = replace(posed.problem, most_bags=len(posed.bags))
    found = fewest_bags(roomy, search.solver)
    if found is not None:
        wish = replace(posed.wish, most_bags=len(found.bags))
        yield from _tried(wish, search, f"Allow {wish.most_bags} bags")


def _avoided_bag(posed: PosedRecipe, search: Search) -> Iterator[Repair]:
    """One bag that was to be avoided, if it alone would do."""
    for number, bag in enumerate(posed.wish.bags):
        if bag.avoid or bag.key in posed.wish.avoid:
            bags = list(posed.wish.bags)
            bags[number] = replace(bag, avoid=False)
            wish = replace(
                posed.wish, bags=tuple(bags), avoid=posed.wish.avoid - frozenset({bag.key})
            )
            yield from _tried(wish, search, f"Use {bag.name} after all")


def _tried(wish: RecipeWish, search: Search, sentence: str) -> Iterator[Repair]:
    """The repair, if the changed wish really can be met."""
    posed = pose_recipe(wish)
    curve = search.find(posed.problem).curve
    if curve:
        end = curve[0 if wish.prefer is Prefer.CHEAPEST else -1]
        yield Repair(sentence=f"{sentence}.", wish=wish, choice=choice_of(posed, end))


def _middle(target: Target, nutrient: str) -> Fraction | None:
    """The number from which a nutrient may be off both ways; None where nothing limits it."""
    if isinstance(target, GradeTarget):
        return target.percent[nutrient] if nutrient in target.tolerance else None
    if nutrient not in target.high:
        return None
    return (target.low.get(nutrient, Fraction(0)) + target.high[nutrient]) / 2


def _with_reach(target: Target, nutrient: str, middle: Fraction, reach: Fraction) -> Target:
    """The same target, one nutrient allowed that far from a number, rounded up to hundredths."""
    if isinstance(target, GradeTarget):
        tolerance = max(_up(reach), target.tolerance.get(nutrient, Fraction(0)))
        return replace(target, tolerance={**target.tolerance, nutrient: tolerance})
    high = max(_up(middle + reach), target.high.get(nutrient, Fraction(0)))
    if nutrient not in target.low:
        return replace(target, high={**target.high, nutrient: high})
    low = max(Fraction(0), min(-_up(reach - middle), target.low[nutrient]))
    return replace(target, low={**target.low, nutrient: low}, high={**target.high, nutrient: high})


def _limits(target: Target, nutrient: str) -> str:
    """The limits of one nutrient in words."""
    if isinstance(target, GradeTarget):
        off, percent = target.tolerance[nutrient], target.percent[nutrient]
        return f"{nutrient} to be {shortest(off, 2)} off {shortest(percent, 2)} %"
    low, high = target.low.get(nutrient), shortest(target.high[nutrient], 2)
    if low is None:
        return f"up to {high} {nutrient} for each 1 of N"
    return f"{shortest(low, 2)} to {high} {nutrient} for each 1 of N"


def _up(figure: Fraction) -> Fraction:
    return ceil(figure / HUNDREDTH) * HUNDREDTH


def _hints(posed: PosedRecipe) -> Iterator[str]:
    """Demands that no bag meets by itself: then no mix of these bags can."""
    for demand in posed.problem.demands:
        if all(figure > 0 for figure in demand.per_scoop):
            yield f"No bag here by itself has {demand.because}, so no mix of them has."
