"""What a season plan shows on its page: the same words and rows as on a terminal."""

from collections.abc import Iterator
from dataclasses import dataclass

from halfpail.application.chalk_sum import ChalkedSum, chalk_sum
from halfpail.application.compare_mixes import Comparison
from halfpail.application.explain_season import SeasonExplanation
from halfpail.application.kept import Job, JobState, Kept, SeasonEntry
from halfpail.application.ports import SeasonProgress
from halfpail.application.season_answer import BedAnswer, MixAnswer
from halfpail.application.word_mix import Table
from halfpail.application.word_season import (
    bag_table,
    counted,
    dates_table,
    feed_table,
    fit_table,
    in_short,
    mix_title,
    money_lines,
    phosphorus_with_n,
    progress_words,
    rate_unit,
    stirring_words,
)
from halfpail.application.word_ways import left_words, room_words, ways_table, ways_words, why_words
from halfpail.findings import Notice, loudest_first
from halfpail.quantities.dates import day_words
from halfpail.quantities.units import System
from halfpail.web.forms.season import KeepForm, SeasonForm
from halfpail.web.look import Look
from halfpail.web.pages.charts import LineChart, RangeChart
from halfpail.web.pages.other_seasons import OthersSheet
from halfpail.web.pages.season_charts import need_chart, supply_chart
from halfpail.web.run_jobs import AT_WORK
from halfpail.web.season_text import DatesFound, SeasonFound, read_text
from halfpail.web.told_season import ToldSeason
from halfpail.working import Working

STOPPING = "Stopping; the best plan so far is kept."
SAID = {
    JobState.WAITING: "The plan is about to be worked out.",
    JobState.RUNNING: "The plan is being worked out.",
    JobState.DONE: "This is the plan.",
    JobState.STOPPED: "It was stopped; this is the best plan so far.",
    JobState.FAILED: "There is no plan: it failed.",
}
NOT_BEGUN = "It was stopped before there was a plan."


