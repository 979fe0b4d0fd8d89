"""The first answer as plain text: the sum, the two ways to feed, the bags, what was assumed."""

from halfpail.application.answer_first import FirstAnswer, FirstQuestion
from halfpail.application.word_first import (
    assumed_words,
    bags_table,
    opening_words,
    phosphorus_words,
    ways_table,
)
from halfpail.application.word_mix import round_words
from halfpail.cli import printing
from halfpail.cli.mix_report import chalked, plain
from halfpail.quantities.showing import show_area


def first_report(answer: FirstAnswer, question: FirstQuestion) -> str:
    """Everything but the notices and the working."""
    ground = show_area(question.area_m2, question.system)
    return "\n\n".join(
        (
            _mix(answer, question),
            _phosphorus(answer, question),
            f"{printing.heading(f'A year on {ground}')}\n{plain(ways_table(answer, question))}",
            f"{printing.heading('The bags')}\n{plain(bags_table(answer, question))}",
            _assumed(answer, question),
        )
    )


def _mix(answer: FirstAnswer, question: FirstQuestion) -> str:
    return "\n".join(
        (
            printing.heading("The mix"),
            opening_words(answer, question),
            "",
            chalked(answer.sum.chalked),
            "",
            printing.paragraph(round_words(answer.sum, question.system)),
        )
    )


def _phosphorus(answer: FirstAnswer, question: FirstQuestion) -> str:
    lines = phosphorus_words(answer, question)
    return f"{printing.heading('Phosphorus first')}\n" + "\n".join(
        printing.paragraph(line) for line in lines
    )


def _assumed(answer: FirstAnswer, question: FirstQuestion) -> str:
    lines = (
        printing.paragraph(
            f"{assumed_words(one, question)}{printing.cited(one.citation)}", indent="  * "
        )
        for one in answer.assumed
    )
    return f"{printing.heading('Taken for granted')}\n" + "\n".join(lines)
