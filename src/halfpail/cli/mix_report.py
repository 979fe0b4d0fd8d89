"""A mix as plain text: the sum as chalked, its bands, the round and the pail, one scoop more."""

from halfpail.application.chalk_sum import ChalkedSum
from halfpail.application.sum_mix import MixQuestion, MixSum
from halfpail.application.word_mix import (
    Table,
    band_table,
    mix_lines,
    nudge_table,
    round_words,
)
from halfpail.cli import printing


def mix_report(summed: MixSum, question: MixQuestion) -> str:
    """Everything but the notices and the working."""
    return "\n\n".join(
        (
            _mix(summed, question),
            f"{printing.heading('How far it may be off')}\n{plain(band_table(summed, question))}",
            f"{printing.heading('One scoop more or less')}\n{plain(nudge_table(summed, question))}",
        )
    )


def plain(table: Table) -> str:
    """A table of words in columns."""
    return printing.table(table.headings, table.rows)


def chalked(total: ChalkedSum) -> str:
    """The sum as a table, a line above the total."""
    return printing.table(total.headings, total.all_rows)


def _mix(summed: MixSum, question: MixQuestion) -> str:
    return "\n".join(
        (
            printing.heading("The mix"),
            *(printing.paragraph(line) for line in mix_lines(summed, question)),
            "",
            chalked(summed.chalked),
            "",
            printing.paragraph(round_words(summed, question.system)),
        )
    )
