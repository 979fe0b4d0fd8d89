"""The options for the frost dates of a place, for several commands."""

from collections.abc import Callable
from dataclasses import replace
from functools import wraps
from typing import Any

import click

from halfpail.application.open_garden import OpenedGarden
from halfpail.application.read_frost_dates import read_frost_dates
from halfpail.application.warm_soil import WarmthQuestion
from halfpail.domain.frost_calendar import FrostDates
from halfpail.findings import Fault, Refusal


def frost_options(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command the frost dates of the place; it gets them read, as `frost`, or None."""

    @wraps(command)
    def with_frost(*, last_frost: str | None, first_frost: str | None, **rest: Any) -> None:
        command(frost=read_frost(last_frost, first_frost), **rest)

    last = click.option(
        "--last-frost",
        metavar="DATE",
        help="Average last frost of spring, with its year; else as the garden file says.",
    )
    first = click.option(
        "--first-frost", metavar="DATE", help="Average first frost of the autumn after it."
    )
    return last(first(with_frost))


def read_frost(last: str | None, first: str | None) -> FrostDates | None:
    """The frost dates of one season; None where neither is given.

    Raises:
        Refusal: one is missing, one is no date, or they are no season.
    """
    if last is None and first is None:
        return None
    if last is None or first is None:
        missing = "--last-frost" if last is None else "--first-frost"
        raise Refusal(Fault(place=missing, read="", sentence="The other frost date is missing."))
    return read_frost_dates(last, first, "--last-frost", "--first-frost")


def at_frost(opened: OpenedGarden, frost: FrostDates | None) -> OpenedGarden:
    """The garden with the frost dates that were typed, or else those of its file."""
    if frost is None:
        return opened
    return replace(opened, climate=replace(opened.climate or WarmthQuestion(), frost=frost))
