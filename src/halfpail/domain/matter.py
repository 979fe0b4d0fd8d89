"""Nutrients, the basis each is stated on, and the conversion between oxide and element."""

from enum import StrEnum
from fractions import Fraction


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
    }.items()
}
