"""A found recipe as plain text, and what to do where there is none."""

from collections.abc import Iterable

from halfpail.application.chalk_sum import grade_words
from halfpail.application.explain_mix import p2o5_words
from halfpail.application.explain_recipe import wish_words
from halfpail.application.recipe_answer import Choice, NoRecipe, RecipeAnswer
from halfpail.application.sum_mix import MixSum
from halfpail.application.word_recipe import (
    choice_price,
    choices_table,
    named_choices,
    nearest_words,
    off_words,
    repair_words,
    thinned,
)
from halfpail.cli import printing
from halfpail.cli.bench import Bench
from halfpail.cli.mix_report import chalked, plain
from halfpail.domain.recipe import RecipeWish

MOST_OF_CURVE = 12


def recipe_report(answer: RecipeAnswer, summed: MixSum, bench: Bench) -> str:
    """The best recipe as chalked, the named choices, other bags, and the way between."""
    parts = [_best(answer, summed, bench), _choices(answer, bench)]
    if answer.alternatives:
        parts.append(_section("Other bags that would do", answer.alternatives, answer.wish, bench))
    if len(answer.curve) > 3:
        curve = thinned(answer.curve, MOST_OF_CURVE)
        parts.append(_section("From the cheapest to the closest", curve, answer.wish, bench))
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
            words = repair_words(repair, bench.currency, bench.system)
            lines.append(printing.paragraph(words, indent="  * "))
    if answer.nearest:
        lines.append("\n" + printing.paragraph(nearest_words(answer)))
    if answer.notices:
        lines.append(f"\n{printing.heading('Mind')}\n{printing.notices(answer.notices)}")
    return "\n".join(lines)


def _best(answer: RecipeAnswer, summed: MixSum, bench: Bench) -> str:
    best = answer.best
    price = choice_price(best, answer.wish, bench.currency, bench.system)
    lines = (
        f"Wished: {wish_words(answer)}.",
        f"{grade_words(best.mix)} by weight, {price}, "
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
    names, choices = zip(*named_choices(answer), strict=True)
    told = choices_table(choices, answer.wish, bench.currency, bench.system)
    rows = [(name, *row) for name, row in zip(names, told.rows, strict=True)]
    table = printing.table(("", *told.headings), rows, left=2)
    return f"{printing.heading('Choices')}\n{table}"


def _section(title: str, choices: Iterable[Choice], wish: RecipeWish, bench: Bench) -> str:
    told = choices_table(choices, wish, bench.currency, bench.system)
    return f"{printing.heading(title)}\n{plain(told)}"
