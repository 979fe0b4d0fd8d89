"""The readers by what they measure, for the tables of typed quantities."""

import csv
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

from halfpail.quantities import reading

HERE = Path(__file__).parent
Reader = Callable[[str, str, str | None], Fraction | int]

READERS: dict[str, Reader] = {
    "weight": reading.read_mass_kg,
    "volume": reading.read_volume_l,
    "length": reading.read_length_m,
    "area": reading.read_area_m2,
    "rate": lambda text, place, unit: reading.read_rate_kg_per_m2(text, place),
    "price": reading.read_price_per_kg,
    "money": reading.read_money,
    "percent": lambda text, place, unit: reading.read_percent(text, place),
    "number": lambda text, place, unit: reading.read_number(text, place),
    "scoops": lambda text, place, unit: reading.read_scoops(text, place),
    "whole": lambda text, place, unit: reading.read_whole(text, place, least=1, most=12),
}


def rows(name: str) -> list[dict[str, str]]:
    """The rows of a table here; characters that a table cannot show are written as escapes."""
    with (HERE / name).open(encoding="utf-8", newline="") as file:
        table = list(csv.DictReader(file))
    for row in table:
        row["text"] = row["text"].encode("ascii", "backslashreplace").decode("unicode_escape")
    return table
