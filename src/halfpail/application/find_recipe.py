"""Find the best recipe in whole scoops, with what else there is, or say why there is none."""

from collections.abc import Sequence

from halfpail.application.mend_recipe import no_recipe
from halfpail.application.pose_recipe import PosedRecipe, pose_recipe
from halfpail.application.recipe_answer import Choice, NoRecipe, RecipeAnswer
from halfpail.application.recipe_choice import choice_of
from halfpail.blending.scoops import Weighed
from halfpail.blending.search import Search, Searched
from halfpail.domain.recipe import GradeTarget, Prefer, RecipeWish


def find_recipe(wish: RecipeWish, search: Search) -> RecipeAnswer | NoRecipe:
    """The proven best recipe for a wish, or what is in the way and what would help.

    A tie goes to the closer (or cheaper) recipe, then to fewer bags, then to fewer scoops, then
    to more scoops of the bags listed first.

    Raises:
        Refusal: the wish contradicts itself, or leaves no bag.
    """
    posed = pose_recipe(wish)
    by_cost = wish.prefer is Prefer.CHEAPEST
    searched = search.find(posed.problem, wish.alternatives + 1, by_cost=by_cost)
    if not searched.curve:
        return no_recipe(posed, search, searched.proven_by)
    return _answer(posed, searched)


def recipes_to_try(wish: RecipeWish, search: Search) -> int:
    """How many recipes a wish leaves to try, as a measure of how long it takes.

    Raises:
        Refusal: the wish contradicts itself, or leaves no bag.
    """
    return search.sieve.most_recipes(pose_recipe(wish).problem)


def _answer(posed: PosedRecipe, searched: Searched) -> RecipeAnswer:
    wish = posed.wish
    cheap = wish.prefer is Prefer.CHEAPEST
    middle = between(searched.curve)
    return RecipeAnswer(
        wish=wish,
        best=choice_of(posed, searched.curve[0 if cheap else -1]),
        curve=_choices(posed, searched.curve),
        between=None if middle is None else choice_of(posed, middle),
        alternatives=_choices(posed, searched.different[1:]),
        cost_is=cost_is(wish),
        distance_is=distance_is(wish),
        proven_by=searched.proven_by,
        notices=posed.notices,
    )


def _choices(posed: PosedRecipe, recipes: Sequence[Weighed]) -> tuple[Choice, ...]:
    return tuple(choice_of(posed, recipe) for recipe in recipes)


def between(curve: Sequence[Weighed]) -> Weighed | None:
    """The recipe inside a curve that gives up the least share of either end's advantage.

    Both aims are measured as shares of the way from the best to the worst on the curve; the
    recipe whose larger share is smallest is taken, the cheaper one on a tie. None where the
    curve has nothing between its ends.
    """
    if len(curve) < 3:
        return None
    cheapest, closest = curve[0], curve[-1]
    dear, far = closest.cost - cheapest.cost, cheapest.distance - closest.distance
    return min(
        curve[1:-1],
        key=lambda one: (
            max((one.cost - cheapest.cost) / dear, (one.distance - closest.distance) / far),
            one.cost,
        ),
    )


def cost_is(wish: RecipeWish) -> str:
    """What the cost of a recipe is counted in."""
    if isinstance(wish.target, GradeTarget):
        return "money for a weight of the mix"
    return "money for a weight of usable N, typical"


def distance_is(wish: RecipeWish) -> str:
    """What the distance of a recipe from the wish means."""
    if isinstance(wish.target, GradeTarget):
        return "the largest distance of a named number from its wish, in percentage points"
    return f"the largest distance from a wished ratio, for each 1 of {wish.target.per}"
