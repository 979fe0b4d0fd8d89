"""`halfpail card`: a card to stand by the pail while a mix is stirred."""

import click

from halfpail.application.page import Link
from halfpail.application.print_mixing_card import CardQuestion, print_mixing_card
from halfpail.application.print_season import PrintedMix
from halfpail.cli.mixes_to_print import mix_options
from halfpail.cli.paper_options import Printing, paper_options, print_pages
from halfpail.findings import Fault, Refusal

_LONGEST = 120


@click.command(
    "card",
    short_help="Print a mixing card for the pail.",
    epilog="Examples: halfpail card '4-4-4, 1 scoop' '12-0-0, 2 scoops' --rounds 6; "
    "halfpail card --garden garden.toml for the mixes of its plan.",
)
@mix_options
@click.option("--batch", default="", help="What this making is called; else a line to write on.")
@click.option("--address", metavar="LINK", help="A link to the mix, printed as a code for phones.")
@paper_options
def command(
    mixes: tuple[PrintedMix, ...], batch: str, address: str | None, printing: Printing
) -> None:
    """Print a mixing card: scoops in order with boxes to tick, pails, weights, cautions.

    Each BAG is one line in quotes as for `halfpail mix`. Without any, the mixes of the plan of a
    --garden file are printed, a card for each.
    """
    link = read_link(address)
    print_pages(
        (
            (
                f"mixing-card-{number}",
                print_mixing_card(
                    CardQuestion(
                        name=one.name,
                        mix=one.mix,
                        rounds=one.rounds,
                        shed=one.shed,
                        prices=printing.prices,
                        batch=batch,
                        link=link,
                    )
                ),
            )
            for number, one in enumerate(mixes, start=1)
        ),
        printing,
    )


def read_link(address: str | None) -> Link | None:
    """A link that a code can carry.

    Raises:
        Refusal: it is no web address, or too long for a small code.
    """
    if address is None:
        return None
    start = address.lower().startswith(("http://", "https://"))
    if not start or not address.isascii() or not address.isprintable() or len(address) > _LONGEST:
        raise Refusal(
            Fault(
                place="--address",
                read=address,
                sentence=f"This is no web address of at most {_LONGEST} plain letters.",
                remedy="Write one such as http://192.168.1.20:8765/mixes.",
            )
        )
    return Link(address=address, opens="Opens the mixes in Halfpail, on the machine where it runs.")
