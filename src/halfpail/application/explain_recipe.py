"""How a recipe was found, and how its cost and distance come about, to repeat by hand."""

from collections.abc import Iterator
from fractions import Fraction

from halfpail.application.pose_recipe import nutrients_of
from halfpail.application.recipe_answer import Choice, RecipeAnswer
from halfpail.domain.matter import Nutrient
from halfpail.domain.recipe import GradeTarget, PerNitrogen, RatioTarget
from halfpail.quantities.rounding import shortest
from halfpail.working import Step, Working

PLACES = 3


def recipe_working(answer: RecipeAnswer) -> Working:
    """What was wished and tried, and each named number of the best recipe beside its wish."""
    wish = answer.wish
    limits = f"at most {wish.most_bags} bags and {wish.most_scoops} scoops in a round"
    return (
        Step(reason=f"Wished: {wish_words(answer)}; {limits}."),
        Step(
            reason=f"The best is {wish.prefer}: {answer.proven_by}. Of equals the closer (or the "
            "cheaper) one stands first, then fewer bags, then fewer scoops, then more scoops of "
            "the bags listed first.",
        ),
        Step(
            reason="The named numbers of the best recipe beside their wish.",
            sum="\n".join(_beside(answer, answer.best)),
        ),
        Step(
            reason=f"Its distance is {answer.distance_is}.",
            sum=shortest(answer.best.distance, PLACES),
        ),
    )


def wish_words(answer: RecipeAnswer) -> str:
    """The wish in words."""
    target = answer.wish.target
    if isinstance(target, GradeTarget):
        return ", ".join(
            f"{nutrient} {shortest(target.percent[nutrient], 2)} %{_off(target, nutrient)}"
            for nutrient in nutrients_of(answer.wish)
        )
    return f"for each 1 of {target.per}, " + ", ".join(
        _band(target, nutrient) for nutrient in nutrients_of(answer.wish)
    )


def numbers_of(choice: Choice, target: GradeTarget | RatioTarget) -> Iterator[tuple[str, Fraction]]:
    """Each nutrient a target limits or aims at, with its number in a recipe.

    In percent for a grade, in kg per kg N for a ratio.
    """
    analysis = choice.mix.analysis
    if isinstance(target, GradeTarget):
        for nutrient in target.percent:
            yield nutrient, 100 * analysis.of(Nutrient(nutrient))
        return
    usable = target.per is PerNitrogen.USABLE
    nitrogen = choice.mix.usable_n.typical if usable else analysis.of(Nutrient.N)
    for nutrient in dict.fromkeys((*target.aim, *target.high)):
        yield nutrient, analysis.of(Nutrient(nutrient)) / nitrogen


def _beside(answer: RecipeAnswer, choice: Choice) -> Iterator[str]:
    target = answer.wish.target
    aims = target.percent if isinstance(target, GradeTarget) else target.aim
    for nutrient, number in numbers_of(choice, target):
        shown = shortest(number, PLACES)
        if nutrient in aims:
            away = shortest(abs(number - aims[nutrient]), PLACES)
            yield f"{nutrient} {shown}, wished {shortest(aims[nutrient], PLACES)}: {away} off"
        else:
            yield f"{nutrient} {shown}, only limited"


def _off(target: GradeTarget, nutrient: str) -> str:
    if nutrient not in target.tolerance:
        return ""
    return f", at most {shortest(target.tolerance[nutrient], 2)} off"


def _band(target: RatioTarget, nutrient: str) -> str:
    aim = f", best {shortest(target.aim[nutrient], 2)}" if nutrient in target.aim else ""
    low = target.low.get(nutrient, Fraction(0))
    most = f"{shortest(target.high[nutrient], 2)}" if nutrient in target.high else "any"
    return f"{nutrient} from {shortest(low, 2)} to {most}{aim}"
