"""`halfpail handout`: the working of a mix to teach from, and an exercise with its answers."""

import click

from halfpail.application.print_season import PrintedMix, handout_pages
from halfpail.cli.mixes_to_print import mix_options
from halfpail.cli.paper_options import Printing, paper_options, print_pages


@click.command(
    "handout",
    short_help="Print the working of a mix to teach from, and an exercise.",
    epilog="Example: halfpail handout '4-4-4, 1 scoop' '12-0-0, 2 scoops' --no-prices.",
)
@mix_options
@paper_options
def command(mixes: tuple[PrintedMix, ...], printing: Printing) -> None:
    """Print how a mix is worked out, sum by sum, and the same with blanks and an answer page.

    With a --garden file and no BAG, the mixes of its plan are worked out, each with a bed.
    """
    for number, one in enumerate(mixes, start=1):
        print_pages(handout_pages(one, number, prices=printing.prices), printing)
