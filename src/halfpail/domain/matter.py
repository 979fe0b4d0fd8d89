"""Nutrients, the basis each is stated on, and what the atomic weights say about both.

A label may state the same calcium as Ca, as CaO or as CaCO3. Every figure is turned into the one
basis of `Nutrient` where it is read, exactly, so that oxide and element never meet unnoticed.
"""

import re
from collections import Counter
from collections.abc import Mapping
from enum import StrEnum
from fractions import Fraction
from functools import cache
from types import MappingProxyType


class Nutrient(StrEnum):
    """A nutrient on the one basis this project uses; the basis is part of the name.

    Phosphorus and potassium stand as oxides, as on a label; everything else as the element.
    The order is the order of a label (Wash. Admin. Code 16-200-711).
    """

    N = "N"
    P2O5 = "P2O5"
    K2O = "K2O"
    CA = "Ca"
    MG = "Mg"
    S = "S"
    B = "B"
    CL = "Cl"
    CO = "Co"
    CU = "Cu"
    FE = "Fe"
    MN = "Mn"
    MO = "Mo"
    NI = "Ni"
    NA = "Na"
    ZN = "Zn"

    @property
    def element(self) -> str:
        """Symbol of the element that is meant.

        >>> Nutrient.P2O5.element, Nutrient.CA.element
        ('P', 'Ca')
        """
        return {"P2O5": "P", "K2O": "K"}.get(self.value, self.value)


PRIMARY = (Nutrient.N, Nutrient.P2O5, Nutrient.K2O)

# IUPAC/CIAAW abridged standard atomic weights, 2021 [g/mol].
ATOMIC_WEIGHT: dict[str, Fraction] = {
    symbol: Fraction(weight)
    for symbol, weight in {
        "H": "1.008",
        "B": "10.81",
        "C": "12.011",
        "N": "14.007",
        "O": "15.999",
        "Na": "22.98977",
        "Mg": "24.305",
        "Si": "28.085",
        "P": "30.973762",
        "S": "32.06",
        "Cl": "35.45",
        "K": "39.0983",
        "Ca": "40.078",
        "Mn": "54.938",
        "Fe": "55.845",
        "Co": "58.933",
        "Ni": "58.693",
        "Cu": "63.546",
        "Zn": "65.38",
        "Mo": "95.95",
    }.items()
}

# The oxide that labels print where they print an oxide at all.
OXIDE: Mapping[Nutrient, str] = MappingProxyType(
    {
        Nutrient.P2O5: "P2O5",
        Nutrient.K2O: "K2O",
        Nutrient.CA: "CaO",
        Nutrient.MG: "MgO",
        Nutrient.S: "SO3",
        Nutrient.B: "B2O3",
        Nutrient.CU: "CuO",
        Nutrient.FE: "Fe2O3",
        Nutrient.MN: "MnO",
        Nutrient.NA: "Na2O",
        Nutrient.ZN: "ZnO",
    }
)

CARBONATE: Mapping[Nutrient, str] = MappingProxyType(
    {Nutrient.CA: "CaCO3", Nutrient.MG: "MgCO3", Nutrient.NA: "Na2CO3"}
)

_FORMULA_TOKEN = re.compile(r"([A-Z][a-z]?)(\d*)|(\()|\)(\d*)", re.ASCII)
_MEMBER = re.compile(r"(\d*)(.+)", re.ASCII)


@cache
def atoms(formula: str) -> Mapping[str, int]:
    """Atoms of each element in a formula; waters and double salts are joined by a dot.

    Raises:
        ValueError: the formula cannot be read or names an unknown element.

    >>> dict(atoms("CaSO4.2H2O"))
    {'Ca': 1, 'S': 1, 'O': 6, 'H': 4}
    """
    total: Counter[str] = Counter()
    for member in formula.replace("·", ".").split("."):
        found = _MEMBER.fullmatch(member)
        if not found:
            raise ValueError(f"cannot read the formula {formula!r}")
        for symbol, count in _atoms_of_member(found[2], formula).items():
            total[symbol] += int(found[1] or 1) * count
    return MappingProxyType(dict(total))


