"""The mixes that a command prints: typed bag by bag, or those of a garden's plan."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import wraps
from pathlib import Path
from typing import Any

import click

from halfpail.application.gather_bags import NO_SHELF, gather_bags
from halfpail.application.open_garden import open_garden
from halfpail.application.plan_season import GOOD_ENOUGH, plan_season
from halfpail.application.print_season import PrintedMix, planned_mixes
from halfpail.application.season_answer import SeasonAnswer
from halfpail.application.sum_mix import MixQuestion
from halfpail.cli.season import NO_PLAN
from halfpail.cli.season_report import unmet_text
from halfpail.domain.garden import Garden, Preferences, Tools
from halfpail.domain.season import Unmet
from halfpail.findings import Fault, Refusal
from halfpail.quantities.reading import read_volume_l
from halfpail.quantities.units import System
from halfpail.wiring import services


@dataclass(frozen=True, slots=True, kw_only=True)
class _Typed:
    """What was typed about one mix."""

    bags: tuple[str, ...]
    name: str
    rounds: int


_OPTIONS = (
    click.argument("bags", nargs=-1, metavar="[BAG]..."),
    click.option(
        "--garden",
        type=click.Path(path_type=Path),
        help="A garden file: its scoop and pail are used, and a BAG may be a name in it.",
    ),
    click.option("--scoop", default="1 cup", show_default=True, help="What a level scoop holds."),
    click.option("--pail", default="5 gal", show_default=True, help="What the pail holds."),
    click.option(
        "--units",
        type=click.Choice(list(System), case_sensitive=False),
        help="Units on the paper; else as the garden file says, or US.",
    ),
    click.option("--name", default="My mix", show_default=True, help="What the mix is called."),
    click.option("--rounds", type=click.IntRange(1, 10_000), default=1, help="Rounds to stir (1)."),
)


def mix_options(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command the mixes to print, as `mixes`: of the bags typed, or else of the plan."""

    @wraps(command)
    def with_mixes(
        *,
        bags: tuple[str, ...],
        garden: Path | None,
        scoop: str,
        pail: str,
        units: System | None,
        name: str,
        rounds: int,
        **rest: Any,
    ) -> None:
        where = _bench(garden, scoop, pail, units)
        mixes: tuple[PrintedMix, ...]
        if bags:
            mixes = (typed_mix(_Typed(bags=bags, name=name, rounds=rounds), where, bool(garden)),)
        elif garden:
            mixes = planned_mixes(where, plan_or_exit(where))
        else:
            remedy = "Write '4-4-4, 2 scoops' '12-0-0, 1 scoop', or --garden FILE for its plan."
            sentence = "There is no mix to print."
            raise Refusal(Fault(place="BAG", read="", sentence=sentence, remedy=remedy))
        command(mixes=mixes, **rest)

    for option in reversed(_OPTIONS):
        with_mixes = option(with_mixes)
    return with_mixes


def _bench(garden: Path | None, scoop: str, pail: str, units: System | None) -> Garden:
    """The garden of a file; or none but for its scoop and pail."""
    if garden:
        return in_units(open_garden(services().read_garden(garden)).garden, units)
    tools = Tools(scoop_l=read_volume_l(scoop, "--scoop"), pail_l=read_volume_l(pail, "--pail"))
    bare = Garden(name="", bags=(), beds=(), tools=tools, preferences=Preferences())
    return in_units(bare, units)


def in_units(garden: Garden, units: System | None) -> Garden:
    """The garden, told in other units where they are given."""
    if units is None:
        return garden
    return replace(garden, preferences=replace(garden.preferences, units=units))


def typed_mix(typed: _Typed, garden: Garden, from_file: bool) -> PrintedMix:
    """The mix of the bags typed."""
    shelf = {bag.name: bag for bag in garden.bags if not bag.avoid} if from_file else NO_SHELF
    currency = garden.preferences.currency
    gathered = gather_bags(typed.bags, garden.tools.scoop_l, currency, shelf)
    question = MixQuestion(
        parts=gathered.parts,
        scoop_l=garden.tools.scoop_l,
        pail_l=garden.tools.pail_l,
        system=garden.preferences.units,
        currency=currency,
    )
    return PrintedMix(name=typed.name, mix=question, rounds=typed.rounds, shed=garden.bags)


def plan_or_exit(garden: Garden) -> SeasonAnswer:
    """The plan of a garden; without one the reason is told and the exit code is 1."""
    answer = plan_season(garden, services().engine, GOOD_ENOUGH)
    if isinstance(answer, Unmet):
        click.echo(unmet_text(answer))
        click.get_current_context().exit(NO_PLAN)
    return answer
