"""Label minimums and tolerances against the rules that print them."""

from fractions import Fraction

import pytest

from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.reference.label_rules import allowances, minimums, primary_allowances


@pytest.mark.parametrize(
    ("nutrient", "guarantee", "allowance"),
    # Computed from N.H. Admin. Code Agr 1105.04; sulfur at 20 % meets the cap of one unit.
    [
        ("Ca", "8.0", "0.60"),
        ("Mg", "1.0", "0.25"),
        ("S", "15", "0.95"),
        ("S", "20", "1.00"),
        ("B", "0.02", "0.006"),
        ("Fe", "0.10", "0.015"),
        ("Mo", "0.0005", "0.00025"),
    ],
)
def test_allowances_of_secondary_nutrients(nutrient, guarantee, allowance):
    below = allowances()[Nutrient(nutrient)].below(Fraction(guarantee) / 100)
    assert below * 100 == Fraction(allowance)


@pytest.mark.parametrize(
    ("state", "nutrient", "percent"),
    # Washington Admin. Code 16-200-711; Utah Admin. Code R68-3-4.
    [
        ("Washington", "Ca", "1"),
        ("Washington", "Mg", "0.5"),
        ("Washington", "B", "0.02"),
        ("Washington", "Mo", "0.0005"),
        ("Utah", "S", "1"),
        ("Utah", "Fe", "0.1"),
        ("Utah", "Ni", "0.001"),
    ],
)
def test_minimums(state, nutrient, percent):
    found = [one.share for one in minimums() if (one.state, one.nutrient) == (state, nutrient)]
    assert found == [Fraction(percent) / 100]


def test_washington_asks_nothing_of_nickel():
    """Washington Admin. Code 16-200-711 has no line for it."""
    assert not any(one.nutrient == Nutrient.NI for one in minimums() if one.state == "Washington")


def test_primary_allowances_rise_with_the_guarantee():
    rows = primary_allowances()
    for nutrient in PRIMARY:
        falls = [row.below[nutrient] for row in rows]
        assert falls == sorted(falls)
    # Above 32 % N the allowance is 0.88 (United States investigational allowances, seen there).
    assert rows[-1].below[Nutrient.N] * 100 == Fraction("0.88")