def _atoms_of_member(member: str, formula: str) -> Counter[str]:
    """Atoms of a formula without dots; each open bracket collects its own count."""
    groups: list[Counter[str]] = [Counter()]
    position = 0
    while position < len(member):
        token = _FORMULA_TOKEN.match(member, position)
        if not token or (token[1] and token[1] not in ATOMIC_WEIGHT):
            raise ValueError(f"cannot read the formula {formula!r}")
        position = token.end()
        if token[1]:
            groups[-1][token[1]] += int(token[2] or 1)
        elif token[3]:
            groups.append(Counter())
        elif len(groups) == 1:
            raise ValueError(f"a bracket is closed but not opened in {formula!r}")
        else:
            for symbol, count in groups.pop().items():
                groups[-1][symbol] += int(token[4] or 1) * count
    if len(groups) > 1:
        raise ValueError(f"a bracket is left open in {formula!r}")
    return groups[0]


def molar_mass_g_per_mol(formula: str) -> Fraction:
    """Molar mass [g/mol] from the atomic weights.

    Raises:
        ValueError: the formula cannot be read.

    >>> float(molar_mass_g_per_mol("CO(NH2)2"))
    60.056
    """
    return sum(
        (ATOMIC_WEIGHT[symbol] * count for symbol, count in atoms(formula).items()), Fraction(0)
    )


@cache
def factor(stated: str, wanted: str, through: str) -> Fraction:
    """Mass of `wanted` that holds the same atoms of element `through` as 1 of `stated` [kg/kg].

    Raises:
        ValueError: one of the two does not hold that element.

    >>> round(float(factor("P2O5", "P", through="P")), 5)
    0.43643
    >>> round(float(factor("CaCO3", "CaO", through="Ca")), 5)
    0.56029
    """
    held, needed = atoms(stated).get(through, 0), atoms(wanted).get(through, 0)
    if not held or not needed:
        raise ValueError(f"{stated} and {wanted} do not both hold {through}")
    per_atom_wanted = molar_mass_g_per_mol(wanted) / needed
    return held * per_atom_wanted / molar_mass_g_per_mol(stated)


def from_stated(nutrient: Nutrient, stated: str, share: Fraction) -> Fraction:
    """Share of `nutrient` on its own basis [kg/kg], where a label states it as another formula.

    >>> float(from_stated(Nutrient.CA, "CaCO3", Fraction(90, 100))).__round__(4)
    0.3604
    """
    return share * factor(stated, nutrient.value, nutrient.element)


def from_oxide(nutrient: Nutrient, share: Fraction) -> Fraction:
    """Share of `nutrient` on its own basis [kg/kg], stated as its oxide.

    >>> float(from_oxide(Nutrient.CA, Fraction(14, 100))).__round__(4)
    0.1001
    >>> from_oxide(Nutrient.K2O, Fraction(4, 100))
    Fraction(1, 25)
    """
    return from_stated(nutrient, OXIDE[nutrient], share)


def from_element(nutrient: Nutrient, share: Fraction) -> Fraction:
    """Share of `nutrient` on its own basis [kg/kg], stated as the element.

    >>> float(from_element(Nutrient.P2O5, Fraction(4, 100))).__round__(4)
    0.0917
    """
    return from_stated(nutrient, nutrient.element, share)


def to_oxide(nutrient: Nutrient, share: Fraction) -> Fraction:
    """The same share stated as the oxide [kg/kg]; the way back from `from_oxide`.

    >>> float(to_oxide(Nutrient.CA, Fraction(10, 100))).__round__(4)
    0.1399
    """
    return share * factor(nutrient.value, OXIDE[nutrient], nutrient.element)


def to_element(nutrient: Nutrient, share: Fraction) -> Fraction:
    """The same share stated as the element [kg/kg]; the way back from `from_element`.

    >>> float(to_element(Nutrient.P2O5, Fraction(10, 100))).__round__(4)
    0.0436
    """
    return share * factor(nutrient.value, nutrient.element, nutrient.element)


def ceiling(formula: str) -> Mapping[Nutrient, Fraction]:
    """The most of each nutrient that a pure compound can hold [kg/kg].

    >>> {n.value: round(float(share), 4) for n, share in ceiling("CaSO4.2H2O").items()}
    {'Ca': 0.2328, 'S': 0.1862}
    """
    held = atoms(formula)
    return MappingProxyType(
        {
            nutrient: factor(formula, nutrient.value, nutrient.element)
            for nutrient in Nutrient
            if nutrient.element in held
        }
    )
