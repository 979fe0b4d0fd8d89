"""Pounds an acre in the measures of a garden, against the printed table of an extension guide."""

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from halfpail.quantities.reading import read_mass_kg, read_rate_kg_per_m2
from halfpail.quantities.units import size_of

TABLE = Path(__file__).parents[1] / "examples" / "rates_for_small_areas.csv"


def rows() -> list[dict[str, str]]:
    with TABLE.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["lb_per_acre"])
def test_pounds_an_acre(row: dict[str, str]):
    """The source is in each row; printed figures are rounded, so half a last digit is free."""
    rate = read_rate_kg_per_m2(f"{row['lb_per_acre']} lb per acre")
    on_100_kg = rate * 100 * size_of("sq ft")
    for unit in ("lb", "oz"):
        off = on_100_kg / size_of(unit) - Fraction(row[f"{unit}_per_100_sq_ft"])
        assert abs(off) <= Fraction(row[f"{unit}_tolerance"])
    off_kg = 10 * on_100_kg - read_mass_kg(row["per_1000_sq_ft"])
    assert abs(off_kg) <= Fraction(row["per_1000_tolerance_oz"]) * size_of("oz")
