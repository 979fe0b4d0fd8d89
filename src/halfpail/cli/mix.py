"""`halfpail mix`: what a mix is before a bag is opened, and how to move one of its numbers."""

from pathlib import Path

import click

from halfpail.application.gather_bags import NO_SHELF, gather_bags
from halfpail.application.open_garden import open_garden
from halfpail.application.sum_mix import MixQuestion, sum_mix
from halfpail.cli import printing
from halfpail.cli.as_json import dump
from halfpail.cli.bench import Bench, bench_options
from halfpail.cli.mix_report import mix_report
from halfpail.wiring import services


@click.command(
    "mix",
    short_help="What a mix of whole scoops is, and what one scoop more would do.",
    epilog="Examples: halfpail mix '3-4-4, 2 scoops' '12-0-0 blood meal, 1 scoop'; "
    "halfpail mix --garden garden.toml 'Blood meal = 1' 'Starter = 2'.",
)
@click.argument("bags", nargs=-1, metavar="BAG...")
@click.option(
    "--garden",
    type=click.Path(path_type=Path),
    help="A garden file: its scoop and pail are used, and a BAG may be a name in it.",
)
@bench_options
def command(bags: tuple[str, ...], garden: Path | None, bench: Bench) -> None:
    """Sum a mix: its grade, weight, price and bands, the pail, and one scoop more or less.

    Each BAG is one line in quotes: a grade with its scoops (weight and price if you like), or
    with --garden the name of a bag in the file and its scoops.
    """
    shelf, scoop_l, pail_l, currency = NO_SHELF, bench.scoop_l, bench.pail_l, bench.currency
    if garden:
        opened = open_garden(services().read_garden(garden)).garden
        shelf = {bag.name: bag for bag in opened.bags if not bag.avoid}
        scoop_l, pail_l = opened.tools.scoop_l, opened.tools.pail_l
        currency = opened.preferences.currency
    gathered = gather_bags(bags, scoop_l, currency, shelf)
    question = MixQuestion(
        parts=gathered.parts,
        others=gathered.others,
        scoop_l=scoop_l,
        pail_l=pail_l,
        wish=bench.wish,
        system=bench.system,
        currency=currency,
    )
    summed = sum_mix(question)
    if bench.json:
        click.echo(dump(summed))
        return
    click.echo(mix_report(summed, question))
    notices = printing.notices((*summed.notices, *gathered.notices))
    click.echo(f"\n{printing.heading('Mind')}\n{notices}")
    if bench.working:
        click.echo(f"\n{printing.heading('Working')}\n{printing.working(summed.working)}")
