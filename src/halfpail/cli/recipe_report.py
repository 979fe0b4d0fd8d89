"""A found recipe as plain text, and what to do where there is none."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from halfpail.application.chalk_sum import grade_words
from halfpail.application.explain_mix import p2o5_words
from halfpail.application.explain_recipe import wish_words
from halfpail.application.recipe_answer import Choice, NoRecipe, RecipeAnswer
from halfpail.application.sum_mix import MixSum
from halfpail.cli import printing
from halfpail.cli.bench import Bench
from halfpail.cli.mix_report import chalked
from halfpail.domain.recipe import GradeTarget, RecipeWish
from halfpail.quantities.rounding import shortest
from halfpail.quantities.showing import show_price_per_mass

MOST_OF_CURVE = 12


def recipe_report(answer: RecipeAnswer, summed: MixSum, bench: Bench) -> str:
    """The best recipe as chalked, the named choices, other bags, and the way between."""
    parts = [_best(answer, summed, bench), _choices(answer, bench)]
    if answer.alternatives:
        rows = (("", choice) for choice in answer.alternatives)
        parts.append(_section("Other bags that would do", rows, answer.wish, bench))
    if len(answer.curve) > 3:
        rows = (("", choice) for choice in thinned(answer.curve, MOST_OF_CURVE))
        parts.append(_section("From the cheapest to the closest", rows, answer.wish, bench))
    return "\n\n".join(parts)


def no_recipe_report(answer: NoRecipe, bench: Bench) -> str:
    """What is in the way, what would help, and the nearest recipe."""
    lines = [printing.heading("No mix of these bags does it")]
    lines.append(printing.paragraph(f"Proven: {answer.proven_by}."))
    if answer.in_the_way:
        lines.append("These cannot all be met together:")
        lines += [f"  * {demand}" for demand in answer.in_the_way]
    lines += [printing.paragraph(hint) for hint in answer.hints]
    if answer.repairs:
        lines.append("\nAny one of these would help; each was tried:")
        for repair in answer.repairs:
            recipe = recipe_words(repair.choice)
            price = _price(repair.choice, repair.wish, bench)
            lines.append(
                printing.paragraph(f"{repair.sentence} Then {recipe}, {price}.", indent="  * ")
            )
    if answer.nearest:
        off = off_words(answer.nearest, answer.wish)
        nearest = f"The nearest to the wish is {recipe_words(answer.nearest)}: "
        lines.append(
            "\n" + printing.paragraph(f"{nearest}{grade_words(answer.nearest.mix)}, {off}.")
        )
    if answer.notices:
        lines.append(f"\n{printing.heading('Mind')}\n{printing.notices(answer.notices)}")
    return "\n".join(lines)


def recipe_words(choice: Choice) -> str:
    """Scoops and bags in a line."""
    return " + ".join(f"{part.scoops} {part.bag.name}" for part in choice.mix.parts)


def off_words(choice: Choice, wish: RecipeWish) -> str:
    """How far a recipe is from the wish."""
    if not choice.distance:
        return "exactly as wished"
    unit = "points" if isinstance(wish.target, GradeTarget) else "for 1 of N"
    return f"{shortest(choice.distance, 2)} {unit} off"


def thinned(curve: tuple[Choice, ...], most: int) -> Iterator[Choice]:
    """Both ends of a curve, and so many between that it fits; JSON has them all."""
    last = len(curve) - 1
    steps = min(most, len(curve)) - 1
    for step in range(steps + 1):
        yield curve[round(Fraction(step * last, steps))]


def _best(answer: RecipeAnswer, summed: MixSum, bench: Bench) -> str:
    best = answer.best
    lines = (
        f"Wished: {wish_words(answer)}.",
        f"{grade_words(best.mix)} by weight, {_price(best, answer.wish, bench)}, "
        f"{off_words(best, answer.wish)}. P2O5 with 0.1 of usable N: {p2o5_words(best.mix)}.",
        f"Proven: {answer.proven_by}.",
    )
    return "\n".join(
        (
            printing.heading(f"The best recipe ({answer.wish.prefer})"),
            *(printing.paragraph(line) for line in lines),
            "",
            chalked(summed.chalked),
        )
    )


def _choices(answer: RecipeAnswer, bench: Bench) -> str:
    named: list[tuple[str, Choice]] = [("cheapest", answer.cheapest)]
    if answer.between:
        named.append(("between", answer.between))
    if len(answer.curve) > 1:
        named.append(("closest", answer.closest))
    return _section("Choices", named, answer.wish, bench)


def _section(
    title: str, choices: Iterable[tuple[str, Choice]], wish: RecipeWish, bench: Bench
) -> str:
    rows = [
        (
            *((name,) if name else ()),
            recipe_words(choice),
            grade_words(choice.mix),
            _price(choice, wish, bench),
            off_words(choice, wish),
            p2o5_words(choice.mix),
        )
        for name, choice in choices
    ]
    headings = ("recipe", "grade", "price", "off by", "P2O5 with 0.1 N")
    named = len(rows[0]) > len(headings)
    table = printing.table((*(("",) if named else ()), *headings), rows, left=1 + named)
    return f"{printing.heading(title)}\n{table}"


def _price(choice: Choice, wish: RecipeWish, bench: Bench) -> str:
    shown = show_price_per_mass(choice.cost, bench.currency, bench.system)
    return shown if isinstance(wish.target, GradeTarget) else f"{shown} of usable N"
