"""The command that plans a season from a garden file."""

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import wraps
from pathlib import Path
from typing import Any

import click

from halfpail.application.advise_beds import GardenLime, advise_beds
from halfpail.application.date_season import SeasonDates, date_season
from halfpail.application.garden_entry import GardenEntry
from halfpail.application.leave_past_beds import leave_past_beds
from halfpail.application.mend_season import Bench
from halfpail.application.open_garden import OpenedGarden, open_garden
from halfpail.application.plan_as_asked import Asked, SeasonParts, plan_as_asked
from halfpail.application.plan_season import GOOD_ENOUGH
from halfpail.application.ports import SeasonEffort
from halfpail.application.read_plan import read_plan
from halfpail.application.season_in_the_way import SeasonWords
from halfpail.application.word_choices import NO_CUPS
from halfpail.cli import as_json, printing
from halfpail.cli.ground_report import dates_text, lime_text
from halfpail.cli.need_report import garden_text
from halfpail.cli.season_details import (
    comparison_text,
    explanation_text,
    grouped_text,
    kept_text,
    mending_text,
    others_text,
)
from halfpail.cli.season_report import season_text, unmet_text
from halfpail.cli.watching import watching
from halfpail.domain.garden import Garden
from halfpail.domain.season import SeasonPlan, Unmet
from halfpail.findings import Fault, Refusal
from halfpail.quantities.dates import read_date
from halfpail.quantities.reading import read_money
from halfpail.quantities.units import System
from halfpail.wiring import services

NO_PLAN = 1

