"""A garden as typed, written as a garden file that reads back as the same garden."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields as fields_of
from fractions import Fraction
from functools import partial
from typing import Any

from halfpail.application.garden_entry import BagEntry, GardenEntry
from halfpail.domain.garden import Preferences, Tools
from halfpail.garden_file import keys
from halfpail.garden_file.amount_words import CELSIUS, LENGTH, faces_of, reads_as, written
from halfpail.garden_file.bed_tables import bed_tables
from halfpail.garden_file.key import Key
from halfpail.garden_file.reader import read_text
from halfpail.garden_file.typed_words import tables_of_words

_ESCAPED = {"\\": "\\\\", '"': '\\"', "\b": "\\b", "\f": "\\f", "\r": "\\r"}


def write_text(entry: GardenEntry) -> str:
    """The text of a garden file.

    Amounts stand in the words they were typed in as long as these still say the same. An amount
    that no short number can hold, as what is left in the shed after a batch, is rounded to the
    ninth decimal place.
    """
    currency = entry.preferences.currency
    tools = _table(keys.TOOLS, _unusual(entry.tools, Tools), _under(entry.typed, "tools"), currency)
    liked = _unusual(entry.preferences, Preferences)
    if entry.elemental_labels:
        liked["elemental_labels"] = True
    tables: dict[str, Any] = {
        "name": entry.name,
        "tools": tools,
        "preferences": _table(
            keys.PREFERENCES, liked, _under(entry.typed, "preferences"), currency
        ),
        "climate": _climate_table(entry),
        "bags": [
            _table(keys.BAG, _unusual(bag, BagEntry), bag.typed, currency) for bag in entry.bags
        ],
        "beds": [bed_tables(bed) for bed in entry.beds],
    }
    return _text({name: table for name, table in tables.items() if table not in ({}, [])})


def _unusual(entry: Any, kind: type[Any]) -> dict[str, Any]:
    """The fields of an entry that are not as usual."""
    return {
        one.name: value
        for one in fields_of(kind)
        if (value := getattr(entry, one.name)) != one.default
    }


def _under(words: Mapping[str, str], table: str) -> dict[str, str]:
    start = f"{table}."
    return {at.removeprefix(start): text for at, text in words.items() if at.startswith(start)}


def _table(
    known: Sequence[Key], fields: Mapping[str, Any], typed: Mapping[str, str], currency: str
) -> dict[str, Any]:
    table: dict[str, Any] = {}
    for key in known:
        if key.into not in fields:
            continue
        value = fields[key.into]
        read = partial(key.read, place="", **({"currency": currency} if key.money else {}))
        words = typed.get(key.name)
        stays = words is not None and not isinstance(value, int) and reads_as(words, value, read)
        table[key.name] = words if stays else written(value, faces_of(key.into), read)
    return table


def _climate_table(entry: GardenEntry) -> dict[str, Any]:
    """How warm the place is, in the words it was told in where they still hold."""
    told = entry.climate
    typed = tables_of_words(_under(entry.typed, "climate"))
    if told is None or (typed and read_text(_text({"climate": typed})).climate == told):
        return typed if told else {}
    exact: dict[str, Any] = {}
    if told.frost:
        exact["last_frost"] = written(told.frost.last)
        exact["first_frost"] = written(told.frost.first)
    if told.months_c:
        exact["months"] = [_celsius(mean_c) for mean_c in told.months_c]
    if told.steady_c is not None:
        exact["soil_temperature"] = _celsius(told.steady_c)
    if told.depth_m is not None:
        exact["soil_depth"] = written(Fraction(repr(told.depth_m)), LENGTH)
    return exact


def _celsius(temperature_c: float) -> object:
    return written(Fraction(repr(temperature_c)), CELSIUS)


def _text(tables: Mapping[str, Any]) -> str:
    return "\n".join(_lines(tables, "")).lstrip("\n") + "\n"


def _lines(table: Mapping[str, Any], place: str) -> Iterator[str]:
    """A table in TOML: its own keys first, then the tables below it."""
    below = {name: one for name, one in table.items() if _is_below(one)}
    for name, one in table.items():
        if name not in below:
            yield f"{name} = {_value(one)}"
    for name, one in below.items():
        at = f"{place}{name}"
        for inside in one if isinstance(one, list) else [one]:
            yield ""
            if isinstance(one, list):
                yield f"[[{at}]]"
            elif not inside or not all(_is_below(held) for held in inside.values()):
                yield f"[{at}]"
            yield from _lines(inside, f"{at}.")


def _is_below(value: object) -> bool:
    """Whether it is a table, or a list of tables."""
    return isinstance(value, dict) or (
        isinstance(value, list) and any(isinstance(one, dict) for one in value)
    )


def _value(value: object) -> str:
    if isinstance(value, list):
        return f"[{', '.join(_value(one) for one in value)}]"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    text = "".join(_letter(letter) for letter in str(value))
    if "\n" in text:
        return f'"""\n{text}"""'
    return f'"{text}"'


def _letter(letter: str) -> str:
    if letter in _ESCAPED:
        return _ESCAPED[letter]
    if letter in "\n\t" or (letter >= " " and letter != "\x7f"):
        return letter
    return f"\\u{ord(letter):04x}"
