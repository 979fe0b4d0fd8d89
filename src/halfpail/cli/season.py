"""The command that plans a season from a garden file."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import click

from halfpail.application.open_garden import OpenedGarden, open_garden
from halfpail.application.plan_season import GOOD_ENOUGH, plan_season
from halfpail.cli import as_json, printing
from halfpail.cli.season_report import season_text, unmet_text
from halfpail.domain.season import Unmet
from halfpail.quantities.units import System
from halfpail.wiring import services

NO_PLAN = 1


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


@click.command(short_help="Plan mixes, bags and beds for a season from a garden file.")
@click.argument("garden", type=click.Path(path_type=Path))
@plan_options
def command(garden: Path, units: System | None, working: bool, as_data: bool) -> None:
    """Plan the season of a GARDEN file: what to buy, what to stir, what each bed gets.

    docs/garden-file.md tells how to write the file; `halfpail demo --file` prints one to copy.
    """
    opened = open_garden(services().read_garden(garden))
    show_season(opened, units, working=working, as_data=as_data)


def show_season(
    opened: OpenedGarden, units: System | None, *, working: bool, as_data: bool
) -> None:
    """Plan the season of an opened garden and print it; without a plan the exit code is 1."""
    garden = opened.garden
    if units:
        garden = replace(garden, preferences=replace(garden.preferences, units=units))
    answer = plan_season(garden, services().engine, GOOD_ENOUGH)
    if isinstance(answer, Unmet):
        click.echo(as_json.dump(answer) if as_data else unmet_text(answer))
        click.get_current_context().exit(NO_PLAN)
    if as_data:
        click.echo(as_json.dump({"season": answer, "notices": opened.notices}))
        return
    click.echo(season_text(answer, garden.preferences.units, working))
    if opened.notices:
        click.echo("\n" + printing.heading("How the bags were read"))
        click.echo("\n" + printing.notices(opened.notices))
