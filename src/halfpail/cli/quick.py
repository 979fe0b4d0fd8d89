"""`halfpail quick`: the first answer, from a few bag lines and the ground to feed."""

from fractions import Fraction

import click

from halfpail.application.answer_first import FirstAnswer, FirstQuestion, answer_first
from halfpail.application.explain_first import first_working
from halfpail.application.gather_bags import gather_bags
from halfpail.cli import printing
from halfpail.cli.as_json import dump
from halfpail.cli.bench import Bench, bench_options
from halfpail.cli.first_report import first_report
from halfpail.domain.bed import Ground, History
from halfpail.findings import Notice
from halfpail.quantities.reading import read_area_m2, read_length_m, read_price_per_kg, read_whole

_NO_COMPOST = Fraction(0)


@click.command(
    "quick",
    short_help="A first answer from a few bags and the ground to feed.",
    epilog="Example: halfpail quick '3-4-4, 25 lb, $12, 2 scoops' '12-0-0 blood meal, 5 lb, $9, "
    "1 scoop' --ground '400 sq ft'. In single quotes the shell leaves the $ alone.",
)
@click.argument("bags", nargs=-1, metavar="BAG...")
@click.option("--ground", required=True, help="All the ground to feed, such as 400 sq ft.")
@click.option("--new-ground", is_flag=True, help="Ground never fed with compost or fertilizer.")
@click.option("--compost", metavar="DEPTH", help="Compost each year so far, such as 1/2 in.")
@click.option("--compost-years", default="1", metavar="YEARS", help="For how many years.")
@click.option("--ceiling", metavar="PRICE", help="Highest price worth paying, such as 0.80 per lb.")
@bench_options
def command(
    bags: tuple[str, ...],
    ground: str,
    new_ground: bool,
    compost: str | None,
    compost_years: str,
    ceiling: str | None,
    bench: Bench,
) -> None:
    """The grade, the price, the pounds for a year, pails and cups, and the phosphorus.

    Each BAG is one line in quotes: grade, weight, price, scoops, and a name if you like. A bag
    without scoops beside others that have some stays out of the mix, and may be given straight.
    """
    gathered = gather_bags(bags, bench.scoop_l, bench.currency)
    question = FirstQuestion(
        parts=gathered.parts,
        others=gathered.others,
        area_m2=read_area_m2(ground, "--ground"),
        scoop_l=bench.scoop_l,
        pail_l=bench.pail_l,
        ground=Ground(
            history=History.VIRGIN if new_ground else History.FED,
            compost_m_per_year=read_length_m(compost, "--compost") if compost else _NO_COMPOST,
            compost_years=read_whole(compost_years, "--compost-years", 0, 50) if compost else 0,
        ),
        wish=bench.wish,
        ceiling_per_kg=read_price_per_kg(ceiling, "--ceiling") if ceiling else None,
        system=bench.system,
        currency=bench.currency,
    )
    answer = answer_first(question)
    if bench.json:
        click.echo(dump({"answer": answer, "working": first_working(answer, question)}))
        return
    click.echo(first_report(answer, question))
    click.echo(_said(answer, gathered.notices))
    if bench.working:
        click.echo(f"\n{printing.heading('Working')}")
        click.echo(printing.working(first_working(answer, question)))


def _said(answer: FirstAnswer, filled: tuple[Notice, ...]) -> str:
    return f"\n{printing.heading('Mind')}\n{printing.notices((*answer.notices, *filled))}"
