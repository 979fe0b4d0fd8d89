"""Nitrogen that comes of itself, so that it need not be given: credits against a need."""

from dataclasses import dataclass
from fractions import Fraction

from halfpail.sources import Citation

NONE = Fraction(0)
# One part in a million of a metre of water on a square metre is a gram.
_KG_IN_A_METRE_OF_ONE_PPM = Fraction(1, 1000)


@dataclass(frozen=True, slots=True, kw_only=True)
class NitrogenCredit:
    """Usable nitrogen that one thing brings this season [kg/m²], with the sum behind it."""

    name: str
    rate_kg_per_m2: Fraction
    sum: str
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class OrganicMatterRule:
    """What a soil's own organic matter brings above a share of it [0-1], and the most [kg/m²].

    `for_all_kg_per_m2` is what a whole unit of organic matter would bring.
    """

    above_share: Fraction
    for_all_kg_per_m2: Fraction
    most_kg_per_m2: Fraction
    citation: Citation


def of_organic_matter(share: Fraction, rule: OrganicMatterRule) -> Fraction:
    """Nitrogen from a soil's organic matter [kg/m²], by its share of the soil [0-1].

    >>> from halfpail.sources import Mark
    >>> rule = OrganicMatterRule(above_share=Fraction(3, 100), for_all_kg_per_m2=Fraction(1),
    ...                          most_kg_per_m2=Fraction(1, 50),
    ...                          citation=Citation(mark=Mark.PROPOSAL))
    >>> [float(of_organic_matter(Fraction(n, 100), rule)) for n in (3, 4, 9)]
    [0.0, 0.01, 0.02]
    """
    return min(rule.most_kg_per_m2, max(NONE, share - rule.above_share) * rule.for_all_kg_per_m2)


def of_water(depth_m: Fraction, nitrate_n_ppm: Fraction) -> Fraction:
    """Nitrogen in the water a bed gets [kg/m²]: its depth [m] and its nitrate nitrogen [mg/L].

    An acre-inch brings 0.227 lb for each part per million (University of California, Ventura).

    >>> of_water(Fraction(3, 10), Fraction(10))
    Fraction(3, 1000)
    """
    return depth_m * nitrate_n_ppm * _KG_IN_A_METRE_OF_ONE_PPM


def of_soil_nitrate(
    nitrate_n_mg_per_kg: Fraction, depth_m: Fraction, soil_kg_per_m3: Fraction
) -> Fraction:
    """Nitrate nitrogen already in a layer of soil [kg/m²]: its figure [mg/kg], depth [m], density.

    >>> of_soil_nitrate(Fraction(10), Fraction(1, 2), Fraction(1300))
    Fraction(13, 2000)
    """
    return nitrate_n_mg_per_kg * depth_m * soil_kg_per_m3 / 1_000_000
