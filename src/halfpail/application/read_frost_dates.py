"""Frost dates as typed: two dates of one growing season."""

from halfpail.domain.frost_calendar import FrostDates
from halfpail.findings import Fault, Refusal
from halfpail.quantities.dates import read_date


def read_frost_dates(
    last: str, first: str, place_of_last: str = "last frost", place_of_first: str = "first frost"
) -> FrostDates:
    """The average last frost of spring and the first of the autumn after it.

    Raises:
        Refusal: one is no date, or they are no season.

    >>> read_frost_dates("2027-05-10", "2027-10-01").free_days
    144
    """
    dates = read_date(last, place_of_last), read_date(first, place_of_first)
    try:
        return FrostDates(last=dates[0], first=dates[1])
    except ValueError:
        raise Refusal(
            Fault(
                place=place_of_first,
                read=first,
                sentence="The first frost of autumn comes after the last one of spring, within a "
                "year.",
                remedy="Check the two dates and their years; they may have changed places.",
            )
        ) from None
