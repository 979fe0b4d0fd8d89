"""How much of a product gives how much of a nutrient, on how much ground."""

from fractions import Fraction

from halfpail.domain.label import Analysis
from halfpail.domain.matter import Nutrient


def product_for(nutrient_amount: Fraction, share: Fraction) -> Fraction:
    """Amount of product that holds an amount of a nutrient [both kg, or both kg/m²].

    `share` is the nutrient's mass share of the product [kg/kg]. A pound of nitrogen for
    1000 square feet takes 10 lb of 10-10-10 (University of Georgia, lawn fertilizer sheet).

    Raises:
        ValueError: where the product holds none of the nutrient.

    >>> product_for(Fraction(1), Fraction(10, 100))
    Fraction(10, 1)
    """
    if share <= 0:
        raise ValueError("this product holds none of that nutrient")
    return nutrient_amount / share


def nutrient_in(mass_kg: Fraction, analysis: Analysis, nutrient: Nutrient) -> Fraction:
    """Mass of one nutrient in a mass of product [kg].

    >>> nutrient_in(Fraction(80), Analysis(shares={Nutrient.N: Fraction(5, 100)}), Nutrient.N)
    Fraction(4, 1)
    """
    return mass_kg * analysis.of(nutrient)


def carrier_in(mass_kg: Fraction, analysis: Analysis) -> Fraction:
    """Mass of everything that is neither N, P2O5 nor K2O [kg]: the "filler" of a bulletin.

    >>> carrier_in(Fraction(100), Analysis(shares={Nutrient.N: Fraction(16, 100)}))
    Fraction(84, 1)
    """
    grade = analysis.grade
    return mass_kg * (1 - (grade.n + grade.p2o5 + grade.k2o) / 100)


def same_nutrient_from_another(
    mass_kg: Fraction, advised_share: Fraction, at_hand_share: Fraction
) -> Fraction:
    """Mass of the product at hand that gives what an advised mass of another would [kg].

    Raises:
        ValueError: where the product at hand holds none of the nutrient.

    >>> same_nutrient_from_another(Fraction(40), Fraction(5, 100), Fraction(8, 100))
    Fraction(25, 1)
    """
    return product_for(mass_kg * advised_share, at_hand_share)


def soil_amount_kg_per_m2(test_mg_per_kg: Fraction, soil_kg_per_m2: Fraction) -> Fraction:
    """What a soil-test figure [mg/kg] is for a layer of soil of so much weight [kg/m²].

    >>> soil_amount_kg_per_m2(Fraction(20), Fraction(200))
    Fraction(1, 250)
    """
    return test_mg_per_kg * soil_kg_per_m2 / 1_000_000
