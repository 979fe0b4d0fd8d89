"""Plain made-up bags for the tests of the domain and what stands on it."""

from fractions import Fraction

from halfpail.domain.label import Analysis, Label
from halfpail.domain.matter import Nutrient
from halfpail.domain.stock import Bag, Density, DensityBasis, UsableNitrogen

Number = Fraction | int | str


def bag(
    key: str,
    n: Number = 0,
    p2o5: Number = 0,
    k2o: Number = 0,
    *,
    density: Number = 1,
    usable: Number = 1,
    price_per_kg: Number | None = None,
) -> Bag:
    """A bag of a grade [percent], a density [kg/L] and a usable share of its nitrogen [0-1]."""
    shares = {
        nutrient: Fraction(percent) / 100
        for nutrient, percent in zip(
            (Nutrient.N, Nutrient.P2O5, Nutrient.K2O), (n, p2o5, k2o), strict=True
        )
        if Fraction(percent)
    }
    label_n = shares.get(Nutrient.N, Fraction(0))
    usable_n = label_n * Fraction(usable)
    weight = Fraction(density)
    return Bag(
        key=key,
        name=key,
        label=Label(text=f"{n}-{p2o5}-{k2o}", analysis=Analysis(shares=shares)),
        density=Density(low=weight, typical=weight, high=weight, basis=DensityBasis.WEIGHED),
        usable_n=UsableNitrogen(
            low=usable_n, typical=usable_n, high=usable_n, quick=Fraction(0), label=label_n
        ),
        bag_kg=Fraction(1),
        price=None if price_per_kg is None else Fraction(price_per_kg),
    )
