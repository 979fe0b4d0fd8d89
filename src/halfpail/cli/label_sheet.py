"""`halfpail label-sheet`: labels for pails."""

import click

from halfpail.application.print_pail_label import LabelSize
from halfpail.application.print_season import PrintedMix, label_page
from halfpail.cli.mixes_to_print import mix_options
from halfpail.cli.paper_options import Printing, paper_options, print_pages

_SIZES = {"sheet": LabelSize.SHEET, "4x3": LabelSize.LARGE, "A7": LabelSize.A7}


@click.command(
    "label-sheet",
    short_help="Print labels for the pails of a mix.",
    epilog="Examples: halfpail label-sheet '4-4-4, 1 scoop' '12-0-0, 2 scoops'; "
    "halfpail label-sheet --garden garden.toml --size A7.",
)
@mix_options
@click.option(
    "--size",
    type=click.Choice(list(_SIZES), case_sensitive=False),
    default="sheet",
    show_default=True,
    help="Six on the printer's paper, or one label of 4 x 3 in or A7.",
)
@paper_options
def command(mixes: tuple[PrintedMix, ...], size: str, printing: Printing) -> None:
    """Print pail labels: grade, guaranteed analysis, sources, how much to give, what to keep off.

    Every guarantee is rounded down. The label is for own use: a mix that is given away or sold
    may need a label and a registration that the law of your place lays down.
    """
    print_pages(
        (
            (f"pail-labels-{number}", label_page(one, _SIZES[size]))
            for number, one in enumerate(mixes, start=1)
        ),
        printing,
    )
