"""What is kept, said in the words of a garden file, so that a form can show it as typed."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from halfpail.application.garden_entry import BagEntry, BedEntry
from halfpail.web.home import Home
from halfpail.wiring import Services


def bag_words(services: Services, home: Home | None, bag: BagEntry) -> dict[str, Any]:
    """The words of a bag by their keys."""
    assert home
    return dict(services.words_of(replace(home.about, bags=(bag,), beds=()))["bags"][0])


def bed_words(services: Services, home: Home | None, bed: BedEntry) -> dict[str, Any]:
    """The words of a bed by their keys; what lies in a table below is named `table.key`."""
    assert home
    told = services.words_of(replace(home.about, bags=(), beds=(bed,)))["beds"][0]
    return dict(_flat(told))


def _flat(table: Mapping[str, Any], above: str = "") -> list[tuple[str, Any]]:
    found: list[tuple[str, Any]] = []
    for name, value in table.items():
        if isinstance(value, Mapping):
            found += _flat(value, f"{above}{name}.")
        elif isinstance(value, list):
            for number, one in enumerate(value, start=1):
                found += _flat(one, f"{above}{name}[{number}].")
        else:
            found.append((above + name, value))
    return found
