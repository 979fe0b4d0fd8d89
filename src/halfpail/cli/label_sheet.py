"""`halfpail label-sheet`: labels for pails."""

import click

from halfpail.application.gift_label import read_directions, read_gift
from halfpail.application.print_pail_label import LabelSize, LabelWish
from halfpail.application.print_season import PrintedMix, label_page
from halfpail.cli.mixes_to_print import mix_options
from halfpail.cli.paper_options import Printing, paper_options, print_pages
from halfpail.quantities.dates import read_date

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
@click.option("--made", metavar="DATE", help="When it was mixed; else a line to write on.")
@click.option("--directions", default="", help="How much to give, and how often.")
@click.option("--maker", help="For a gift: who made it, and so answers for the analysis.")
@click.option("--maker-address", metavar="ADDRESS", help="For a gift: the maker's address.")
@click.option("--net-weight", metavar="WEIGHT", help="For a gift: what is in it, such as 10 lb.")
@paper_options
def command(
    *,
    mixes: tuple[PrintedMix, ...],
    size: str,
    made: str | None,
    directions: str,
    maker: str | None,
    maker_address: str | None,
    net_weight: str | None,
    printing: Printing,
) -> None:
    """Print pail labels: grade, guaranteed analysis, sources, how much to give, what to keep off.

    Every guarantee is rounded down. The label says for own use, not for sale, unless maker,
    address and net weight are given, all three: a mix that is given away or sold may need that
    label, and a registration besides, by the law of your place.
    """
    places = {"maker": "--maker", "address": "--maker-address", "net_weight": "--net-weight"}
    wish = LabelWish(
        size=_SIZES[size],
        made_on=read_date(made, "--made") if made else None,
        directions=read_directions(directions, "--directions"),
        gift=read_gift(maker or "", maker_address or "", net_weight or "", places),
    )
    print_pages(
        (
            (f"pail-labels-{number}", label_page(one, wish))
            for number, one in enumerate(mixes, start=1)
        ),
        printing,
    )
