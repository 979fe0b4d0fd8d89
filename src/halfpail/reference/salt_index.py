"""Salt index of materials, and the most nitrogen and potash that may lie with seed."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from halfpail.reference.tables import rows
from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class SaltIndex:
    """Salt index of one material [index], sodium nitrate being 100, and who says so."""

    value: Fraction
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class SeedRow:
    """The most N and K2O with the seed [kg/m²] on a soil, for rows so far apart [m]."""

    soil: str
    row_space_m: Fraction
    most_kg_per_m2: Fraction
    citation: Citation


@cache
def salt_indices() -> Mapping[str, SaltIndex]:
    """The salt index of each material of the table, by its key.

    >>> float(salt_indices()["urea"].value)
    74.4
    """
    return {
        row.text("material"): SaltIndex(value=row.needed("salt_index"), citation=row.citation())
        for row in rows("salt_index")
    }


@cache
def seed_rows() -> tuple[SeedRow, ...]:
    """Every row of the table of what may lie with seed.

    >>> len(seed_rows())
    6
    """
    return tuple(
        SeedRow(
            soil=row.text("soil"),
            row_space_m=row.needed("row_space_in"),
            most_kg_per_m2=row.needed("n_and_k2o_lb_per_acre"),
            citation=row.citation(),
        )
        for row in rows("seed_row")
    )
