"""`halfpail recipe`: the best mix in whole scoops for a grade, a ratio or a purpose."""

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import click

from halfpail.application.explain_recipe import recipe_working
from halfpail.application.find_recipe import find_recipe
from halfpail.application.gather_bags import gather_bags
from halfpail.application.keep_apart import bags_apart
from halfpail.application.open_garden import open_garden
from halfpail.application.read_target import read_target
from halfpail.application.recipe_answer import NoRecipe, RecipeAnswer
from halfpail.application.sum_mix import MixQuestion, sum_mix
from halfpail.cli import printing
from halfpail.cli.as_json import dump
from halfpail.cli.bench import Bench, bench_options
from halfpail.cli.recipe_report import no_recipe_report, recipe_report
from halfpail.domain.garden import Preferences
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.domain.recipe import GradeTarget, Prefer, RecipeWish
from halfpail.domain.stock import Bag
from halfpail.findings import Notice
from halfpail.wiring import services

NO_SUCH_RECIPE = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shelf:
    """The bags to mix from, what they are mixed with, and what was told when they were read."""

    bags: tuple[Bag, ...]
    bench: Bench
    preferences: Preferences
    notices: tuple[Notice, ...]


@click.command(
    "recipe",
    short_help="The best mix in whole scoops for a grade, a ratio or a purpose.",
    epilog="Examples: halfpail recipe --garden garden.toml --wish 4-3-4; "
    "halfpail recipe --purpose fruiting '4-4-4, 25 lb, $12' '0-0-50 potash, 5 lb, $14'.",
)
@click.argument("bags", nargs=-1, metavar="BAG...")
@click.option(
    "--garden",
    type=click.Path(path_type=Path),
    help="A garden file: its bags, scoop, pail and preferences are used.",
)
@click.option("--ratio", metavar="PARTS", help="A wished ratio, N-P2O5-K2O: 3-1-2.")
@click.option("--purpose", metavar="NAME", help="What it is for: all_purpose, leafy, fruiting ...")
@click.option(
    "--within",
    metavar="NUMBER",
    help="How far each number may be off: points of a grade (0.5), parts for 1 of N (0.25).",
)
@click.option(
    "--free",
    multiple=True,
    type=click.Choice([nutrient.value for nutrient in PRIMARY]),
    help="A number that may be anything.",
)
@click.option("--closest", is_flag=True, help="The closest recipe is the best, not the cheapest.")
@click.option("--most-scoops", type=int, help="At most so many scoops in a round (12).")
@click.option("--most-bags", type=int, help="At most so many bags in the mix (4).")
@click.option("--avoid", multiple=True, metavar="NAME", help="A bag to leave out.")
@bench_options
def command(bags: tuple[str, ...], garden: Path | None, bench: Bench, **asked: Any) -> None:
    """Find the mix that meets a wish: the cheapest, the closest, and what lies between.

    The wish is one of --wish GRADE, --ratio PARTS, --purpose NAME. The bags are those of the
    garden file, or each BAG is one line in quotes: '3-4-4, 25 lb, $12'. If no mix can do it, the
    answer says what is in the way and what would help, and the exit code is 1.
    """
    shelf = _garden_shelf(garden, bench) if garden else _typed_shelf(bags, bench)
    wish = _wish(shelf, **asked)
    answer = find_recipe(wish, services().search)
    if isinstance(answer, NoRecipe):
        click.echo(dump(answer) if bench.json else no_recipe_report(answer, shelf.bench))
        click.get_current_context().exit(NO_SUCH_RECIPE)
    summed = sum_mix(_question(answer, shelf))
    steps = (*recipe_working(answer), *summed.working)
    if bench.json:
        click.echo(dump({"recipe": answer, "sum": summed, "working": steps}))
        return
    click.echo(recipe_report(answer, summed, shelf.bench))
    notices = printing.notices((*summed.notices, *answer.notices, *shelf.notices))
    click.echo(f"\n{printing.heading('Mind')}\n{notices}")
    if bench.working:
        click.echo(f"\n{printing.heading('Working')}\n{printing.working(steps)}")


def _typed_shelf(lines: tuple[str, ...], bench: Bench) -> _Shelf:
    gathered = gather_bags(lines, bench.scoop_l, bench.currency)
    return _Shelf(
        bags=(*(part.bag for part in gathered.parts), *gathered.others),
        bench=bench,
        preferences=Preferences(),
        notices=gathered.notices,
    )


def _garden_shelf(path: Path, bench: Bench) -> _Shelf:
    opened = open_garden(services().read_garden(path))
    garden = opened.garden
    return _Shelf(
        bags=garden.bags,
        bench=replace(
            bench,
            scoop_l=garden.tools.scoop_l,
            pail_l=garden.tools.pail_l,
            currency=garden.preferences.currency,
        ),
        preferences=garden.preferences,
        notices=opened.notices,
    )


def _wish(shelf: _Shelf, **asked: Any) -> RecipeWish:
    preferences = shelf.preferences
    named = {bag.name.casefold(): bag.key for bag in shelf.bags}
    return RecipeWish(
        target=read_target(
            shelf.bench.wish, asked["ratio"], asked["purpose"], asked["within"], asked["free"]
        ),
        bags=shelf.bags,
        prefer=Prefer.CLOSEST if asked["closest"] else Prefer.CHEAPEST,
        most_scoops=_first(asked["most_scoops"], preferences.most_scoops),
        most_bags=_first(asked["most_bags"], preferences.most_bags),
        avoid=frozenset(named.get(name.casefold(), name) for name in asked["avoid"]),
        apart=bags_apart(shelf.bags),
        shed_is_free=preferences.shed_is_free,
        scoop_l=shelf.bench.scoop_l,
    )


def _first(given: int | None, otherwise: int) -> int:
    return otherwise if given is None else given


def _question(answer: RecipeAnswer, shelf: _Shelf) -> MixQuestion:
    target = answer.wish.target
    percent = target.percent if isinstance(target, GradeTarget) else {}
    return MixQuestion(
        parts=answer.best.mix.parts,
        scoop_l=shelf.bench.scoop_l,
        pail_l=shelf.bench.pail_l,
        wish={Nutrient(name): number for name, number in percent.items()} or None,
        system=shelf.bench.system,
        currency=shelf.bench.currency,
    )
