"""What publications advise for single crops, each with the nitrogen it means and its use."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from halfpail.domain.soil_test import Element, Extractant
from halfpail.reference.table_units import table_unit
from halfpail.reference.tables import Row, rows
from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedRate:
    """A rate of one nutrient from low to high [kg/m²], as a region gives it to some crops.

    It goes by a soil test up to `top_mg_per_kg` of one extractant, by a `level` in words, or by
    neither. `basis` says which nitrogen is meant; `reason` why it is not used, if it is not.
    """

    crops: tuple[str, ...]
    nutrient: str
    region: str
    element: Element | None
    extractant: Extractant | None
    level: str
    top_mg_per_kg: Fraction | None
    low: Fraction
    high: Fraction
    basis: str
    reason: str
    citation: Citation


@cache
def published_rates() -> tuple[PublishedRate, ...]:
    """Every published rate, in the order of the table."""
    return tuple(_rate(row) for row in rows("published_rates"))


def rates_for(crop: str, nutrient: str) -> tuple[PublishedRate, ...]:
    """The published rates of one nutrient for a crop by key, of every region.

    >>> [rate.region for rate in rates_for("eggplant", "N")]
    ['Ontario']
    """
    return tuple(
        rate for rate in published_rates() if crop in rate.crops and rate.nutrient == nutrient
    )


def _rate(row: Row) -> PublishedRate:
    size = table_unit(row.text("unit")).size
    element, extractant = row.text("element"), row.text("extractant")
    return PublishedRate(
        crops=row.words("crops"),
        nutrient=row.text("nutrient"),
        region=row.text("region"),
        element=Element(element) if element else None,
        extractant=Extractant(extractant) if extractant else None,
        level=row.text("level"),
        top_mg_per_kg=row.amount("top_ppm"),
        low=Fraction(row.text("low")) * size,
        high=Fraction(row.text("high")) * size,
        basis=row.text("basis"),
        reason=row.text("reason"),
        citation=row.citation(),
    )
