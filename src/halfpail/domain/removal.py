"""What a harvest carries away: fresh weight times what the food holds."""

from dataclasses import dataclass
from fractions import Fraction

from halfpail.domain.matter import Nutrient, from_element
from halfpail.sources import Citation

NONE = Fraction(0)
# Food tables state protein, and 16 % of protein is nitrogen by their convention.
PROTEIN_IN_A_PART_OF_NITROGEN = Fraction(25, 4)


@dataclass(frozen=True, slots=True, kw_only=True)
class FoodComposition:
    """What the eaten part holds, fresh: protein, phosphorus and potassium as elements [kg/kg]."""

    crop: str
    part: str
    protein_share: Fraction
    phosphorus_share: Fraction
    potassium_share: Fraction
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class Removal:
    """Nitrogen, P2O5 and K2O that a harvest carries away [kg/m²]."""

    n: Fraction = NONE
    p2o5: Fraction = NONE
    k2o: Fraction = NONE

    def times(self, share: Fraction) -> "Removal":
        """A share of it, or a multiple [1].

        >>> Removal(n=Fraction(4)).times(Fraction(1, 2)).n
        Fraction(2, 1)
        """
        return Removal(n=self.n * share, p2o5=self.p2o5 * share, k2o=self.k2o * share)

    def plus(self, other: "Removal") -> "Removal":
        """Both together [kg/m²].

        >>> Removal(n=Fraction(4)).plus(Removal(n=Fraction(1))).n
        Fraction(5, 1)
        """
        return Removal(n=self.n + other.n, p2o5=self.p2o5 + other.p2o5, k2o=self.k2o + other.k2o)


def nitrogen_share(food: FoodComposition) -> Fraction:
    """Nitrogen of a food [kg/kg], from its protein.

    Red peppers hold 0.99 g of protein in 100 g (national food tables), so 3.2 lb of nitrogen leave
    with a short ton.

    >>> from halfpail.sources import Mark
    >>> pepper = FoodComposition(crop="pepper", part="fruit", protein_share=Fraction("0.0099"),
    ...                          phosphorus_share=Fraction(0), potassium_share=Fraction(0),
    ...                          citation=Citation(mark=Mark.VERIFIED))
    >>> round(float(nitrogen_share(pepper) * 2000), 2)
    3.17
    """
    return food.protein_share / PROTEIN_IN_A_PART_OF_NITROGEN


def removal(yield_kg_per_m2: Fraction, food: FoodComposition) -> Removal:
    """What a harvest of so much fresh weight carries away [kg/m²].

    >>> from halfpail.sources import Mark
    >>> food = FoodComposition(crop="one", part="root", protein_share=Fraction(1, 100),
    ...                        phosphorus_share=Fraction(0), potassium_share=Fraction(0),
    ...                        citation=Citation(mark=Mark.VERIFIED))
    >>> removal(Fraction(5), food).n
    Fraction(1, 125)
    """
    return Removal(
        n=yield_kg_per_m2 * nitrogen_share(food),
        p2o5=yield_kg_per_m2 * from_element(Nutrient.P2O5, food.phosphorus_share),
        k2o=yield_kg_per_m2 * from_element(Nutrient.K2O, food.potassium_share),
    )
