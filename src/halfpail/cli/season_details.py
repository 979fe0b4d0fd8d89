"""What can be asked of a season beyond the plan, as plain text: ways, reasons, others, repairs."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from halfpail.application.compare_mixes import Comparison
from halfpail.application.explain_season import SeasonExplanation
from halfpail.application.group_doses import GroupedDoses
from halfpail.application.keep_plan import KeptSeason
from halfpail.application.mend_season import Mending
from halfpail.application.other_plans import OtherPlans
from halfpail.application.season_answer import SeasonAnswer
from halfpail.application.word_choices import (
    kept_words,
    others_table,
    others_words,
    sizes_words,
    worse_words,
)
from halfpail.application.word_season import rate_unit
from halfpail.application.word_ways import (
    left_words,
    range_table,
    room_words,
    ways_table,
    ways_words,
    why_words,
)
from halfpail.cli import printing
from halfpail.quantities.showing import show_money
from halfpail.quantities.units import System

NONE = Fraction(0)


def comparison_text(comparison: Comparison, currency: str, units: System) -> str:
    """The ways side by side, which is enough, and why not fewer mixes."""
    table = ways_table(comparison.ways, currency, units)
    return _section(
        "One mix, or more",
        printing.table(table.headings, table.rows),
        _paragraphs(ways_words(comparison, currency)),
    )


def explanation_text(explained: SeasonExplanation, answer: SeasonAnswer, units: System) -> str:
    """What more room would save, why each bag is in, the beds beside their ranges, left-overs."""
    currency, ranges = answer.currency, range_table(answer, units)
    beside = printing.table(ranges.headings, ranges.rows)
    return "\n\n".join(
        (
            _section(
                "What a little more room would save",
                _bullets(room_words(explained, currency, units)),
            ),
            _section("Why each bag is in", _bullets(why_words(explained, currency, units))),
            _section(f"Each bed beside its range, {rate_unit(units)}", beside),
            _section("What is left over", _bullets(left_words(explained, units))),
        )
    )


def others_text(others: OtherPlans, currency: str, units: System) -> str:
    """The best plan and others for nearly the same, each with what it is best at."""
    table = others_table(others, currency, units)
    return _section(
        "Other plans",
        printing.table(table.headings, table.rows, left=2),
        _paragraphs(others_words(others, currency)),
    )


def mending_text(mending: Mending, currency: str) -> str:
    """What is in the way, and what would help, each repair with what the season then comes to."""
    parts = [_bullets(mending.hints)] if mending.hints else []
    if mending.in_the_way:
        parts += ["  These cannot all hold together:", _bullets(mending.in_the_way)]
    repairs = [
        f"{repair.sentence} Then {show_money(repair.plan.money, currency)} in money and "
        f"{show_money(repair.plan.missed, currency)} in misses."
        for repair in mending.repairs
    ]
    if repairs:
        parts += ["  Any one of these would help; each was tried:", _bullets(repairs)]
    return _section("What is in the way, and what would help", *parts)


def kept_text(kept: KeptSeason, currency: str) -> str:
    """What became of the old plan."""
    said = kept_words(kept.kept, kept.saved_money, kept.saves_enough_money, currency)
    if kept.because:
        return _section("The old plan", _bullets((said, *kept.because)))
    return _section("The old plan", _paragraphs((said,)))


def grouped_text(grouped: GroupedDoses, currency: str) -> str:
    """The few sizes of each mix and bag, and what that costs."""
    worse = worse_words(grouped.worse_money, currency)
    return _section("Amounts in a few sizes", _bullets(sizes_words(grouped)), _paragraphs((worse,)))


def _section(title: str, *parts: str) -> str:
    return "\n".join((printing.heading(title), "", *(part for part in parts if part)))


def _paragraphs(lines: Iterable[str]) -> str:
    return "\n".join(printing.paragraph(line, indent="  ") for line in lines if line)


def _bullets(lines: Iterable[str]) -> str:
    def hung() -> Iterator[str]:
        for line in lines:
            yield printing.paragraph(line, indent="  * ")

    return "\n".join(hung())
