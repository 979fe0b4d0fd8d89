"""Reading dates as people type them; a date that could be two is refused."""

import re
from calendar import monthrange
from datetime import date

from halfpail.findings import Fault, Refusal

_REMEDY = "Write year, month, day: 2027-05-10, or 10 May 2027."
_MONTHS = (
    *("january", "february", "march", "april", "may", "june"),
    *("july", "august", "september", "october", "november", "december"),
)
_BY_NUMBER = re.compile(r"([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})")
_DAY_FIRST = re.compile(r"([0-9]{1,2})(?:st|nd|rd|th)? ([a-z]+)\.?,? ([0-9]{4})")
_MONTH_FIRST = re.compile(r"([a-z]+)\.? ([0-9]{1,2})(?:st|nd|rd|th)?,? ([0-9]{4})")


def read_date(text: str, place: str = "") -> date:
    """A date with its year.

    Raises:
        Refusal: it is no date, there is no such day, or it could be two different ones.

    >>> read_date("2027-05-10") == read_date("May 10, 2027") == read_date("10 may 2027")
    True
    """
    plain = " ".join(text.split()).casefold()
    parts = _parts(plain)
    if parts is None:
        raise Refusal(Fault(place=place, read=text, sentence=_why(plain), remedy=_REMEDY))
    try:
        return date(*parts)
    except ValueError:
        sentence = f"There is no such day: {_days_of(*parts)}"
        raise Refusal(Fault(place=place, read=text, sentence=sentence, remedy=_REMEDY)) from None


def _parts(plain: str) -> tuple[int, int, int] | None:
    """Year, month and day; None where the text has none."""
    if match := _BY_NUMBER.fullmatch(plain):
        return int(match[1]), int(match[2]), int(match[3])
    if match := _DAY_FIRST.fullmatch(plain):
        day, month, year = match[1], match[2], match[3]
    elif match := _MONTH_FIRST.fullmatch(plain):
        month, day, year = match[1], match[2], match[3]
    else:
        return None
    found = [number for number, name in enumerate(_MONTHS, 1) if name.startswith(month)]
    return (int(year), found[0], int(day)) if len(month) >= 3 and found else None


def _why(plain: str) -> str:
    if re.fullmatch(r"[0-9]{1,2}[/.][0-9]{1,2}[/.][0-9]{2,4}", plain):
        return "This may be day and month, or month and day."
    if not re.search(r"[0-9]{4}", plain):
        return "This is no date with its year."
    return "This is no date."


def _days_of(year: int, month: int, day: int) -> str:
    if not 1 <= month <= len(_MONTHS):
        return f"a year has twelve months, not {month}."
    if (month, day) == (2, 29):
        return f"{year} is no leap year."
    return f"{_MONTHS[month - 1].capitalize()} {year} has no day {day}."


def day_words(on: date) -> str:
    """A day in words that no reader can take for another day.

    >>> day_words(date(2027, 5, 1))
    '1 May 2027'
    """
    return f"{on.day} {_MONTHS[on.month - 1].capitalize()} {on.year}"


def months_later(day: date, months: int) -> date:
    """The same day so many months later; the last of the month where it has no such day.

    >>> months_later(date(2027, 8, 31), 6), months_later(date(2027, 10, 22), 0)
    (datetime.date(2028, 2, 29), datetime.date(2027, 10, 22))
    """
    years, month = divmod(day.month - 1 + months, 12)
    year = day.year + years
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))
