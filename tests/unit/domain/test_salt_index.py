"""Salt index and seed rows against published figures; each row names its source."""

import csv
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from halfpail.domain.salt_index import (
    along_row_kg_per_m,
    mixture_index,
    most_with_seed_kg_per_m,
)
from halfpail.quantities.units import size_of
from halfpail.reference.salt_index import salt_indices, seed_rows
from halfpail.reference.table_units import table_unit

EXAMPLES = Path(__file__).parents[2] / "examples" / "salt_figures.csv"
OZ_ON_100_FT = size_of("oz") / (100 * size_of("ft"))
Inputs = dict[str, Fraction]


def rows() -> list[dict[str, str]]:
    with EXAMPLES.open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def mixture(given: Inputs) -> Fraction:
    parts = [
        (percent / 100, salt_indices()[key].value)
        for key, percent in given.items()
        if key != "nutrients"
    ]
    index = mixture_index(parts)
    assert index is not None
    return index


COMPUTED: dict[str, Callable[[Inputs], Fraction]] = {
    "mixture": mixture,
    "per_unit": lambda given: mixture(given) / given["nutrients"],
    "along": lambda given: (
        along_row_kg_per_m(
            given["rate"] * table_unit("lb_per_acre").size, given["row"] * size_of("in")
        )
        / OZ_ON_100_FT
    ),
}


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["id"])
def test_published_figure(row):
    pairs = (pair.split("=") for pair in row["inputs"].split(";"))
    found = COMPUTED[row["kind"]]({name: Fraction(number) for name, number in pairs})
    assert abs(found - Fraction(row["exact"])) <= Fraction(row["tolerance"]), float(found)
    if row["printed"]:
        off = abs(found - Fraction(row["printed"]))
        assert off <= Fraction(row["printed_tolerance"]), float(found)


def test_the_table_holds_the_rates_of_the_examples():
    table = {(one.row_space_m / size_of("in"), one.most_kg_per_m2) for one in seed_rows()}
    told = [dict(p.split("=") for p in row["inputs"].split(";")) for row in rows()]
    size = table_unit("lb_per_acre").size
    along = {(Fraction(one["row"]), Fraction(one["rate"]) * size) for one in told if "row" in one}
    assert table == along


def test_what_is_not_known_is_never_nought():
    assert mixture_index([(Fraction(1, 2), Fraction(50)), (Fraction(1, 2), None)]) is None


def test_what_holds_neither_is_not_limited():
    assert most_with_seed_kg_per_m(Fraction(1), Fraction(0)) is None
