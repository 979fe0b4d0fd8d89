"""Worked examples of bulletins, by number of the example, and the errors of the rate module."""

import csv
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from halfpail.domain.label import Analysis
from halfpail.domain.matter import Nutrient
from halfpail.domain.price import price_per_kg_of
from halfpail.domain.rate import (
    carrier_in,
    nutrient_in,
    product_for,
    same_nutrient_from_another,
    soil_amount_kg_per_m2,
)

EXAMPLES = Path(__file__).parents[2] / "examples" / "worked_arithmetic.csv"
Inputs = dict[str, Fraction]


def _nutrient_in(given: Inputs) -> Fraction:
    analysis = Analysis(shares={Nutrient.N: given["percent"] / 100})
    return nutrient_in(given["mass"], analysis, Nutrient.N)


def _carrier_in(given: Inputs) -> Fraction:
    shares = {n: given[n.value.lower()] / 100 for n in (Nutrient.N, Nutrient.P2O5, Nutrient.K2O)}
    return carrier_in(given["mass"], Analysis(shares=shares))


def _price_of(given: Inputs) -> Fraction:
    answer = price_per_kg_of(given["money"] / given["mass"], given["percent"] / 100)
    assert answer is not None
    return answer


# Each sum is a ratio, so pounds go in and pounds come out.
KINDS: dict[str, Callable[[Inputs], Fraction]] = {
    "product_for": lambda given: product_for(given["amount"], given["percent"] / 100),
    "nutrient_in": _nutrient_in,
    "carrier_in": _carrier_in,
    "same_nutrient": lambda given: same_nutrient_from_another(
        given["mass"], given["advised"] / 100, given["at_hand"] / 100
    ),
    "soil_amount": lambda given: soil_amount_kg_per_m2(given["ppm"], given["soil"]),
    "price_of": _price_of,
}


def _rows() -> list[dict[str, str]]:
    with EXAMPLES.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _inputs(text: str) -> Inputs:
    pairs = (pair.split("=") for pair in text.split(";"))
    return {name: Fraction(number) for name, number in pairs}


@pytest.mark.parametrize("row", _rows(), ids=lambda row: row["id"])
def test_worked_example(row: dict[str, str]):
    """The source of each is in its row."""
    answer = KINDS[row["kind"]](_inputs(row["inputs"]))
    assert abs(answer - Fraction(row["exact"])) <= Fraction(row["tolerance"])
    if row["printed"]:
        off = abs(answer - Fraction(row["printed"]))
        assert off <= Fraction(row["printed_tolerance"])


def test_every_example_of_the_set_is_there():
    numbers = {row["id"].split()[0] for row in _rows()}
    assert numbers == {f"W{n}" for n in range(1, 25)} - {"W20"}  # W20 is a blend: test_mix.py


def test_urea_makes_up_the_nitrogen_of_a_19_19_19():
    """W19: N from DAP 7.435, urea 25.142 (farm question-and-answer site, grade C, recomputed)."""
    dap = product_for(Fraction(19), Fraction("0.46"))
    from_dap = dap * Fraction("0.18")
    assert abs(from_dap - Fraction("7.435")) <= Fraction("0.001")
    urea = product_for(19 - from_dap, Fraction("0.46"))
    assert abs(urea - Fraction("25.142")) <= Fraction("0.001")


def test_no_nutrient_no_rate():
    with pytest.raises(ValueError, match="none of that nutrient"):
        product_for(Fraction(1), Fraction(0))
