"""What each crop brings and what its harvest holds."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from halfpail.domain.removal import FoodComposition
from halfpail.reference.table_units import table_unit
from halfpail.reference.tables import Row, rows
from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class ExpectedYield:
    """Fresh weight that a crop may bring [kg/m²]: the good one is expected."""

    crop: str
    low: Fraction | None
    good: Fraction
    excellent: Fraction | None
    citation: Citation


@cache
def food_composition() -> dict[str, FoodComposition]:
    """What the eaten part of each crop holds, by crop; flowers have none."""
    return {row.text("crop"): _food(row) for row in rows("food_composition")}


@cache
def expected_yields() -> dict[str, ExpectedYield]:
    """Yields to expect, by crop.

    >>> round(float(expected_yields()["tomato"].good), 2)
    2.91
    """
    return {row.text("crop"): _yield(row) for row in rows("yields")}


def _food(row: Row) -> FoodComposition:
    return FoodComposition(
        crop=row.text("crop"),
        part=row.text("part"),
        protein_share=row.needed("protein_g_per_100_g"),
        phosphorus_share=row.needed("p_mg_per_100_g"),
        potassium_share=row.needed("k_mg_per_100_g"),
        citation=row.citation(),
    )


def _yield(row: Row) -> ExpectedYield:
    size = table_unit(row.text("unit")).size
    low, excellent = (row.printed(side) for side in ("low", "excellent"))
    return ExpectedYield(
        crop=row.text("crop"),
        low=None if low is None else low * size,
        good=Fraction(row.text("good")) * size,
        excellent=None if excellent is None else excellent * size,
        citation=row.citation(),
    )
