"""Thermal diffusivity of soils, from the shipped table."""

from dataclasses import dataclass
from functools import cache

from halfpail.reference.tables import rows
from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilHeat:
    """One soil in one state of wetness, its diffusivity [m²/s], and who says so."""

    soil: str
    state: str
    diffusivity_m2_per_s: float
    citation: Citation


@cache
def soils_by_heat() -> tuple[SoilHeat, ...]:
    """All soils, the usual one first."""
    return tuple(
        SoilHeat(
            soil=row.text("soil"),
            state=row.text("state"),
            diffusivity_m2_per_s=float(row.needed("diffusivity_mm2_per_s")),
            citation=row.citation(),
        )
        for row in rows("soil_heat")
    )


def usual_soil() -> SoilHeat:
    """The soil taken where none is named.

    >>> usual_soil().diffusivity_m2_per_s
    5e-07
    """
    return soils_by_heat()[0]
