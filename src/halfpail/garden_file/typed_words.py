"""The words of a garden file, kept beside what was read from them."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from halfpail.application.garden_entry import GardenEntry

# These are kept as they are in the entry itself.
_THEMSELVES = {"name", "label"}
_WHOLE = re.compile(r"0|[1-9][0-9]{0,8}")


def with_words(entry: GardenEntry, tables: Mapping[str, Any]) -> GardenEntry:
    r"""The entry with the words of its file: each bag's and bed's under their own keys.

    >>> from halfpail.garden_file.reader import read_text
    >>> read_text("[[bags]]\nweight = '25 lb'").bags[0].typed
    {'weight': '25 lb'}
    """
    words = dict(_words(tables, ""))
    return replace(
        entry,
        typed={
            place: text for place, text in words.items() if not place.startswith(("bags", "bed"))
        },
        bags=tuple(replace(bag, typed=_below(words, bag.place)) for bag in entry.bags),
        beds=tuple(replace(bed, typed=_below(words, bed.place)) for bed in entry.beds),
    )


def words_of(table: Mapping[str, Any]) -> dict[str, str]:
    """The words of one table and of those below it, by key: `need.N.aim`, `crops[1].yield`.

    >>> words_of({"name": "North", "need": {"N": {"aim": "50 g per m²"}}, "compost_years": 3})
    {'need.N.aim': '50 g per m²', 'compost_years': '3'}
    """
    return dict(_words(table, ""))


def tables_of_words(words: Mapping[str, object]) -> dict[str, Any]:
    """The tables the words stood in, whole numbers as such.

    >>> tables_of_words({"need.N.aim": "50 g per m²", "crops[1].crop": "pea"})
    {'need': {'N': {'aim': '50 g per m²'}}, 'crops': [{'crop': 'pea'}]}
    >>> tables_of_words({"means[1]": "3 C", "means[2]": "5 C"})
    {'means': ['3 C', '5 C']}
    """
    tables: dict[str, Any] = {}
    for place, text in words.items():
        *above, key = place.split(".")
        table = tables
        for part in above:
            table = _step(table, part, {})
        _step(table, key, _value(text))
    return tables


def _value(text: object) -> object:
    return int(text) if isinstance(text, str) and _WHOLE.fullmatch(text) else text


def _step(table: dict[str, Any], part: str, new: Any) -> Any:
    """What stands under a key, or under a number of its list; the new value where nothing does."""
    name, _, number = part.rstrip("]").partition("[")
    if not number:
        return table.setdefault(name, new)
    listed = table.setdefault(name, [])
    if len(listed) < int(number):
        listed.append(new)
    return listed[int(number) - 1]


def _words(table: Mapping[str, Any], prefix: str) -> Iterator[tuple[str, str]]:
    for name, value in table.items():
        at = f"{prefix}{name}"
        if isinstance(value, Mapping):
            yield from _words(value, f"{at}.")
        elif isinstance(value, list):
            for number, one in enumerate(value, start=1):
                if isinstance(one, Mapping):
                    yield from _words(one, f"{at}[{number}].")
                else:
                    yield f"{at}[{number}]", str(one)
        elif name not in _THEMSELVES and not isinstance(value, bool):
            yield at, str(value)


def _below(words: Mapping[str, str], place: str) -> dict[str, str]:
    start = f"{place}."
    return {at.removeprefix(start): text for at, text in words.items() if at.startswith(start)}
