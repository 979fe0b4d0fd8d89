"""`halfpail paper`: every document of a garden, into a folder."""

import sys
from dataclasses import replace
from pathlib import Path
from time import perf_counter

import click

from halfpail.application.date_season import date_season
from halfpail.application.make_shop_card import ShopCard, make_shop_card
from halfpail.application.open_garden import OpenedGarden, open_garden
from halfpail.application.print_season import SeasonQuestion, planned_mixes, season_pages
from halfpail.application.season_answer import SeasonAnswer
from halfpail.application.season_on_paper import frost_of, season_on_paper
from halfpail.application.weigh_worth import WorthAnswer, weigh_worth
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
from halfpail.domain.frost_calendar import FrostDates
from halfpail.domain.garden import Garden
from halfpail.domain.season import Unmet
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
@paper_options
def command(
    *,
    garden: Path | None,
    frost: FrostDates | None,
    shop: bool,
    units: System | None,
    address: str | None,
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
    question = season_of(opened, plan_or_exit(opened.garden))
    if shop:
        worth, card = _weighed(opened.garden)
        question = replace(question, worth=worth, shop_card=card)
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


def season_of(opened: OpenedGarden, answer: SeasonAnswer) -> SeasonQuestion:
    """A planned season with its days, as far as the frost dates are known."""
    dates = date_season(opened, answer)
    return season_on_paper(
        opened, answer, dates.feeds if dates else (), dates.notices if dates else ()
    )


def _weighed(garden: Garden) -> tuple[WorthAnswer | None, ShopCard | None]:
    """What each bag and each per cent is worth, weighed with one mix as `halfpail worth` does.

    More mixes take much longer to weigh. Nothing where there is no plan.
    """
    garden = replace(garden, preferences=replace(garden.preferences, mixes=1))
    engine, solver = services().engine, services().solver
    worth = weigh_worth(garden, engine, on_bag=_told, each=services().each)
    card = make_shop_card(garden, engine, solver, on_bag=_told, each=services().each)
    return (
        None if isinstance(worth, Unmet) else worth,
        None if isinstance(card, Unmet) else card,
    )


def _told(name: str) -> None:
    """A line that comes and goes on a terminal: what is being weighed."""
    if sys.stderr.isatty():
        click.echo(f"\r\x1b[Kweighing {name}", nl=False, err=True)
