"""The moment that pages call now, and the day they call today."""

from datetime import UTC, date, datetime


def now() -> datetime:
    """Now, in the time that holds everywhere."""
    return datetime.now(UTC)


def today() -> date:
    """The day it is where this machine stands."""
    return datetime.now().astimezone().date()