@dataclass(frozen=True, slots=True, kw_only=True)
class JobSheet:
    """A job in words: how it stands, how far it is, and what can be done with it."""

    key: int
    said: str
    progress: str
    at_work: bool
    can_retry: bool
    stop_asked: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class MixSheet:
    """One mix of a plan, as chalked."""

    title: str
    chalked: ChalkedSum
    lines: tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class WhySheet:
    """Why a plan is as it is, in sentences."""

    room: tuple[str, ...]
    bags: tuple[str, ...]
    left: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WaysSheet:
    """One mix, or more: side by side."""

    table: Table
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonSheet:
    """A plan in words and rows, and the drawings of one of its beds."""

    short: str
    mixes: tuple[MixSheet, ...]
    bags: Table
    feeds: Table
    rate_unit: str
    fits: Table
    beds: tuple[str, ...]
    bed: str
    chart: RangeChart | None
    supply: LineChart | None
    dates: Table | None
    money: tuple[str, ...]
    held_back: tuple[str, ...]
    notices: tuple[Notice, ...]
    working: Working
    why: WhySheet | None


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptRow:
    """A plan that was kept, in words."""

    kept: Kept[SeasonEntry]
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonPage:
    """The wish, the job at work on it, its plan, and the plans that were kept."""

    form: SeasonForm
    keep: KeepForm
    job: JobSheet | None
    sheet: SeasonSheet | None
    unmet: tuple[str, ...]
    ways: WaysSheet | None
    kept: tuple[KeptRow, ...]
    bin: tuple[Kept[SeasonEntry], ...]
    why_not: tuple[str, ...] = ()
    help: tuple[str, ...] = ()
    news: tuple[str, ...] = ()
    others: OthersSheet | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A plan that is to be shown, and what of it: one bed, and the reasons where asked."""

    told: ToldSeason
    look: Look
    bed: str = ""
    why: SeasonExplanation | None = None
    dates: DatesFound | None = None


def job_sheet(job: Job, currency: str) -> JobSheet:
    """A job in words."""
    at_work = job.state in AT_WORK
    said = SAID[job.state]
    if job.state is JobState.FAILED:
        said = f"{said} {job.result}"
    elif job.state is JobState.STOPPED and not job.result:
        said = NOT_BEGUN
    elif job.stop_asked and at_work:
        said = STOPPING
    return JobSheet(
        key=job.key,
        said=said,
        progress=_progress(job, currency) if at_work else "",
        at_work=at_work,
        can_retry=job.state in (JobState.FAILED, JobState.STOPPED),
        stop_asked=job.stop_asked,
    )


def found_of(job: Job | None) -> SeasonFound | None:
    """What a job found; None while there is nothing yet."""
    if job is None or job.state not in (JobState.DONE, JobState.STOPPED) or not job.result:
        return None
    return read_text(SeasonFound, job.result)


def _progress(job: Job, currency: str) -> str:
    if not job.progress:
        return ""
    news = read_text(SeasonProgress, job.progress)
    words = progress_words(news, currency)
    seconds = counted(round(news.seconds), "second", "seconds")
    return f"{words[0].upper()}{words[1:]}; {seconds} so far."


def season_sheet(shown: Shown) -> SeasonSheet:
    """A plan as its page shows it."""
    answer, system = shown.told.answer, shown.look.system
    fed = [bed for bed in answer.beds if bed.fits]
    bed = next((one for one in fed if one.bed.name == shown.bed), fed[0] if fed else None)
    dated = shown.dates.notices if shown.dates else ()
    return SeasonSheet(
        short=in_short(answer, system),
        mixes=tuple(_mix(mix, system) for mix in answer.mixes),
        bags=bag_table(answer, system),
        feeds=each_named(feed_table(answer, system)),
        rate_unit=rate_unit(system),
        fits=fit_table(answer, system),
        beds=tuple(one.bed.name for one in fed),
        bed=bed.bed.name if bed else "",
        chart=need_chart(bed, system) if bed else None,
        supply=_supply(bed, shown.dates, system),
        dates=each_named(dates_table(shown.dates.feeds, system)) if shown.dates else None,
        money=tuple(money_lines(answer, system)),
        held_back=answer.held_back_by,
        notices=loudest_first((*answer.notices, *dated, *shown.told.notices)),
        working=answer.working,
        why=_why(shown),
    )


def each_named(table: Table) -> Table:
    """The table with what it tells once told in every row, since a row may be read alone.

    >>> each_named(Table(headings=("day", "bed"), rows=(("May", "East"), ("", "West")))).rows
    (('May', 'East'), ('May', 'West'))
    """
    rows: list[tuple[str, ...]] = []
    name = ""
    for row in table.rows:
        name = row[0] or name
        rows.append((name, *row[1:]))
    return Table(headings=table.headings, rows=tuple(rows))


def _mix(mix: MixAnswer, system: System) -> MixSheet:
    return MixSheet(
        title=mix_title(mix),
        chalked=chalk_sum(mix.round, system),
        lines=(stirring_words(mix, system), phosphorus_with_n(mix, system)),
    )


def _supply(bed: BedAnswer | None, dates: DatesFound | None, system: System) -> LineChart | None:
    if bed is None or dates is None:
        return None
    found = next((one for one in dates.curves if one.bed == bed.bed.name), None)
    return supply_chart(found, system) if found and found.weeks else None


def _why(shown: Shown) -> WhySheet | None:
    if shown.why is None:
        return None
    currency, system = shown.told.answer.currency, shown.look.system
    return WhySheet(
        room=room_words(shown.why, currency, system),
        bags=why_words(shown.why, currency, system),
        left=left_words(shown.why, system),
    )


def ways_sheet(comparison: Comparison, look: Look) -> WaysSheet:
    """The ways side by side, with which is enough and why not fewer."""
    return WaysSheet(
        table=ways_table(comparison.ways, look.currency, look.system),
        words=tuple(ways_words(comparison, look.currency)),
    )


def kept_rows(kept: tuple[Kept[SeasonEntry], ...]) -> tuple[KeptRow, ...]:
    """The plans that were kept, the one that is followed marked in words."""
    return tuple(KeptRow(kept=one, words=" ".join(_kept_words(one.value))) for one in kept)


def _kept_words(entry: SeasonEntry) -> Iterator[str]:
    yield f"made on {day_words(entry.made_on)}"
    if entry.chosen:
        yield "(this is the one you follow)"
