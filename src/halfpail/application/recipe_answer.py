"""What is answered to a wish for a recipe: recipes with their proof, or what is in the way."""

from dataclasses import dataclass
from fractions import Fraction

from halfpail.domain.mix import Mix
from halfpail.domain.recipe import Recipe, RecipeWish
from halfpail.findings import Notice


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A recipe, what it makes, what it costs and how far it is from the wish.

    `cost` is in money per kg of mix for a grade, per kg of usable N for a ratio; `distance` in
    percentage points for a grade, in kg per kg N for a ratio.
    """

    recipe: Recipe
    mix: Mix
    cost: Fraction
    distance: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeAnswer:
    """The best recipe and what else there is.

    `curve` holds every recipe that none beats in both cost and distance, from the cheapest to
    the closest; `between` is the one of them that gives up least of either, if there is one
    between. `alternatives` are the next best of which no set of bags holds another.
    """

    wish: RecipeWish
    best: Choice
    curve: tuple[Choice, ...]
    between: Choice | None
    alternatives: tuple[Choice, ...]
    cost_is: str
    distance_is: str
    proven_by: str
    notices: tuple[Notice, ...] = ()

    @property
    def cheapest(self) -> Choice:
        """The first end of the curve."""
        return self.curve[0]

    @property
    def closest(self) -> Choice:
        """The other end of the curve."""
        return self.curve[-1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Repair:
    """A changed wish that can be met, said in words, with the recipe that meets it."""

    sentence: str
    wish: RecipeWish
    choice: Choice


@dataclass(frozen=True, slots=True, kw_only=True)
class NoRecipe:
    """No recipe meets the wish: what is in the way, the changes that would help, the nearest.

    `in_the_way` are demands of which every one takes part: without any of them the others could
    be met. `hints` say what no bag here has.
    """

    wish: RecipeWish
    in_the_way: tuple[str, ...]
    hints: tuple[str, ...]
    repairs: tuple[Repair, ...]
    nearest: Choice | None
    proven_by: str
    notices: tuple[Notice, ...] = ()
