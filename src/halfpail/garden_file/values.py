"""Readers of single values of a garden file; each refuses what is wrong, with advice."""

import re
from collections.abc import Callable
from datetime import date
from functools import partial
from typing import Any

from halfpail.domain.nitrate_test import nitrate_nitrogen
from halfpail.findings import Fault, Refusal
from halfpail.quantities.dates import read_date
from halfpail.quantities.reading import read_number, read_rate_kg_per_m2, read_whole
from halfpail.quantities.temperature import read_temperature_c
from halfpail.reference.decay_series import manure_series

MOST_NAME = 80
MANURES = tuple(manure_series())
_NITRATE = re.compile(
    r"([0-9., ]*[0-9]) ?(?:ppm|mg/L)(?: ?(NO3|NO3-N|nitrate-N|N))?", re.IGNORECASE
)
MOST_LABEL = 4000


def refuse(place: str, value: object, sentence: str, remedy: str) -> Refusal:
    """A refusal of one value."""
    return Refusal(Fault(place=place, read=shown(value), sentence=sentence, remedy=remedy))


def shown(value: object) -> str:
    """A value as it may stand in a message: the words of the file, cut short."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "a table of keys"
    if isinstance(value, list):
        return "a list"
    text = str(value)
    return text if len(text) <= 60 else text[:60] + "…"


def amount(read: Callable[..., object]) -> Callable[..., object]:
    """A reader of amounts: words in quotes, or a bare number."""

    def read_amount(value: Any, place: str, **told: Any) -> object:
        if isinstance(value, bool) or not isinstance(value, (str, int)):
            raise refuse(place, value, "An amount is wanted here.", 'Write it in quotes: "25 lb".')
        return read(str(value), place, **told)

    return read_amount


rate = amount(partial(read_rate_kg_per_m2, nought=True))
harvest = amount(read_rate_kg_per_m2)


def words(value: Any, place: str, most: int = MOST_NAME) -> str:
    """Words on one line or several, not empty and not too long."""
    if not isinstance(value, str):
        raise refuse(place, value, "Words are wanted here.", "Put them in quotes.")
    if not value.strip():
        raise refuse(place, value, "Nothing is written here.", "Fill it in, or delete the line.")
    if len(value) > most:
        raise refuse(place, value, f"This is longer than {most} letters.", "Shorten it.")
    return value.strip()


def name(value: Any, place: str) -> str:
    """A name on one line, of letters that can be seen."""
    text = words(value, place)
    if not text.isprintable():
        raise refuse(place, value, "A name stands on one line.", "Use letters that can be seen.")
    return text


def names(value: Any, place: str) -> tuple[str, ...]:
    """A list of names."""
    if not isinstance(value, list):
        raise refuse(place, value, "A list is wanted here.", 'Write ["this", "that"].')
    return tuple(name(one, place) for one in value)


def yes_no(value: Any, place: str) -> bool:
    """True or false."""
    if not isinstance(value, bool):
        raise refuse(place, value, "Yes or no is wanted here.", "Write true or false, no quotes.")
    return value


def choice(*choices: str) -> Callable[[Any, str], str]:
    """A reader of one of a few words, in any case."""

    def read_choice(value: Any, place: str) -> str:
        for one in choices:
            if isinstance(value, str) and value.strip().casefold() == one.casefold():
                return one
        raise refuse(
            place, value, "This is not one of the choices.", f"Write {' or '.join(choices)}."
        )

    return read_choice


def mixes(value: Any, place: str) -> int | None:
    """How many mixes; None where the number is to be found."""
    if isinstance(value, str) and value.strip().casefold() == "find":
        return None
    return whole(1, 4)(value, place)


def whole(least: int, most: int) -> Callable[[Any, str], int]:
    """A reader of whole numbers in a range."""

    def read_in_range(value: Any, place: str) -> int:
        number = amount(partial(read_whole, least=least, most=most))(value, place)
        assert isinstance(number, int)
        return number

    return read_in_range


def currency(value: Any, place: str) -> str:
    """Three capital letters, as banks write a currency."""
    if not (isinstance(value, str) and len(value) == 3 and value.isascii() and value.isupper()):
        raise refuse(place, value, "This is not a currency.", 'Write three letters, as in "USD".')
    return value


def measure(value: Any, place: str) -> object:
    """A share of a scoop, above nought and at most one."""
    share = read_number(str(value), place) if isinstance(value, (str, int)) else 0
    if isinstance(value, bool) or not 0 < share <= 1:
        raise refuse(place, value, "This is not a share of a scoop.", 'Write "1/4", say.')
    return share


def day(value: Any, place: str) -> date:
    """A date with its year, in quotes or as TOML writes one."""
    if type(value) is date:
        return value
    if not isinstance(value, str):
        raise refuse(place, value, "A date is wanted here.", "Write 2027-05-10.")
    return read_date(value, place)


def temperature_c(value: Any, place: str) -> float:
    """A temperature [°C] with its unit."""
    read = amount(read_temperature_c)(value, place)
    return float(read)  # type: ignore[arg-type]  # the reader answers a number


def twelve_means_c(value: Any, place: str) -> tuple[float, ...]:
    """Twelve monthly means [°C], January first."""
    if not isinstance(value, list) or len(value) != 12:
        raise refuse(place, value, "Twelve means are wanted, January first.", 'Write ["24 F", ...')
    return tuple(temperature_c(one, place) for one in value)


def manure_kind(value: Any, place: str) -> str:
    """The key of a series by which manure or compost decays."""
    return choice(*MANURES)(value, place)


def water_nitrate(value: Any, place: str) -> object:
    """Nitrate nitrogen in water or soil, from that or from nitrate itself where NO3 is written."""
    text = words(value, place) if isinstance(value, str) else str(value)
    match = _NITRATE.fullmatch(text)
    if isinstance(value, bool) or match is None:
        remedy = 'Write "5 ppm NO3-N", or "22 ppm NO3".'
        raise refuse(place, value, "Parts per million of nitrate are wanted here.", remedy)
    number = read_number(match[1], place)
    return nitrate_nitrogen(number) if (match[2] or "").upper() == "NO3" else number
