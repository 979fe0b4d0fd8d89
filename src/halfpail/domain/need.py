"""From a soil class, a harvest and what comes of itself to the range a bed should get."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from halfpail.domain.bed import NeedRange
from halfpail.domain.soil_class import SoilClass
from halfpail.sources import Citation

NONE = Fraction(0)
LOW = (SoilClass.VERY_LOW, SoilClass.LOW)


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassRate:
    """What a class of P or K asks for [kg/m²], and how many times the removal at least.

    A rate and a removal stand side by side: the larger of the two is taken.
    """

    nutrient: str
    soil_class: SoilClass
    aim_kg_per_m2: Fraction
    most_kg_per_m2: Fraction
    aim_times_removal: Fraction
    most_times_removal: Fraction
    citation: Citation


def need_by_class(
    rate: ClassRate, removed_kg_per_m2: Fraction, stop_kg_per_m2: Fraction | None = None
) -> NeedRange:
    """The range of a nutrient by the class its soil test falls in [kg/m²].

    `stop_kg_per_m2` is the most the bed's account lets through, where it keeps one: what lies
    between the most and the stop is weighed against. At high the most is the stop; at very high
    there is nothing at all. Ground that is low in it should at least get back what the crop takes
    (our choice, after the rule that upkeep is what a harvest removes).

    >>> from halfpail.sources import Mark
    >>> rate = ClassRate(nutrient="P2O5", soil_class=SoilClass.OPTIMUM, aim_kg_per_m2=Fraction(0),
    ...                  most_kg_per_m2=Fraction(0), aim_times_removal=Fraction(1),
    ...                  most_times_removal=Fraction(2), citation=Citation(mark=Mark.PROPOSAL))
    >>> need = need_by_class(rate, Fraction(3), stop_kg_per_m2=Fraction(8))
    >>> int(need.aim), int(need.most), int(need.cap)
    (3, 6, 8)
    """
    if rate.soil_class is SoilClass.VERY_HIGH:
        return nothing(rate.nutrient, rate.citation)
    most = max(rate.most_kg_per_m2, rate.most_times_removal * removed_kg_per_m2)
    aim = max(rate.aim_kg_per_m2, rate.aim_times_removal * removed_kg_per_m2)
    cap = most if stop_kg_per_m2 is None else stop_kg_per_m2
    if rate.soil_class is SoilClass.HIGH:
        cap = min(cap, most)
    aim = min(aim, most, cap)
    return NeedRange(
        nutrient=rate.nutrient,
        least=min(removed_kg_per_m2, aim) if rate.soil_class in LOW else NONE,
        aim=aim,
        most=min(most, cap),
        cap=cap,
        citation=rate.citation,
    )


def nothing(nutrient: str, citation: Citation) -> NeedRange:
    """None at all of a nutrient, as a hard limit [kg/m²].

    >>> from halfpail.sources import Mark
    >>> nothing("P2O5", Citation(mark=Mark.PROPOSAL)).cap
    Fraction(0, 1)
    """
    return NeedRange(
        nutrient=nutrient, least=NONE, aim=NONE, most=NONE, cap=NONE, citation=citation
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Movement:
    """How a soil test moves: oxide that raises it by a part per million, and over how many years.

    `oxide_kg_per_m2` raises the test by 1 mg/kg; a gap is filled over `years`.
    """

    nutrient: str
    oxide_kg_per_m2: Fraction
    years: int
    citation: Citation


def rate_by_removal(
    movement: Movement, removed_kg_per_m2: Fraction, short_mg_per_kg: Fraction
) -> Fraction:
    """What a year asks for [kg/m²]: the removal, and a part of what lifts the test to optimum.

    `short_mg_per_kg` is how far the test lies below the optimum [mg/kg]; above it, nothing is
    built up.

    >>> from halfpail.sources import Mark
    >>> movement = Movement(nutrient="P2O5", oxide_kg_per_m2=Fraction(2), years=4,
    ...                     citation=Citation(mark=Mark.PROPOSAL))
    >>> rate_by_removal(movement, Fraction(1), Fraction(6))
    Fraction(4, 1)
    """
    lift = max(NONE, short_mg_per_kg) * movement.oxide_kg_per_m2 / movement.years
    return removed_kg_per_m2 + lift


def expected_test(
    tested_mg_per_kg: Fraction, balance_kg_per_m2: Fraction, movement: Movement
) -> Fraction:
    """The soil test to be expected [mg/kg] after a balance of given less removed [kg/m²].

    >>> from halfpail.sources import Mark
    >>> movement = Movement(nutrient="P2O5", oxide_kg_per_m2=Fraction(2), years=4,
    ...                     citation=Citation(mark=Mark.PROPOSAL))
    >>> expected_test(Fraction(30), Fraction(-4), movement)
    Fraction(28, 1)
    """
    return max(NONE, tested_mg_per_kg + balance_kg_per_m2 / movement.oxide_kg_per_m2)


def fill_to_optimum(optimum: Fraction, test: Fraction) -> Fraction:
    """Optimum less test, never below nought [the unit of both]: shown to compare, never used.

    Iowa State University works small farms so; it says nothing of how far a pound moves a test.

    >>> fill_to_optimum(Fraction(340), Fraction(280))
    Fraction(60, 1)
    """
    return max(NONE, optimum - test)


def lessened(need: NeedRange, credit_kg_per_m2: Fraction) -> NeedRange:
    """A range with what comes of itself taken off every side [kg/m²], none below nought.

    >>> from halfpail.sources import Mark
    >>> need = NeedRange(nutrient="N", least=Fraction(1), aim=Fraction(3), most=Fraction(4),
    ...                  cap=Fraction(4), citation=Citation(mark=Mark.PROPOSAL))
    >>> less = lessened(need, Fraction(2))
    >>> int(less.least), int(less.aim), int(less.most)
    (0, 1, 2)
    """
    return _each_side(need, lambda side: max(NONE, side - credit_kg_per_m2))


def together(parts: Sequence[tuple[Fraction, NeedRange]]) -> NeedRange:
    """The range of a bed with several crops: each share [0-1] of the ground with its own range.

    Crops that follow one another on the same ground add up. The citation is that of the largest
    share.

    Raises:
        ValueError: there are no parts, or they are of different nutrients.

    >>> from halfpail.sources import Mark
    >>> def need(amount):
    ...     return NeedRange(nutrient="N", least=Fraction(amount), aim=Fraction(amount),
    ...                      most=Fraction(amount), cap=Fraction(amount),
    ...                      citation=Citation(mark=Mark.PROPOSAL))
    >>> together([(Fraction(1, 2), need(2)), (Fraction(1, 2), need(4))]).aim
    Fraction(3, 1)
    """
    if len({need.nutrient for _, need in parts}) != 1:
        raise ValueError("parts of one nutrient are wanted")
    return replace(
        max(parts, key=lambda part: part[0])[1],
        least=sum((share * need.least for share, need in parts), NONE),
        aim=sum((share * need.aim for share, need in parts), NONE),
        most=sum((share * need.most for share, need in parts), NONE),
        cap=sum((share * need.cap for share, need in parts), NONE),
    )


def held_to(need: NeedRange, most_kg_per_m2: Fraction) -> NeedRange:
    """A range with no side above a yearly limit [kg/m²].

    >>> from halfpail.sources import Mark
    >>> need = NeedRange(nutrient="N", least=Fraction(1), aim=Fraction(3), most=Fraction(4),
    ...                  cap=Fraction(4), citation=Citation(mark=Mark.PROPOSAL))
    >>> held_to(need, Fraction(2)).most
    Fraction(2, 1)
    """
    return _each_side(need, lambda side: min(side, most_kg_per_m2))


def _each_side(need: NeedRange, change: Callable[[Fraction], Fraction]) -> NeedRange:
    return replace(
        need,
        least=change(need.least),
        aim=change(need.aim),
        most=change(need.most),
        cap=change(need.cap),
    )
