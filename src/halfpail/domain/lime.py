"""From a lime requirement to what is spread: credit, depth, wood ash, and lime in the pail."""

from dataclasses import dataclass
from fractions import Fraction

from halfpail.domain.label import Analysis, Grade
from halfpail.domain.lime_method import LimeMethod, Span
from halfpail.domain.liming_value import material_for

NONE = Fraction(0)


def credit_left(given_kg_per_m2: Fraction, months: Fraction, lost_per_month: Fraction) -> Fraction:
    """Lime given earlier that is still to act [kg/m²], months after it was spread.

    It goes down by `lost_per_month` of what was given [share a month, 0-1]: North Carolina counts
    8 % for mineral soil and 16 % for soil with much organic matter.

    >>> credit_left(Fraction(2), Fraction(5), Fraction(8, 100))
    Fraction(6, 5)
    """
    return given_kg_per_m2 * max(NONE, 1 - lost_per_month * months)


def for_depth(rate_kg_per_m2: Fraction, depth_m: Fraction, of_depth_m: Fraction) -> Fraction:
    """A lime requirement for another depth of soil [kg/m²], by the proportion of depths [m].

    >>> for_depth(Fraction(2), Fraction(4), Fraction(8))
    Fraction(1, 1)
    """
    return rate_kg_per_m2 * depth_m / of_depth_m


@dataclass(frozen=True, slots=True, kw_only=True)
class Outside:
    """A figure a method does not hold for: which one, and the span it may have."""

    what: str
    value: Fraction
    span: Span


def outside(
    method: LimeMethod, reading: Fraction, soil_ph: Fraction, target_ph: Fraction
) -> tuple[Outside, ...]:
    """The figures a method does not hold for; `reading` in its own unit, the others [pH].

    >>> from halfpail.domain.lime_method import Validity
    >>> from halfpail.sources import Citation, Mark
    >>> validity = Validity(reading=Span(high=Fraction(7)), soil_ph=Span(), target_ph=Span())
    >>> method = LimeMethod(key="one", name="One", buffer=None, validity=validity,
    ...                     citation=Citation(mark=Mark.PROPOSAL))
    >>> [one.what for one in outside(method, Fraction(8), Fraction(5), Fraction(6))]
    ['buffer']
    """
    held = (
        ("buffer", reading, method.validity.reading),
        ("soil pH", soil_ph, method.validity.soil_ph),
        ("target pH", target_ph, method.validity.target_ph),
    )
    return tuple(
        Outside(what=what, value=value, span=span)
        for what, value, span in held
        if not span.holds(value)
    )


def ash_in_place(lime_kg_per_m2: Fraction, ash_cce: Fraction, most_kg_per_m2: Fraction) -> Fraction:
    """Wood ash in place of lime [kg/m²]: limited by its lime value first, then by a yearly most.

    `lime_kg_per_m2` is the pure calcium carbonate wanted, `ash_cce` the ash's calcium carbonate
    equivalent [kg/kg].

    >>> ash_in_place(Fraction(1), Fraction(1, 2), Fraction(3))
    Fraction(2, 1)
    """
    return min(material_for(lime_kg_per_m2, ash_cce), most_kg_per_m2)


@dataclass(frozen=True, slots=True, kw_only=True)
class LimeInPail:
    """What lime in the pail does: the grade it leaves [percent], and lime on the ground [kg/m²]."""

    grade: Grade
    lime_kg_per_m2: Fraction


def lime_in_pail(analysis: Analysis, lime_share: Fraction, mix_kg_per_m2: Fraction) -> LimeInPail:
    """A mix with some of its weight given to lime [0-1], spread at a rate [kg/m²].

    Five hundredths of a mix at 10 lb per 100 sq ft are 0.5 lb of lime.

    Raises:
        ValueError: the share is not at least 0 and below 1.

    >>> from halfpail.domain.matter import Nutrient
    >>> inside = lime_in_pail(Analysis(shares={Nutrient.N: Fraction(4, 100)}), Fraction(1, 20),
    ...                       Fraction(10))
    >>> float(inside.grade.n), inside.lime_kg_per_m2
    (3.8, Fraction(1, 2))
    """
    if not 0 <= lime_share < 1:
        raise ValueError("a share of lime is at least 0 and below 1")
    full = analysis.grade
    left = 1 - lime_share
    return LimeInPail(
        grade=Grade(n=full.n * left, p2o5=full.p2o5 * left, k2o=full.k2o * left),
        lime_kg_per_m2=mix_kg_per_m2 * lime_share,
    )
