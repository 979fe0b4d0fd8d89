"""Formulas and factors against a general atomic-weights library, and what is no formula."""

from fractions import Fraction

import pytest
from molmass import ELEMENTS, Formula

from halfpail.domain.matter import (
    ATOMIC_WEIGHT,
    OXIDE,
    Nutrient,
    atoms,
    ceiling,
    factor,
    from_element,
    from_oxide,
    molar_mass_g_per_mol,
    to_element,
    to_oxide,
)
from halfpail.reference.materials import materials

# The library carries full weights, this project the abridged ones (five figures).
CLOSE = 2e-4
FORMULAS = sorted({material.formula for material in materials() if material.formula})


@pytest.mark.parametrize("symbol", ATOMIC_WEIGHT)
def test_weights_agree_with_the_library(symbol):
    """molmass, tables of NIST and IUPAC."""
    assert float(ATOMIC_WEIGHT[symbol]) == pytest.approx(ELEMENTS[symbol].mass, rel=CLOSE)


@pytest.mark.parametrize("formula", FORMULAS)
def test_molar_masses_of_the_materials_agree_with_the_library(formula):
    """molmass; it reads a dot as we do once each part is summed."""
    theirs = 0.0
    for part in formula.split("."):
        count = part[: len(part) - len(part.lstrip("0123456789"))]
        theirs += int(count or 1) * Formula(part[len(count) :]).mass
    assert float(molar_mass_g_per_mol(formula)) == pytest.approx(theirs, rel=CLOSE)


@pytest.mark.parametrize("nutrient", OXIDE)
def test_oxide_factors_agree_with_the_library(nutrient):
    """molmass, mass fraction of the element in its oxide."""
    oxide = Formula(OXIDE[nutrient])
    theirs = oxide.composition()[nutrient.element].fraction
    ours = factor(OXIDE[nutrient], nutrient.element, nutrient.element)
    assert float(ours) == pytest.approx(theirs, rel=CLOSE)


@pytest.mark.parametrize("nutrient", OXIDE)
def test_there_and_back_is_exact(nutrient):
    share = Fraction("0.137")
    assert to_oxide(nutrient, from_oxide(nutrient, share)) == share
    assert to_element(nutrient, from_element(nutrient, share)) == share
    assert from_oxide(nutrient, to_oxide(nutrient, share)) == share


def test_a_label_basis_is_left_alone():
    share = Fraction(4, 100)
    assert from_oxide(Nutrient.P2O5, share) == from_oxide(Nutrient.K2O, share) == share
    assert from_element(Nutrient.CA, share) == share


@pytest.mark.parametrize(
    ("formula", "expected"),
    [
        ("CO(NH2)2", {"C": 1, "O": 1, "N": 2, "H": 4}),
        ("CaSO4.2H2O", {"Ca": 1, "S": 1, "O": 6, "H": 4}),
        ("CaSO4·2H2O", {"Ca": 1, "S": 1, "O": 6, "H": 4}),
        ("5Ca(NO3)2.NH4NO3.10H2O", {"Ca": 5, "N": 12, "O": 43, "H": 24}),
        ("K2Mg2(SO4)3", {"K": 2, "Mg": 2, "S": 3, "O": 12}),
    ],
)
def test_atoms_counted_by_hand(formula, expected):
    assert dict(atoms(formula)) == expected


@pytest.mark.parametrize(
    "formula", ["", ".", "Xx2", "Ca(", "Ca)2", "ca", "Ca-O", "2", "Ca((OH)2", "H2O.", "Ca²"]
)
def test_what_is_no_formula_is_refused(formula):
    with pytest.raises(ValueError, match=r"formula|bracket|element"):
        atoms(formula)


def test_a_factor_needs_an_element_in_common():
    with pytest.raises(ValueError, match="do not both hold"):
        factor("KCl", "P2O5", through="P")


def test_no_nutrient_is_not_in_a_ceiling():
    assert Nutrient.K2O not in ceiling("CO(NH2)2")
