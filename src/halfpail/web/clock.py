"""The day that pages call today."""

from datetime import date, datetime


def today() -> date:
    """The day it is where this machine stands."""
    return datetime.now().astimezone().date()
