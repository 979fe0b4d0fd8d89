"""What a liming material is worth against pure calcium carbonate: its chemistry and fineness."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from halfpail.domain.matter import atoms, molar_mass_g_per_mol

# Acid that an atom neutralises (or, below nought, makes) once the compound has dissolved.
_ACID_OF = {"Ca": 2, "Mg": 2, "K": 1, "Na": 1, "S": -2, "Cl": -1}
_NEUTRAL = frozenset({"C", "O", "H", "Si"})


class FinenessSystem(StrEnum):
    """Whose rule counts the fineness."""

    NEW_YORK = "New York ENV"
    CORNELL = "Cornell fact sheet 7"
    MISSISSIPPI = "Mississippi RNV"


def equivalents(formula: str) -> int:
    """Acid that one formula of a compound neutralises [equivalents]; below nought it makes acid.

    Raises:
        ValueError: the formula cannot be read, or holds nitrogen, phosphorus or a metal whose
            effect depends on the soil's life.

    >>> equivalents("CaMg(CO3)2"), equivalents("CaSO4.2H2O"), equivalents("S")
    (4, 0, -2)
    """
    held = atoms(formula)
    if strange := set(held) - set(_ACID_OF) - _NEUTRAL:
        raise ValueError(f"the acid of {', '.join(sorted(strange))} is not a matter of formula")
    return sum(count * _ACID_OF.get(symbol, 0) for symbol, count in held.items())


def cce_of(formula: str) -> Fraction:
    """Calcium carbonate equivalent of a pure compound [kg CaCO3 per kg].

    >>> [round(float(100 * cce_of(one)), 2) for one in ("CaCO3", "CaMg(CO3)2", "Ca(OH)2")]
    [100.0, 108.55, 135.08]
    """
    per_equivalent = molar_mass_g_per_mol("CaCO3") / equivalents("CaCO3")
    return equivalents(formula) * per_equivalent / molar_mass_g_per_mol(formula)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sieved:
    """A sieve fraction: passes one mesh, not the finer one (None: all finer), and what it counts.

    `counted` is the share of the fraction that counts as lime [0-1].
    """

    through_mesh: int
    not_through_mesh: int | None
    counted: Fraction


def fineness_factor(passing: Mapping[int, Fraction], system: Sequence[Sieved]) -> Fraction:
    """Share of a ground limestone that counts [0-1], from what passes each mesh [0-1].

    Raises:
        ValueError: a sieve of the system is missing, or a finer one lets more through.

    >>> steps = [Sieved(through_mesh=10, not_through_mesh=50, counted=Fraction(1, 2)),
    ...          Sieved(through_mesh=50, not_through_mesh=None, counted=Fraction(1))]
    >>> fineness_factor({10: Fraction(95, 100), 50: Fraction(60, 100)}, steps)
    Fraction(31, 40)
    """
    wanted = {step.through_mesh for step in system}
    if missing := sorted(wanted - set(passing)):
        raise ValueError(f"what passes {', '.join(map(str, missing))} mesh is wanted too")
    shares = [passing[mesh] for mesh in sorted(passing)]
    if shares != sorted(shares, reverse=True) or not 0 <= shares[-1] <= shares[0] <= 1:
        raise ValueError("a finer sieve never lets more through, and none more than all")
    return sum(
        (
            (passing[step.through_mesh] - passing.get(step.not_through_mesh or 0, Fraction(0)))
            * step.counted
            for step in system
        ),
        Fraction(0),
    )


def effective_value(cce: Fraction, fineness: Fraction) -> Fraction:
    """What a kilogram of the material does in its first year [kg CaCO3 per kg].

    `cce` is its calcium carbonate equivalent [kg/kg], `fineness` the share that counts [0-1].

    >>> float(effective_value(Fraction(92, 100), Fraction("0.812")))
    0.74704
    """
    return cce * fineness


def material_for(rate_kg_per_m2: Fraction, effective: Fraction) -> Fraction:
    """Material that does what a rate of pure calcium carbonate would [kg/m²].

    `effective` is its effective value [kg CaCO3 per kg]. Five pounds at CCE 70 are 7 lb
    (Pennsylvania, notes of the home garden report).

    Raises:
        ValueError: the material does not lime.

    >>> float(material_for(Fraction(5), Fraction(70, 100))).__round__(2)
    7.14
    """
    if effective <= 0:
        raise ValueError("this material does not lime")
    return rate_kg_per_m2 / effective
