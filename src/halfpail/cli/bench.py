"""The options for what one mixes with and how answers are written, for several commands."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import wraps
from typing import Any

import click

from halfpail.application.read_target import read_grade
from halfpail.domain.matter import Nutrient
from halfpail.quantities.reading import read_volume_l
from halfpail.quantities.units import System


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """Scoop and pail [L], the wished grade [percent], units, money, and the form of the answer."""

    scoop_l: Fraction
    pail_l: Fraction
    wish: Mapping[Nutrient, Fraction] | None = field(hash=False)
    system: System
    currency: str
    working: bool
    json: bool


_OPTIONS = (
    click.option("--scoop", default="1 cup", show_default=True, help="What a level scoop holds."),
    click.option("--pail", default="5 gal", show_default=True, help="What the pail holds."),
    click.option("--wish", metavar="GRADE", help="A grade to hold the mix against: 5-3-3."),
    click.option(
        "--units",
        type=click.Choice(["US", "metric"], case_sensitive=False),
        default="US",
        show_default=True,
        help="Units of the answer.",
    ),
    click.option("--currency", default="USD", show_default=True, help="Currency of the prices."),
    click.option("--working", is_flag=True, help="Show how each number is reached."),
    click.option("--json", "as_json", is_flag=True, help="Answer as JSON."),
)


def bench_options(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command the bench options; it gets them read, as `bench`."""

    @wraps(command)
    def with_bench(
        *,
        scoop: str,
        pail: str,
        wish: str | None,
        units: str,
        currency: str,
        working: bool,
        as_json: bool,
        **rest: Any,
    ) -> None:
        bench = Bench(
            scoop_l=read_volume_l(scoop, "--scoop"),
            pail_l=read_volume_l(pail, "--pail"),
            wish=None if wish is None else read_grade(wish, "--wish"),
            system=System(units),
            currency=currency.upper(),
            working=working,
            json=as_json,
        )
        command(bench=bench, **rest)

    for option in reversed(_OPTIONS):
        with_bench = option(with_bench)
    return with_bench
