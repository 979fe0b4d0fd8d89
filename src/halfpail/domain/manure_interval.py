"""How long before harvest raw manure must be in the ground, and when that refuses a date."""

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum


class Treatment(StrEnum):
    """What was done to the manure before it was bagged."""

    RAW = "raw"
    COMPOSTED = "composted"
    HEATED = "heat-processed"
    UNKNOWN = "not known"


class Contact(StrEnum):
    """Where the part that is eaten grows."""

    SOIL = "touches the soil"
    ABOVE = "does not touch the soil"
    NOT_EATEN = "is not eaten by people"


@dataclass(frozen=True, slots=True, kw_only=True)
class Interval:
    """Raw manure spread too soon before harvest: the least wait, and the dates that keep it.

    `days` of waiting [days], `spread_by` the last date for this harvest, `harvest_from` the first
    harvest after this spreading.
    """

    days: int
    spread_by: date
    harvest_from: date


def too_soon(treatment: Treatment, least_days: int, spread: date, harvest: date) -> Interval | None:
    """What stands against a date; None where nothing does.

    `least_days` is the wait for raw manure [days]: 120 where the food touches the soil, else 90
    (7 CFR 205.203(c), as restated by Cornell University). What is not known counts as raw.

    >>> too_soon(Treatment.RAW, 120, date(2027, 6, 1), date(2027, 9, 15)).harvest_from
    datetime.date(2027, 9, 29)
    >>> too_soon(Treatment.COMPOSTED, 120, date(2027, 6, 1), date(2027, 9, 15))
    """
    if treatment in (Treatment.COMPOSTED, Treatment.HEATED):
        return None
    wait = timedelta(days=least_days)
    if harvest - spread >= wait:
        return None
    return Interval(days=least_days, spread_by=harvest - wait, harvest_from=spread + wait)
