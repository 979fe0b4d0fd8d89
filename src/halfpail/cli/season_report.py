"""The season plan as a page of plain text."""

from halfpail.application.chalk_sum import chalk_sum
from halfpail.application.season_answer import MixAnswer, SeasonAnswer
from halfpail.application.word_season import (
    bag_table,
    feed_table,
    fit_table,
    in_short,
    mix_title,
    money_lines,
    phosphorus_with_n,
    rate_unit,
    stirring_words,
)
from halfpail.cli import printing
from halfpail.domain.season import Unmet
from halfpail.quantities.units import System


def season_text(answer: SeasonAnswer, units: System, with_working: bool = False) -> str:
    """The whole plan, from what to do first to what holds it back."""
    bags, feeds, fits = (f(answer, units) for f in (bag_table, feed_table, fit_table))
    parts = [
        printing.heading(f"Season plan: {answer.garden}", "="),
        printing.paragraph(in_short(answer, units)),
        *(f"{printing.heading(mix_title(mix))}\n{_mix_text(mix, units)}" for mix in answer.mixes),
        printing.heading("Bags to buy, and what becomes of them"),
        printing.table(bags.headings, bags.rows),
        printing.heading("What each bed gets"),
        printing.table(feeds.headings, feeds.rows, left=2),
        printing.heading(f"How it fits, {rate_unit(units)}"),
        printing.table(fits.headings, fits.rows),
        printing.heading("What it costs, and how good a plan it is"),
        "\n".join(printing.paragraph(line, indent="  ") for line in money_lines(answer, units)),
        printing.heading("What holds it back"),
        "\n".join(printing.paragraph(line, indent="  * ") for line in answer.held_back_by)
        or "  nothing",
        printing.heading("Mind"),
        printing.notices(answer.notices),
    ]
    if with_working:
        parts += [printing.heading("Working"), printing.working(answer.working)]
    return "\n\n".join(parts)


def unmet_text(unmet: Unmet) -> str:
    """Why there is no plan, and which limits would have to give how much."""
    lines = [printing.paragraph(unmet.sentence)]
    for give in unmet.gives:
        lines.append(
            printing.paragraph(f"{give.limit.plot}, {give.limit.because}: {give.reason}", "  * ")
        )
    return "\n".join(lines)


def _mix_text(mix: MixAnswer, units: System) -> str:
    chalked = chalk_sum(mix.round, units)
    return "\n".join(
        (
            printing.table(chalked.headings, chalked.all_rows),
            printing.paragraph(stirring_words(mix, units), indent="  "),
            printing.paragraph(phosphorus_with_n(mix, units), indent="  "),
        )
    )