MORE = (
    "More: --compare lays one, two and three mixes side by side; --explain tells what more room "
    "would save, why each bag is in and what would help a bed that is short; --others shows "
    "truly different plans; --working shows every sum."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted(Asked):
    """What of a season is to be told, and whether to watch while it is planned."""

    watch: bool = False


JUST_THE_PLAN = Wanted()


def plan_options(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command the options of a plan's answer: `units`, `working` and `as_data`."""
    units = click.option(
        "--units",
        type=click.Choice(list(System), case_sensitive=False),
        help="Units of the answer; else as the garden file says.",
    )
    working = click.option("--working", is_flag=True, help="Show how each number was reached.")
    as_data = click.option("--json", "as_data", is_flag=True, help="Answer in JSON.")
    return units(working(as_data(command)))


def season_options(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command what else can be asked of a season, as `asked`."""

    @wraps(command)
    def with_asked(
        *given: Any,
        compare: bool,
        explain: bool,
        others: bool,
        watch: bool,
        cups: int | None,
        **rest: Any,
    ) -> None:
        asked = Wanted(compare=compare, explain=explain, others=others, watch=watch, cups=cups)
        command(*given, asked=asked, **rest)

    flags = (
        ("--compare", "Lay one mix, one with straight nitrogen, two and three side by side."),
        ("--explain", "Tell what more room would save, why each bag is in, what would help."),
        ("--others", "Show truly different plans for nearly the same."),
        ("--watch", "Show the best plan so far while it is planned; Ctrl-C keeps that."),
    )
    with_asked = click.option(
        "--cups", type=click.IntRange(1, 12), metavar="SIZES", help="Amounts of so few sizes a mix."
    )(with_asked)
    for name, told in reversed(flags):
        with_asked = click.option(name, is_flag=True, help=told)(with_asked)
    return with_asked


@click.command(short_help="Plan mixes, bags and beds for a season from a garden file.")
@click.argument("garden", type=click.Path(path_type=Path))
@season_options
@click.option(
    "--keep",
    "old",
    type=click.Path(path_type=Path),
    metavar="PLAN",
    help="Keep this plan, written with --json, unless a new one saves enough.",
)
@click.option(
    "--from",
    "start",
    metavar="DATE",
    help="Plan from a day on, or from today: no day before it, what was given taken off.",
)
@click.option("--unless-saves", metavar="MONEY", help="What is enough for --keep (5.00).")
@plan_options
def command(
    garden: Path,
    asked: Wanted,
    old: Path | None,
    unless_saves: str | None,
    start: str | None,
    units: System | None,
    working: bool,
    as_data: bool,
) -> None:
    """Plan the season of a GARDEN file: what to buy, what to stir, what each bed gets.

    docs/garden-file.md tells how to write the file; `halfpail demo --file` prints one to copy.
    """
    opened = opened_in(services().read_garden(garden), units)
    if old is not None:
        asked = replace(asked, old=_old_plan(old))
    if unless_saves is not None:
        currency = opened.garden.preferences.currency
        asked = replace(asked, unless_saves=read_money(unless_saves, "--unless-saves", currency))
    if start is not None:
        asked = replace(asked, start=read_start(start))
    show_season(opened, working=working, as_data=as_data, asked=asked)


def opened_in(entry: GardenEntry, units: System | None) -> OpenedGarden:
    """The garden of an entry, told in other units where they are given."""
    if units:
        entry = replace(entry, preferences=replace(entry.preferences, units=units))
    return open_garden(entry)


def read_start(text: str) -> date:
    """The day a season is planned from: a date, or today."""
    if text.strip().casefold() == "today":
        return datetime.now().astimezone().date()
    return read_date(text, "--from")


def _old_plan(path: Path) -> SeasonPlan:
    try:
        written = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError) as error:
        fault = Fault(
            place="--keep",
            read=path.name,
            sentence="It cannot be read as JSON.",
            remedy="Write a plan with halfpail season GARDEN --json > plan.json.",
        )
        raise Refusal(fault) from error
    return read_plan(written)


def show_season(
    opened: OpenedGarden,
    *,
    working: bool,
    as_data: bool,
    asked: Wanted = JUST_THE_PLAN,
) -> None:
    """Plan the season of an opened garden and print it; without a plan the exit code is 1."""
    planned = opened if asked.start is None else leave_past_beds(opened, asked.start)
    garden = planned.garden
    with watching(GOOD_ENOUGH, garden.preferences.currency, show=asked.watch) as effort:
        parts = plan_as_asked(garden, asked, _bench(garden, effort))
    dates = None
    if not isinstance(parts.season, Unmet):
        dates = date_season(planned, parts.season, asked.start)
    ground = _Ground(lime=advise_beds(opened, garden.preferences.units), dates=dates)
    if as_data:
        told = {"lime": ground.lime, "dates": ground.dates, "notices": planned.notices}
        click.echo(as_json.dump({**_data(parts), **told}))
    else:
        click.echo("\n\n".join(_pages(parts, garden, (planned, ground), working)))
    if isinstance(parts.season, Unmet):
        click.get_current_context().exit(NO_PLAN)


def _bench(garden: Garden, effort: SeasonEffort) -> Bench:
    liked = garden.preferences
    words = SeasonWords(units=liked.units, currency=liked.currency)
    return Bench(engine=services().engine, solver=services().solver, words=words, effort=effort)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ground:
    """What stands beside the plan of a garden: its lime, and the dates of the plan."""

    lime: GardenLime
    dates: SeasonDates | None


def _pages(
    parts: SeasonParts, garden: Garden, beside: tuple[OpenedGarden, _Ground], working: bool
) -> Iterator[str]:
    """What the beds need, the plan, its dates and the lime, then what was asked beside it."""
    units, currency = garden.preferences.units, garden.preferences.currency
    opened, ground = beside
    yield garden_text([(one.bed.name, one.need) for one in opened.beds], units)
    if isinstance(parts.season, Unmet):
        yield unmet_text(parts.season)
    else:
        yield season_text(parts.season, units, working)
        yield dates_text(ground.dates, units, working)
    yield lime_text(ground.lime)
    if parts.kept:
        yield kept_text(parts.kept, currency)
    if parts.grouped:
        yield grouped_text(parts.grouped, currency)
    if parts.cups_refused:
        yield NO_CUPS
    if parts.comparison:
        yield comparison_text(parts.comparison, currency, units)
    if parts.explanation and not isinstance(parts.season, Unmet):
        yield explanation_text(parts.explanation, parts.season, units)
    if parts.mending:
        yield mending_text(parts.mending, currency)
    if parts.others:
        yield others_text(parts.others, currency, units)
    if not isinstance(parts.season, Unmet):
        if opened.notices:
            yield printing.heading("How bags and beds were read")
            yield printing.notices(opened.notices)
        yield printing.paragraph(MORE)


def _data(parts: SeasonParts) -> dict[str, object]:
    """What was asked and answered, by name; a repair without the whole season it changes."""
    data: dict[str, object] = {
        "season": parts.season,
        "comparison": parts.comparison,
        "kept": parts.kept
        and {
            "kept": parts.kept.kept,
            "saved_money": parts.kept.saved_money,
            "saves_enough_money": parts.kept.saves_enough_money,
            "because": parts.kept.because,
        },
        "grouped": parts.grouped
        and {"sizes_scoops": parts.grouped.sizes, "worse_money": parts.grouped.worse_money},
        "explanation": parts.explanation,
        "others": parts.others,
        "mending": parts.mending
        and {
            "hints": parts.mending.hints,
            "in_the_way": parts.mending.in_the_way,
            "repairs": [
                {"sentence": repair.sentence, "plan": repair.plan}
                for repair in parts.mending.repairs
            ],
        },
    }
    return {name: value for name, value in data.items() if value is not None}
