"""Factors, salts and label rules against published figures; each row names its source."""

import csv
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from halfpail.domain.guarantee import guaranteed_percent, least_insoluble
from halfpail.domain.label_reading import read_label
from halfpail.domain.matter import (
    Nutrient,
    ceiling,
    factor,
    from_stated,
    molar_mass_g_per_mol,
)
from halfpail.reference.label_rules import allowances, label_rules, least_claims

EXAMPLES = Path(__file__).parents[2] / "examples" / "label_figures.csv"
LB_PER_TON = 2000


def rows() -> list[dict[str, str]]:
    with EXAMPLES.open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def allowance(nutrient: str, guarantee: str) -> Fraction:
    return 100 * allowances()[Nutrient(nutrient)].below(Fraction(guarantee) / 100)


COMPUTED: dict[str, Callable[..., Fraction]] = {
    "factor": factor,
    "molar_mass": molar_mass_g_per_mol,
    "ceiling": lambda formula, nutrient: 100 * ceiling(formula)[Nutrient(nutrient)],
    "least_insoluble": lambda organic: least_insoluble(
        Fraction(organic), label_rules()["organic_insoluble"]
    ),
    "stated": lambda nutrient, stated, percent: from_stated(
        Nutrient(nutrient), stated, Fraction(percent)
    ),
    "label_lb_per_ton": lambda text, nutrient: (
        LB_PER_TON * read_label(text).analysis.of(Nutrient(nutrient))
    ),
    "allowance": allowance,
    "minimum": lambda nutrient: 100 * least_claims()[Nutrient(nutrient)].share,
    "rounded": lambda percent: guaranteed_percent(Fraction(percent) / 100),
}


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["id"])
def test_published_figure(row):
    given = dict(pair.split("=", 1) for pair in row["inputs"].split(";"))
    found = COMPUTED[row["kind"]](**given)
    assert abs(found - Fraction(row["exact"])) <= Fraction(row["tolerance"]), float(found)
    if row["printed"]:
        off = abs(found - Fraction(row["printed"]))
        assert off <= Fraction(row["printed_tolerance"]), float(found)


def test_every_row_names_its_source():
    assert [row["id"] for row in rows() if not row["source"]] == []
