"""What soil classes, low calcium or magnesium, boron and containers ask for."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from halfpail.domain.bed import NeedRange
from halfpail.domain.need import ClassRate, Movement
from halfpail.domain.nitrogen_credit import OrganicMatterRule
from halfpail.domain.soil_class import SoilClass
from halfpail.domain.soil_test import Element
from halfpail.reference.defaults import default
from halfpail.reference.tables import Row, rows
from halfpail.sources import Citation

NONE = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoronResponse:
    """How a crop answers to boron where it is low: the printed rate [kg/m²]; none if sensitive."""

    crop: str
    response: str
    high_kg_per_m2: Fraction
    citation: Citation

    @property
    def sensitive(self) -> bool:
        """Whether boron harms the crop."""
        return self.high_kg_per_m2 == 0


@dataclass(frozen=True, slots=True, kw_only=True)
class ContainerRange:
    """Range of one nutrient for a litre of mix [kg/L]."""

    nutrient: str
    least: Fraction
    aim: Fraction
    most: Fraction
    citation: Citation

    def on(self, depth_m: Fraction) -> NeedRange:
        """The same range for the ground a container of this depth covers [kg/m²].

        Phosphorus may go above its most up to the stop of a bed's account, weighed against.

        >>> container_ranges("light")[0].on(Fraction(1, 4)).aim
        Fraction(1, 40)
        """
        litres = depth_m * 1000
        most = self.most * litres
        stop = default("p2o5_surplus_stop").value if self.nutrient == "P2O5" else NONE
        return NeedRange(
            nutrient=self.nutrient,
            least=self.least * litres,
            aim=self.aim * litres,
            most=most,
            cap=max(most, stop),
            citation=self.citation,
        )


@cache
def class_rates() -> dict[tuple[str, SoilClass], ClassRate]:
    """What each class of P and K asks for, by nutrient and class."""
    found = (_class_rate(row) for row in rows("need_by_class"))
    return {(rate.nutrient, rate.soil_class): rate for rate in found}


@cache
def secondary_needs() -> dict[str, NeedRange]:
    """Ranges of calcium and magnesium where a test finds them low [kg/m²]."""
    return {row.text("nutrient"): _secondary(row) for row in rows("secondary_needs")}


@cache
def boron_responses() -> dict[str, BoronResponse]:
    """How crops answer to boron, by crop; crops that no source names are missing."""
    found = (
        BoronResponse(
            crop=row.text("crop"),
            response=row.text("response"),
            high_kg_per_m2=row.needed("high_lb_per_acre"),
            citation=row.citation(),
        )
        for row in rows("boron_response")
    )
    return {one.crop: one for one in found}


@cache
def container_ranges(group: str) -> tuple[ContainerRange, ...]:
    """Ranges for a litre of mix, nitrogen by the crop's group."""
    return tuple(
        ContainerRange(
            nutrient=row.text("nutrient"),
            least=row.needed("least_g_per_l"),
            aim=row.needed("aim_g_per_l"),
            most=row.needed("most_g_per_l"),
            citation=row.citation(),
        )
        for row in rows("container_needs")
        if row.text("group") in (group, "any")
    )


@cache
def optimum_levels() -> dict[tuple[str, Element], Fraction]:
    """Optimum figures of one state [lb per acre], by fruit or vegetables and element."""
    return {
        (row.text("crops"), Element(row.text("element"))): Fraction(row.text("lb_per_acre"))
        for row in rows("optimum_levels")
    }


def movement(nutrient: str) -> Movement:
    """How far P2O5 or K2O moves a soil test, and over how many years a gap is filled.

    >>> movement("P2O5").years
    4
    """
    moved = default(f"{nutrient.lower()}_moves_test")
    return Movement(
        nutrient=nutrient,
        oxide_kg_per_m2=moved.value,
        years=int(default("test_lift_years").value),
        citation=moved.citation,
    )


def organic_matter_rule() -> OrganicMatterRule:
    """What organic matter is credited with."""
    per_cent = Fraction(1, 100)
    return OrganicMatterRule(
        above_share=default("organic_matter_above").value,
        for_all_kg_per_m2=default("organic_matter_n").value / per_cent,
        most_kg_per_m2=default("organic_matter_n_most").value,
        citation=default("organic_matter_n_most").citation,
    )


def _class_rate(row: Row) -> ClassRate:
    return ClassRate(
        nutrient=row.text("nutrient"),
        soil_class=SoilClass(row.text("class")),
        aim_kg_per_m2=row.needed("aim_lb_per_100_sq_ft"),
        most_kg_per_m2=row.needed("most_lb_per_100_sq_ft"),
        aim_times_removal=row.needed("aim_times_removal"),
        most_times_removal=row.needed("most_times_removal"),
        citation=row.citation(),
    )


def _secondary(row: Row) -> NeedRange:
    share, most = row.needed("salt_percent"), row.needed("most_lb_per_100_sq_ft")
    return NeedRange(
        nutrient=row.text("nutrient"),
        least=NONE,
        aim=row.needed("aim_salt_lb_per_100_sq_ft") * share,
        most=most,
        cap=most,
        citation=row.citation(),
    )
