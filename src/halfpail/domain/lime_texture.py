"""Lime by texture alone, without a buffer test: a careful rate with a low roof."""

from dataclasses import dataclass
from fractions import Fraction

NONE = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class CarefulRate:
    """Lime for one unit of pH [kg/m²], its most [kg/m²], and the pH from which there is none."""

    per_unit_kg_per_m2: Fraction
    most_kg_per_m2: Fraction
    none_from_ph: Fraction


def careful_need(rate: CarefulRate, soil_ph: Fraction, target_ph: Fraction) -> Fraction:
    """Lime by texture alone [kg/m²], from the soil's pH to a target [pH].

    >>> rate = CarefulRate(per_unit_kg_per_m2=Fraction(2), most_kg_per_m2=Fraction(3),
    ...                    none_from_ph=Fraction("6.3"))
    >>> [careful_need(rate, Fraction(ph), Fraction("6.5")) for ph in ("6.3", "6.0", "4.5")]
    [Fraction(0, 1), Fraction(1, 1), Fraction(3, 1)]
    """
    if soil_ph >= rate.none_from_ph or target_ph <= soil_ph:
        return NONE
    return min(rate.per_unit_kg_per_m2 * (target_ph - soil_ph), rate.most_kg_per_m2)
