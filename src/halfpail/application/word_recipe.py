"""A found recipe in words and rows: the same on a terminal and a page."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from halfpail.application.chalk_sum import grade_words
from halfpail.application.explain_mix import p2o5_words
from halfpail.application.recipe_answer import Choice, NoRecipe, RecipeAnswer, Repair
from halfpail.application.word_mix import Table
from halfpail.domain.recipe import GradeTarget, RecipeWish
from halfpail.quantities.rounding import shortest
from halfpail.quantities.showing import show_price_per_mass
from halfpail.quantities.units import System

_LEAST = "0.01"


def recipe_words(choice: Choice) -> str:
    """Scoops and bags in a line."""
    return " + ".join(f"{part.scoops} {part.bag.name}" for part in choice.mix.parts)


def off_words(choice: Choice, wish: RecipeWish) -> str:
    """How far a recipe is from the wish."""
    if not choice.distance:
        return "exactly as wished"
    unit = "points" if isinstance(wish.target, GradeTarget) else "for 1 of N"
    off = f"less than {_LEAST}" if choice.distance < Fraction(_LEAST) else ""
    return f"{off or shortest(choice.distance, 2)} {unit} off"


def choice_price(choice: Choice, wish: RecipeWish, currency: str, system: System) -> str:
    """What a recipe costs, by weight of the mix or of its usable nitrogen."""
    shown = show_price_per_mass(choice.cost, currency, system)
    return shown if isinstance(wish.target, GradeTarget) else f"{shown} of usable N"


def named_choices(answer: RecipeAnswer) -> list[tuple[str, Choice]]:
    """The cheapest, the closest, and the one between, where they are different recipes."""
    named = [("cheapest", answer.cheapest)]
    if answer.between:
        named.append(("between", answer.between))
    if len(answer.curve) > 1:
        named.append(("closest", answer.closest))
    return named


def thinned(curve: tuple[Choice, ...], most: int) -> Iterator[Choice]:
    """Both ends of a curve, and so many between that it fits; JSON has them all."""
    last = len(curve) - 1
    steps = min(most, len(curve)) - 1
    for step in range(steps + 1):
        yield curve[round(Fraction(step * last, steps))]


def choices_table(
    choices: Iterable[Choice], wish: RecipeWish, currency: str, system: System
) -> Table:
    """A row for each recipe: its scoops, grade, price, distance and phosphorus."""
    rows = [
        (
            recipe_words(choice),
            grade_words(choice.mix),
            choice_price(choice, wish, currency, system),
            off_words(choice, wish),
            p2o5_words(choice.mix),
        )
        for choice in choices
    ]
    return Table(headings=("recipe", "grade", "price", "off by", "P2O5 with 0.1 N"), rows=(*rows,))


def repair_words(repair: Repair, currency: str, system: System) -> str:
    """A change of the wish that would help, and the recipe that then meets it."""
    price = choice_price(repair.choice, repair.wish, currency, system)
    return f"{repair.sentence} Then {recipe_words(repair.choice)}, {price}."


def nearest_words(answer: NoRecipe) -> str:
    """The recipe nearest to a wish that none meets; nothing where there is none."""
    if not answer.nearest:
        return ""
    off = off_words(answer.nearest, answer.wish)
    grade = grade_words(answer.nearest.mix)
    return f"The nearest to the wish is {recipe_words(answer.nearest)}: {grade}, {off}."
