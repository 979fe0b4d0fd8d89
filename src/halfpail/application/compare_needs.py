"""What others would give, beside what is worked out here: by removal, by rule, by publication."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from halfpail.application.need_question import PlannedCrop
from halfpail.application.read_classes import ClassReading, SoilReading
from halfpail.domain.index_equation import rate_by_index
from halfpail.domain.matter import Nutrient, from_element
from halfpail.domain.need import fill_to_optimum, rate_by_removal
from halfpail.domain.removal import Removal
from halfpail.domain.soil_test import Element, Extractant, Scale, SoilTest, in_lb_per_acre
from halfpail.quantities.units import size_of
from halfpail.reference.needs import movement, optimum_levels
from halfpail.reference.published_rates import PublishedRate, rates_for
from halfpail.reference.soil_methods import index_equations
from halfpail.reference.tables import rows
from halfpail.sources import Citation

FRUIT = frozenset({"strawberry", "raspberry", "blueberry", "currant", "grape"})
TESTED = {"P2O5": Element.P, "K2O": Element.K}
_LB_PER_ACRE = size_of("lb") / size_of("acre")


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """Another way to a rate of one nutrient, from low to high [kg/m²], and why it is not used.

    `basis` says which nitrogen its source means.
    """

    nutrient: str
    way: str
    low: Fraction
    high: Fraction
    basis: str = ""
    reason: str = ""
    citation: Citation


def published_rate_at(
    crop: str, nutrient: str, region: str, figure: ClassReading | None
) -> PublishedRate | None:
    """The published rate of a region for a crop, at a soil test's figure or class.

    A rate that goes by a test is found only under the test's own extractant.
    """
    for rate in rates_for(crop, nutrient):
        if rate.region.casefold() == region.casefold() and _goes_by(rate, figure):
            return rate
    return None


def _goes_by(rate: PublishedRate, reading: ClassReading | None) -> bool:
    if rate.level:
        return reading is not None and rate.level == reading.soil_class
    if rate.element is None:
        return True
    if reading is None or reading.figure.scale is not Scale.MASS:
        return False
    own = (reading.figure.element, reading.figure.extractant)
    if own != (rate.element, rate.extractant):
        return False
    return rate.top_mg_per_kg is None or reading.figure.value <= rate.top_mg_per_kg


def comparisons(
    crops: Sequence[PlannedCrop],
    test: SoilTest | None,
    soil: SoilReading | None,
    removed: Removal,
) -> tuple[Comparison, ...]:
    """Every other way to the bed's N, P2O5 and K2O, in that order."""
    found = [*_published(crops, soil, "N")]
    equations = {"P2O5": test.p_equation, "K2O": test.k_equation} if test else {}
    for nutrient, taken in (("P2O5", removed.p2o5), ("K2O", removed.k2o)):
        reading = soil.of(TESTED[nutrient]) if soil else None
        found += _by_index(nutrient, equations.get(nutrient), reading)
        found += _by_removal(nutrient, taken, reading)
        found += _fill(nutrient, crops, reading)
        found += _published(crops, soil, nutrient)
    return tuple(found)


def _by_index(
    nutrient: str, number: int | None, reading: ClassReading | None
) -> Iterator[Comparison]:
    """North Carolina's equation, where its report names one and prints its index."""
    if number is None or reading is None or reading.figure.scale is not Scale.INDEX:
        return
    equation = index_equations()[number]
    rate = rate_by_index(equation, reading.figure.value)
    yield Comparison(
        nutrient=nutrient,
        way=f"North Carolina, equation {number}",
        low=rate,
        high=rate,
        reason=equation.reason,
        citation=equation.citation,
    )


def _by_removal(
    nutrient: str, taken: Fraction, reading: ClassReading | None
) -> Iterator[Comparison]:
    moved = movement(nutrient)
    short = reading.short_mg_per_kg if reading else None
    rate = rate_by_removal(moved, taken, short or Fraction(0))
    lifted = f", and a part of {moved.years} of what lifts the test to enough"
    upkeep = "; where a test finds more than enough, none is right too"
    yield Comparison(
        nutrient=nutrient,
        way=f"what the harvest takes{lifted if short else upkeep}",
        low=rate,
        high=rate,
        citation=moved.citation,
    )


def _fill(
    nutrient: str, crops: Sequence[PlannedCrop], reading: ClassReading | None
) -> Iterator[Comparison]:
    if reading is None or not _is_bray_or_cation(reading):
        return
    kind = "fruit" if all(planned.key in FRUIT for planned in crops) else "vegetables"
    element = TESTED[nutrient]
    optimum = optimum_levels()[kind, element]
    short = fill_to_optimum(optimum, in_lb_per_acre(reading.read_as))
    rate = from_element(Nutrient(nutrient), short * _LB_PER_ACRE)
    yield Comparison(
        nutrient=nutrient,
        way=f"optimum less test, {int(optimum)} lb {element} an acre for {kind}",
        low=rate,
        high=rate,
        reason="it says nothing of how far a pound moves the test",
        citation=rows("optimum_levels")[0].citation(),
    )


def _is_bray_or_cation(reading: ClassReading) -> bool:
    """The rule is made for Bray-1 phosphorus; of potassium it names no extractant."""
    figure = reading.read_as
    by_weight = figure.scale is Scale.MASS
    return by_weight and (figure.element is Element.K or figure.extractant is Extractant.BRAY_1)


def _published(
    crops: Sequence[PlannedCrop], soil: SoilReading | None, nutrient: str
) -> Iterator[Comparison]:
    reading = soil.of(TESTED[nutrient]) if soil and nutrient in TESTED else None
    for planned in crops:
        said = set()
        for rate in rates_for(planned.key, nutrient):
            if rate.region in said or not _goes_by(rate, reading):
                continue
            said.add(rate.region)
            yield Comparison(
                nutrient=nutrient,
                way=f"{rate.region}, {planned.name.lower()}",
                low=rate.low,
                high=rate.high,
                basis=rate.basis,
                reason=rate.reason,
                citation=rate.citation,
            )
