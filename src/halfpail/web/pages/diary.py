"""What the diary shows: its lines, each bed against its need, the money, phosphorus over years."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from halfpail.application.kept import Kept
from halfpail.application.read_diary import DiaryAnswer, read_diary
from halfpail.application.word_diary import (
    account_table,
    cost_table,
    event_words,
    money_words,
    pails_words,
    totals_table,
)
from halfpail.application.word_mix import Table
from halfpail.application.word_season import rate, rate_unit
from halfpail.domain.diary import Event
from halfpail.domain.garden import Garden
from halfpail.domain.phosphorus_account import PhosphorusLine
from halfpail.quantities.dates import day_words
from halfpail.quantities.units import System
from halfpail.web.forms.diary import FORMS, EventForm
from halfpail.web.look import Look
from halfpail.web.pages.charts import LineChart, Series
from halfpail.working import Working

LINES_SHOWN, LINES_UNDONE = 60, 20


@dataclass(frozen=True, slots=True, kw_only=True)
class DiaryRow:
    """A line of the diary in words."""

    key: int
    on: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AccountSheet:
    """The phosphorus of one bed over the years."""

    bed: str
    table: Table
    chart: LineChart | None


@dataclass(frozen=True, slots=True, kw_only=True)
class DiaryPage:
    """One year of the diary, the latest line first."""

    year: int
    years: tuple[int, ...]
    kinds: tuple[tuple[str, str], ...]
    rows: tuple[DiaryRow, ...]
    more: int
    undone: tuple[DiaryRow, ...]
    rate_unit: str
    totals: Table
    money: tuple[str, ...]
    costs: Table
    pails: tuple[str, ...]
    working: Working
    beds: tuple[str, ...]
    account: AccountSheet | None


@dataclass(frozen=True, slots=True, kw_only=True)
class WritePage:
    """The form of one kind of event."""

    title: str
    form: EventForm
    kinds: tuple[tuple[str, str], ...]
    kind: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DiaryShown:
    """What of the diary is looked at: a year, whole or its last lines, and a bed."""

    look: Look
    year: int
    this_year: int
    bed: str = ""
    whole: bool = False


KINDS = tuple((kind, title) for kind, (title, _) in FORMS.items())


def diary_page(
    garden: Garden,
    kept: Sequence[Kept[Event]],
    undone: Sequence[Kept[Event]],
    shown: DiaryShown,
    account: AccountSheet | None,
) -> DiaryPage:
    """A year of the diary with its sums."""
    units, currency = shown.look.system, shown.look.currency
    of_year = [one for one in kept if one.value.on.year == shown.year]
    answer = _sums(garden, of_year, kept)
    most = len(of_year) if shown.whole else LINES_SHOWN
    years = {one.value.on.year for one in kept} | {shown.this_year}
    return DiaryPage(
        year=shown.year,
        years=tuple(sorted(years, reverse=True)),
        kinds=KINDS,
        rows=rows_of(reversed(of_year[-most:]), shown.look),
        more=max(0, len(of_year) - most),
        undone=rows_of(undone[:LINES_UNDONE], shown.look),
        rate_unit=rate_unit(units),
        totals=totals_table(answer, units),
        money=tuple(money_words(answer, currency, units)),
        costs=cost_table(answer, currency, units),
        pails=pails_words(answer, units),
        working=answer.working,
        beds=tuple(bed.name for bed in garden.beds),
        account=account,
    )


def _sums(
    garden: Garden, of_year: Sequence[Kept[Event]], kept: Sequence[Kept[Event]]
) -> DiaryAnswer:
    return read_diary(garden, [one.value for one in of_year], [one.value for one in kept])


def rows_of(kept: Iterable[Kept[Event]], look: Look) -> tuple[DiaryRow, ...]:
    """Lines in words."""
    return tuple(
        DiaryRow(
            key=one.key,
            on=day_words(one.value.on),
            words=event_words(one.value, look.currency, look.system),
        )
        for one in kept
    )


def account_sheet(bed: str, lines: tuple[PhosphorusLine, ...], system: System) -> AccountSheet:
    """The account of a bed, drawn where there is more than one year."""
    table = account_table(lines, system)
    chart = _chart(bed, lines, system, table) if len(lines) > 1 else None
    return AccountSheet(bed=bed, table=table, chart=chart)


def _chart(bed: str, lines: tuple[PhosphorusLine, ...], system: System, table: Table) -> LineChart:
    first, last = lines[0].year.year, lines[-1].year.year
    moments = tuple(Fraction(line.year.year - first, last - first) for line in lines)
    surplus = tuple(Fraction(rate(line.surplus_kg_per_m2, system)) for line in lines)
    way = "more" if surplus[-1] > surplus[0] else "no more"
    return LineChart(
        key="account",
        title=f"{bed}: P2O5 beyond what harvests took",
        sentence=f"At the end of {last} there is {way} of it than at the end of {first}.",
        unit=f"P2O5 left over, {rate_unit(system)}",
        moments=moments,
        ticks=((moments[0], str(first)), (moments[-1], str(last))),
        series=(Series(name="left over", values=surplus),),
        table=table,
    )
