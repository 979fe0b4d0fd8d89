"""`halfpail calendar`: the season's tasks as a file for a calendar program."""

from pathlib import Path

import click

from halfpail.application.date_season import date_season
from halfpail.application.open_garden import open_garden
from halfpail.application.season_on_paper import frost_of, season_on_paper
from halfpail.application.write_calendar import calendar_entries
from halfpail.cli.frost_options import at_frost, frost_options
from halfpail.cli.mixes_to_print import plan_or_exit
from halfpail.cli.paper_options import moment_of, write_file
from halfpail.domain.frost_calendar import FrostDates
from halfpail.findings import Fault, Refusal
from halfpail.wiring import services

NO_FROST = Fault(
    place="--last-frost",
    read="",
    sentence="The days of a season follow from its frost dates.",
    remedy="Write --last-frost 2027-05-10 --first-frost 2027-10-01 with your own.",
)


@click.command(
    "calendar",
    short_help="Write the season's days for a calendar program.",
    epilog="Example: halfpail calendar garden.toml --to season.ics",
)
@click.argument("garden", type=click.Path(path_type=Path))
@frost_options
@click.option(
    "--to",
    type=click.Path(path_type=Path, dir_okay=False),
    default=Path("season.ics"),
    show_default=True,
    help="The file to write; an earlier one there is brought up to date.",
)
@click.option("--dated", metavar="DATE", help="The day in the file; today if not said.")
def command(garden: Path, frost: FrostDates | None, to: Path, dated: str | None) -> None:
    """Write planting, stirring, feeding, soil test and lime of a GARDEN as whole days.

    Write it again after a change and read it in again: what moved is moved, what is gone is
    called off, and nothing is doubled.
    """
    opened = at_frost(open_garden(services().read_garden(garden)), frost)
    known = frost_of(opened)
    if known is None:
        raise Refusal(NO_FROST)
    answer = plan_or_exit(opened.garden)
    dates = date_season(opened, answer)
    season = season_on_paper(opened, answer, dates.feeds if dates else ())
    entries = calendar_entries(opened.garden.name, known.first.year, season.tasks)
    earlier = to.read_bytes() if to.is_file() else None
    write_file(
        to, services().calendar.write(opened.garden.name, entries, moment_of(dated), earlier)
    )
