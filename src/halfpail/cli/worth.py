"""The command that says what each bag is worth to a garden."""

import sys
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path

import click

from halfpail.application.buy_within_budget import BudgetPoint, budget_curve
from halfpail.application.look_inside import Inside, look_inside
from halfpail.application.make_shop_card import ShopCard, make_shop_card
from halfpail.application.open_garden import OpenedGarden, open_garden
from halfpail.application.pose_season import pose_season
from halfpail.application.weigh_worth import WorthAnswer, weigh_worth
from halfpail.cli import as_json, printing
from halfpail.cli.season import NO_PLAN, plan_options
from halfpail.cli.season_report import unmet_text
from halfpail.cli.shop_card import shop_card_text
from halfpail.cli.worth_report import curve_text, inside_text, worth_text
from halfpail.domain.garden import Garden
from halfpail.domain.season import Unmet
from halfpail.quantities.reading import read_money
from halfpail.quantities.units import System
from halfpail.wiring import services

ALSO = ("card", "curve", "inside")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Answers:
    """All that was asked for; what was not is empty."""

    worth: WorthAnswer
    curve: tuple[BudgetPoint, ...]
    inside: tuple[Inside, ...]
    card: ShopCard | None


@click.command(
    "worth",
    short_help="The highest price worth paying for each bag, and how many to buy.",
    epilog="Example: halfpail worth garden.toml --budget 60 --also card --also inside.",
)
@click.argument("garden", type=click.Path(path_type=Path), required=False)
@click.option("--budget", metavar="MONEY", help="Spend no more than this; else as the file says.")
@click.option("--mixes", type=click.IntRange(1, 3), default=1, help="Mixes to plan with (1).")
@click.option(
    "--also",
    type=click.Choice(ALSO),
    multiple=True,
    help="Also a card for the shop, the curve of cost against budget, what is in each bag.",
)
@plan_options
def command(
    garden: Path | None,
    budget: str | None,
    mixes: int,
    also: tuple[str, ...],
    units: System | None,
    working: bool,
    as_data: bool,
) -> None:
    """Weigh every bag of a GARDEN file: its highest price worth paying, and what it replaces.

    Without a file the sample garden is taken, which is invented. Each bag is weighed by planning
    the season with it and without it, which takes a while.
    """
    read = services().read_garden(garden) if garden else services().read_sample_garden()
    opened = _with_wishes(open_garden(read), budget, mixes, units)
    answers = _answers(opened.garden, also)
    if isinstance(answers, Unmet):
        click.echo(as_json.dump(answers) if as_data else unmet_text(answers))
        click.get_current_context().exit(NO_PLAN)
    if as_data:
        click.echo(as_json.dump({**_asked(answers), "notices": opened.notices}))
        return
    click.echo(_page(answers, opened, working))


def _with_wishes(
    opened: OpenedGarden, budget: str | None, mixes: int, units: System | None
) -> OpenedGarden:
    preferences = replace(opened.garden.preferences, mixes=mixes)
    if units:
        preferences = replace(preferences, units=units)
    if budget is not None:
        money: Fraction = read_money(budget, "--budget", preferences.currency)
        preferences = replace(preferences, budget=money)
    return replace(opened, garden=replace(opened.garden, preferences=preferences))


def _answers(garden: Garden, also: tuple[str, ...]) -> _Answers | Unmet:
    engine, solver = services().engine, services().solver
    worth = weigh_worth(garden, engine, on_bag=_told, each=services().each)
    if isinstance(worth, Unmet):
        return worth
    card = (
        make_shop_card(garden, engine, solver, on_bag=_told, each=services().each)
        if "card" in also
        else None
    )
    if isinstance(card, Unmet):
        return card
    bags = [bag for bag in garden.bags if not bag.avoid] if "inside" in also else []
    return _Answers(
        worth=worth,
        curve=budget_curve(pose_season(garden), engine) if "curve" in also else (),
        inside=tuple(look_inside(bag.label, bag.name, solver) for bag in bags),
        card=card,
    )


def _told(name: str) -> None:
    """A line that comes and goes on a terminal: what is being weighed."""
    if sys.stderr.isatty():
        click.echo(f"\r\x1b[Kweighing {name}", nl=False, err=True)


def _asked(answers: _Answers) -> dict[str, object]:
    parts = {
        "worth": answers.worth,
        "budget_curve": answers.curve,
        "inside": answers.inside,
        "shop_card": answers.card,
    }
    return {name: part for name, part in parts.items() if part}


def _page(answers: _Answers, opened: OpenedGarden, with_working: bool) -> str:
    units, currency = opened.garden.preferences.units, opened.garden.preferences.currency
    parts = [worth_text(answers.worth, units)]
    if answers.curve:
        parts.append(curve_text(answers.curve, currency))
    if answers.inside:
        parts.append(printing.heading("What is likely in them"))
        parts += [inside_text(inside) for inside in answers.inside]
    if answers.card:
        parts.append(shop_card_text(answers.card, units))
    parts += [
        printing.heading("Mind"),
        printing.notices((*answers.worth.notices, *opened.notices)),
    ]
    if with_working:
        steps = (*answers.worth.working, *(s for inside in answers.inside for s in inside.working))
        parts += [printing.heading("Working"), printing.working(steps)]
    return "\n\n".join(parts)
