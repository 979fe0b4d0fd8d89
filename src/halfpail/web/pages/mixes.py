"""What the page of the chalked sum shows: a row for each bag, and the figures below it."""

from collections.abc import Iterator
from dataclasses import dataclass

from django.forms import BoundField

from halfpail.application.chalk_sum import ChalkedSum
from halfpail.application.sum_mix import MixQuestion, MixSum, sum_mix
from halfpail.application.word_mix import (
    Table,
    band_table,
    mix_lines,
    nudge_table,
    nudge_words,
    round_words,
)
from halfpail.domain.matter import PRIMARY
from halfpail.findings import Notice, loudest_first
from halfpail.web.bench import Bench
from halfpail.web.forms.mix import MixForm
from halfpail.web.pages.kept_mixes import KeptMixes
from halfpail.working import Working

SECTIONS = ("words:innerHTML", "round", "mind", "bands", "nudges", "steps")


@dataclass(frozen=True, slots=True, kw_only=True)
class MixRow:
    """A bag with its field and its cells; the first cell is a weight, where weights count."""

    number: int
    name: str
    key: str
    field: BoundField
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NudgeRow:
    """One scoop more or less of a bag, as a button, and what it would make of the mix."""

    words: str
    step: str
    key: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MixSheet:
    """The mix in words and rows."""

    lines: tuple[str, ...]
    round: str
    bands: Table
    headings: tuple[str, ...]
    as_it_is: tuple[str, ...]
    nudges: tuple[NudgeRow, ...]
    notices: tuple[Notice, ...]
    working: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class MixPage:
    """The rows with their fields, the foot of the sum, and all that follows from it."""

    bench: Bench
    form: MixForm
    headings: tuple[str, ...]
    rows: tuple[MixRow, ...]
    foot: tuple[tuple[str, tuple[str, ...]], ...]
    sheet: MixSheet | None
    keeping: KeptMixes | None = None

    @property
    def faulty(self) -> list[BoundField]:
        """The fields with faults, in the order of the page."""
        return [*self.form.faulty, *(self.keeping.form.faulty if self.keeping else ())]

    @property
    def unused(self) -> tuple[tuple[str, str], ...]:
        """Names and keys of the bags that have no row yet."""
        shown = {row.key for row in self.rows}
        return tuple((bag.name, bag.key) for bag in self.bench.bags if bag.key not in shown)

    @property
    def live(self) -> str:
        """The parts of the page that follow a change of scoops."""
        cells = [
            f"#sum-{row.number}-{column}"
            for row in self.rows
            for column in range(1, len(self.headings) - 1)
        ]
        errors = [f"#{field.id_for_label}_error" for field in self.form]
        kept = ["#keep-scoops"] if self.keeping else []
        return ",".join(
            (*cells, *errors, *kept, "#sum-head", "#sum-foot", *(f"#{s}" for s in SECTIONS))
        )


def mix_page(form: MixForm, keeping: KeptMixes | None = None) -> MixPage:
    """The page of a form, and of its mix where there is one."""
    question = form.question()
    summed = sum_mix(question) if question else None
    board = None if summed is None else _board(summed.chalked)
    known = {row[0]: row[2:] for row in board.rows} if board else {}
    headings = board.headings if board else ("bag", "scoops", "", *PRIMARY)
    blank = ("",) * (len(headings) - 2)
    return MixPage(
        bench=form.bench,
        form=form,
        headings=headings,
        rows=tuple(
            MixRow(
                number=number,
                name=bag.name,
                key=bag.key,
                field=field,
                cells=known.get(bag.name, blank),
            )
            for number, bag, field in form.scoop_fields
        ),
        foot=tuple(_foot(board)) if board else (),
        sheet=_sheet(form.bench, summed, question) if summed and question else None,
        keeping=keeping,
    )


def _board(chalked: ChalkedSum) -> ChalkedSum:
    """The sum with a column for weights in any case, so that no column comes or goes."""
    if len(chalked.headings) == 3 + len(PRIMARY):
        return chalked
    return ChalkedSum(
        headings=_roomy(chalked.headings),
        rows=tuple(_roomy(row) for row in chalked.rows),
        total=_roomy(chalked.total),
        divide=_roomy(chalked.divide),
        wish=None if chalked.wish is None else _roomy(chalked.wish),
    )


def _roomy(cells: tuple[str, ...]) -> tuple[str, ...]:
    return (*cells[:2], "", *cells[2:])


def _foot(board: ChalkedSum) -> Iterator[tuple[str, tuple[str, ...]]]:
    yield "total", board.total
    yield "divide", board.divide
    if board.wish:
        yield "wish", board.wish


def _sheet(bench: Bench, summed: MixSum, question: MixQuestion) -> MixSheet:
    told = nudge_table(summed, question)
    as_it_is, *changes = told.rows
    return MixSheet(
        lines=mix_lines(summed, question),
        round=round_words(summed, question.system),
        bands=band_table(summed, question),
        headings=told.headings[1:],
        as_it_is=as_it_is[1:],
        nudges=tuple(
            NudgeRow(
                words=nudge_words(nudge),
                step="more" if nudge.change > 0 else "less",
                key=nudge.bag.key,
                cells=row[1:],
            )
            for nudge, row in zip(summed.nudges, changes, strict=True)
        ),
        notices=loudest_first((*summed.notices, *bench.notices_of(summed.mix.parts))),
        working=summed.working,
    )
