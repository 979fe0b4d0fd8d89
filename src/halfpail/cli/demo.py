"""The command that shows the whole way on the sample garden."""

import click

from halfpail.application.open_garden import OpenedGarden, open_garden
from halfpail.cli import printing
from halfpail.cli.bag_report import bags_text
from halfpail.cli.season import plan_options, show_season
from halfpail.quantities.units import System
from halfpail.wiring import sample_garden_text, services


@click.command(short_help="See a whole garden planned, on an invented sample.")
@click.option("--file", "print_file", is_flag=True, help="Print the sample garden file to copy.")
@plan_options
def command(print_file: bool, units: System | None, working: bool, as_data: bool) -> None:
    """Plan the season of the sample garden: labels read, prices, mixes, beds.

    The garden is invented, with its bags and prices. To plan your own, write
    `halfpail demo --file > garden.toml`, change it, and run `halfpail season garden.toml`.
    """
    if print_file:
        click.echo(sample_garden_text(), nl=False)
        return
    opened = open_garden(services().read_sample_garden())
    if not as_data:
        click.echo(_opening(opened, units or opened.garden.preferences.units))
    show_season(opened, units, working=working, as_data=as_data)


def _opening(opened: OpenedGarden, units: System) -> str:
    return "\n\n".join(
        (
            printing.paragraph(
                "This garden is invented: no such school, shop or bag exists. Copy its file with "
                "halfpail demo --file and put your own bags and beds in it."
            ),
            printing.heading("The bags, as their labels read, and what they cost"),
            bags_text(opened.garden, units),
            "",
        )
    )
