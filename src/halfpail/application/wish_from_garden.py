"""A wish for a recipe from the bags of a garden, under the garden's own preferences."""

from halfpail.application.keep_apart import bags_apart
from halfpail.domain.garden import Garden
from halfpail.domain.recipe import Prefer, RecipeWish, Target


def wish_from_garden(
    garden: Garden, target: Target, prefer: Prefer = Prefer.CHEAPEST
) -> RecipeWish:
    """A wish that knows the garden's scoop, its limits, and which bags must stay out or apart."""
    liked = garden.preferences
    return RecipeWish(
        target=target,
        prefer=prefer,
        bags=garden.bags,
        most_scoops=liked.most_scoops,
        most_bags=liked.most_bags,
        avoid=frozenset(bag.key for bag in garden.bags if bag.avoid),
        apart=bags_apart(garden.bags),
        shed_is_free=liked.shed_is_free,
        scoop_l=garden.tools.scoop_l,
    )
