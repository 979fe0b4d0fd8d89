"""What is kept, said in the words of a garden file, so that a form can show it as typed."""

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from halfpail.application.garden_entry import BagEntry, BedEntry, GardenEntry
from halfpail.web.home import Home
from halfpail.wiring import Services


def bag_words(services: Services, home: Home | None, bag: BagEntry) -> dict[str, Any]:
    """The words of a bag by their keys."""
    assert home
    return dict(services.words_of(replace(home.about, bags=(bag,), beds=()))["bags"][0])


def bed_words(services: Services, home: Home | None, bed: BedEntry) -> dict[str, Any]:
    """The words of a bed by the fields of its form; see `field_of`."""
    assert home
    told = services.words_of(replace(home.about, bags=(), beds=(bed,)))["beds"][0]
    words = {field_of(key): value for key, value in _flat(told)}
    if "crop" in words:
        words["crops-1-crop"], words["crops-1-yield"] = words.pop("crop"), words.pop("yield", "")
    return words


def garden_words(services: Services, about: GardenEntry) -> dict[str, Any]:
    """The words of a garden's own settings by the fields of their form."""
    told = services.words_of(replace(about, bags=(), beds=()))
    return {
        field_of(key): ", ".join(value) if isinstance(value, list) else value
        for key, value in _flat(told)
    }


def field_of(key: str) -> str:
    """The name of the field for a key of a garden file, such as can stand in an address.

    >>> field_of("soil_test.P"), field_of("crops[1].share")
    ('soil_test-P', 'crops-1-share')
    """
    return re.sub(r"[.\[]", "-", key.replace("]", ""))


def key_of(field: str) -> str:
    """The key of a garden file for the name of a field.

    >>> key_of("soil_test-P"), key_of("crops-1-share")
    ('soil_test.P', 'crops[1].share')
    """
    return re.sub(r"-(\d+)(?=-|$)", r"[\1]", field).replace("-", ".")


def _flat(table: Mapping[str, Any], above: str = "") -> list[tuple[str, Any]]:
    found: list[tuple[str, Any]] = []
    for name, value in table.items():
        if isinstance(value, Mapping):
            found += _flat(value, f"{above}{name}.")
        elif isinstance(value, list) and value and isinstance(value[0], Mapping):
            for number, one in enumerate(value, start=1):
                found += _flat(one, f"{above}{name}[{number}].")
        else:
            found.append((above + name, value))
    return found
