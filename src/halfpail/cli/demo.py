"""The command that shows the whole way on the sample garden."""

from collections.abc import Iterator
from fractions import Fraction

import click

from halfpail.application.chalk_sum import chalk_sum
from halfpail.application.find_recipe import find_recipe
from halfpail.application.open_garden import OpenedGarden
from halfpail.application.recipe_answer import NoRecipe
from halfpail.application.wish_from_garden import wish_from_garden
from halfpail.cli import printing
from halfpail.cli.bag_report import bags_text
from halfpail.cli.season import Wanted, opened_in, plan_options, season_options, show_season
from halfpail.domain.garden import Garden
from halfpail.quantities.showing import show_price_per_mass
from halfpail.quantities.units import System
from halfpail.reference.purposes import purpose
from halfpail.wiring import sample_garden_text, services

RECIPE_FOR = "no_phosphorus"
NONE = Fraction(0)


@click.command(short_help="See a whole garden planned, on an invented sample.")
@click.option("--file", "print_file", is_flag=True, help="Print the sample garden file to copy.")
@season_options
@plan_options
def command(
    print_file: bool, asked: Wanted, units: System | None, working: bool, as_data: bool
) -> None:
    """Plan the season of the sample garden: labels read, prices, a recipe, mixes, beds.

    The garden is invented, with its bags and prices. To plan your own, write
    `halfpail demo --file > garden.toml`, change it, and run `halfpail season garden.toml`.
    """
    if print_file:
        click.echo(sample_garden_text(), nl=False)
        return
    opened = opened_in(services().read_sample_garden(), units)
    if not as_data:
        click.echo(_opening(opened, opened.garden.preferences.units))
    show_season(opened, working=working, as_data=as_data, asked=asked)


def _opening(opened: OpenedGarden, units: System) -> str:
    return "\n\n".join(
        (
            printing.paragraph(
                "This garden is invented: no such school, shop or bag exists. Copy its file with "
                "halfpail demo --file and put your own bags and beds in it."
            ),
            printing.heading("The bags, as their labels read, and what they cost"),
            bags_text(opened.garden, units),
            *_recipe(opened.garden, units),
            "",
        )
    )


def _recipe(garden: Garden, units: System) -> Iterator[str]:
    """One recipe for a purpose that does not build phosphorus, with its proof."""
    wished = purpose(RECIPE_FOR)
    found = find_recipe(wish_from_garden(garden, wished.target), services().search)
    yield printing.heading(f"A recipe from these bags: {wished.name.lower()}, {wished.meaning}")
    if isinstance(found, NoRecipe):
        yield printing.paragraph(f"No recipe meets it: {'; '.join(found.in_the_way)}.", indent="  ")
        return
    best = found.best.mix
    chalked = chalk_sum(best, units)
    yield printing.table(chalked.headings, chalked.all_rows)
    cost = show_price_per_mass(best.cost_per_kg or NONE, garden.preferences.currency, units)
    sentence = f"It costs {cost}, the least for its usable N: {found.proven_by}."
    yield printing.paragraph(sentence, indent="  ")
