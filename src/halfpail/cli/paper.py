"""`halfpail paper`: every document of a garden, into a folder."""

import sys
from dataclasses import replace
from pathlib import Path
from time import perf_counter

import click

from halfpail.application.date_season import date_season
from halfpail.application.garden_entry import GardenEntry
from halfpail.application.open_garden import OpenedGarden, open_garden
from halfpail.application.plan_season import tell_again
from halfpail.application.print_season import planned_mixes, season_pages
from halfpail.application.season_on_paper import frost_of, season_on_paper
from halfpail.application.weigh_for_shop import weigh_for_shop
from halfpail.application.write_calendar import calendar_entries
from halfpail.cli.card import read_link
from halfpail.cli.frost_options import at_frost, frost_options
from halfpail.cli.mixes_to_print import in_units, plan_or_exit
from halfpail.cli.paper_options import (
    Printing,
    paper_options,
    print_pages,
    write_file,
)
from halfpail.cli.remembered import Remembered, mark_of, recall, remember
from halfpail.domain.frost_calendar import FrostDates
from halfpail.quantities.units import System
from halfpail.wiring import services


@click.command(
    "paper",
    short_help="Print every document of a garden into a folder.",
    epilog="Example: halfpail paper garden.toml --to paper --paper A4",
)
@click.argument("garden", type=click.Path(path_type=Path), required=False)
@frost_options
@click.option(
    "--shop",
    is_flag=True,
    help="Weigh what each bag is worth too, for the buying list and the shop card; takes minutes.",
)
@click.option(
    "--units",
    type=click.Choice(list(System), case_sensitive=False),
    help="Units on the paper; else as the garden file says.",
)
@click.option("--address", metavar="LINK", help="A link to the mixes, as a code on each card.")
@click.option(
    "--remember",
    "remember_in",
    type=click.Path(path_type=Path, dir_okay=False),
    help="A file that keeps what was planned and weighed, to be used again while the garden is the "
    "same.",
)
@paper_options
def command(
    *,
    garden: Path | None,
    frost: FrostDates | None,
    shop: bool,
    units: System | None,
    address: str | None,
    remember_in: Path | None,
    printing: Printing,
) -> None:
    """Print cards, labels, handouts, feeding sheet, season list and buying list of a GARDEN file.

    Without a file the sample garden is taken, which is invented. The season list and the calendar
    need the frost dates of the place.
    """
    read = services().read_garden(garden) if garden else services().read_sample_garden()
    opened = at_frost(open_garden(read), frost)
    opened = replace(opened, garden=in_units(opened.garden, units))
    link = read_link(address)
    started = perf_counter()
    found = _found(read, opened, file=remember_in, shop=shop)
    answer = tell_again(opened.garden, found.plan)
    question = season_on_paper(opened, answer, found.feeds, found.notices)
    if found.shop:
        question = replace(question, worth=found.shop.worth, shop_card=found.shop.card)
    names = [one.name for one in planned_mixes(question.garden, question.answer)] if link else []
    links = {name: link for name in names if link}
    planned = perf_counter()
    print_pages(season_pages(replace(question, prices=printing.prices, links=links)), printing)
    known = frost_of(opened)
    if known:
        entries = calendar_entries(opened.garden.name, known.first.year, question.tasks)
        written = services().calendar.write(opened.garden.name, entries, printing.made_at)
        write_file(printing.folder / "season.ics", written)
    click.echo(
        f"planned in {planned - started:.1f} s, printed in {perf_counter() - planned:.1f} s",
        err=True,
    )


def _found(
    entry: GardenEntry, opened: OpenedGarden, *, file: Path | None, shop: bool
) -> Remembered:
    """The plan and what was weighed: as remembered of this very garden, else found now."""
    mark = mark_of(entry, opened.climate)
    known = recall(file, mark)
    found = known or _planned(mark, opened)
    if shop and found.shop is None:
        bench = services()
        weighed = weigh_for_shop(opened.garden, bench.engine, bench.solver, _told, bench.each)
        found = replace(found, shop=weighed)
    if found != known:
        remember(file, found)
    return found


def _planned(mark: str, opened: OpenedGarden) -> Remembered:
    answer = plan_or_exit(opened.garden)
    dates = date_season(opened, answer)
    feeds, notices = (dates.feeds, dates.notices) if dates else ((), ())
    return Remembered(of=mark, plan=answer.plan, feeds=feeds, notices=notices)


def _told(name: str) -> None:
    """A line that comes and goes on a terminal: what is being weighed."""
    if sys.stderr.isatty():
        click.echo(f"\r\x1b[Kweighing {name}", nl=False, err=True)
