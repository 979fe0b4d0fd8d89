"""A weighed recipe as the choice that people read."""

from halfpail.application.pose_recipe import PosedRecipe
from halfpail.application.recipe_answer import Choice
from halfpail.blending.scoops import Weighed
from halfpail.domain.mix import Part, stir
from halfpail.domain.recipe import Recipe


def choice_of(posed: PosedRecipe, weighed: Weighed) -> Choice:
    """The recipe with its bags named and its mix stirred."""
    used = [
        Part(bag=bag, scoops=count)
        for bag, count in zip(posed.bags, weighed.scoops, strict=True)
        if count
    ]
    return Choice(
        recipe=Recipe(scoops={part.bag.key: int(part.scoops) for part in used}),
        mix=stir(used, posed.wish.scoop_l),
        cost=weighed.cost,
        distance=weighed.distance,
    )
