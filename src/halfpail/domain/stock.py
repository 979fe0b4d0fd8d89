"""Bags: what is offered, what is in the shed, what a scoop of it weighs and what it gives."""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from halfpail.domain.label import Label
from halfpail.domain.manure_interval import Treatment


class DensityBasis(StrEnum):
    """Where the weight of a level scoop comes from."""

    WEIGHED = "you weighed a level scoop"
    INGREDIENTS = "from its ingredients"
    DEFAULT = "our default for a granular organic blend"


@dataclass(frozen=True, slots=True, kw_only=True)
class Density:
    """Bulk density [kg/L] with its low and high figure and where it comes from."""

    low: Fraction
    typical: Fraction
    high: Fraction
    basis: DensityBasis


@dataclass(frozen=True, slots=True, kw_only=True)
class UsableNitrogen:
    """Nitrogen a crop can use this season [mass share of the product], and what comes later."""

    low: Fraction
    typical: Fraction
    high: Fraction
    quick: Fraction
    label: Fraction

    @property
    def later(self) -> Fraction:
        """Label nitrogen that is not usable this season, on the typical figure [kg/kg]."""
        return self.label - self.typical


@dataclass(frozen=True, slots=True, kw_only=True)
class Bag:
    """A product on offer or in the shed. Money is in the garden's currency.

    `treatment` is what was done to manure in it, where there is any.
    """

    key: str
    name: str
    label: Label
    density: Density
    usable_n: UsableNitrogen
    materials: tuple[str, ...] = ()
    bag_kg: Fraction | None = None
    price: Fraction | None = None
    list_price: Fraction | None = None
    shed_kg: Fraction = Fraction(0)
    offered: int | None = None
    straight_ok: bool = False
    avoid: bool = False
    treatment: Treatment = Treatment.UNKNOWN

    @property
    def price_per_kg(self) -> Fraction | None:
        """Price by weight [money per kg]; None where price or weight is unknown."""
        if self.price is None or not self.bag_kg:
            return Fraction(0) if self.price == 0 else None
        return self.price / self.bag_kg

    def scoop_kg(self, scoop_l: Fraction) -> Fraction:
        """Weight of one level scoop of `scoop_l` litres [kg], on the typical density."""
        return scoop_l * self.density.typical
