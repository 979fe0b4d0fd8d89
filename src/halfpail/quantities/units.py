"""Units people use at the bench, each with its exact size in this project's own units."""

from enum import StrEnum


class System(StrEnum):
    """The system of units a person reads."""

    US = "US"
    METRIC = "metric"
