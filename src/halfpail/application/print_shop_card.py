"""The card for the shop, of the size of a pocket: prices of a per cent, grades, two blank sums."""

from collections.abc import Iterator
from dataclasses import dataclass

from halfpail.application.make_shop_card import ShopCard, grade_text
from halfpail.application.page import Page
from halfpail.quantities.rounding import decimal
from halfpail.quantities.showing import show_mass, show_price_per_mass
from halfpail.quantities.units import System, size_of


@dataclass(frozen=True, slots=True, kw_only=True)
class PointRow:
    """One nutrient: cents for each per cent of it, and how much of it is still wanted.

    `sign` is what stands before its product in the sum.
    """

    nutrient: str
    cents: str
    wanted: str
    sign: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PocketCard(Page):
    """The words of the card; `unit` is the weight that prices are for."""

    garden: str
    unit: str
    points: tuple[PointRow, ...]
    grades: tuple[tuple[str, str, str], ...]


def print_shop_card(card: ShopCard, system: System) -> PocketCard:
    """The card of a garden for the pocket."""
    return PocketCard(
        title="Card for the shop",
        garden=card.garden,
        unit="lb" if system is System.US else "kg",
        points=tuple(_points(card, system)),
        grades=tuple(
            (
                grade_text(line.grade),
                show_price_per_mass(line.worth_per_kg, card.currency, system).split()[0],
                show_mass(line.wanted_kg, system) if line.worth_per_kg else "none",
            )
            for line in card.grades
        ),
    )


def _points(card: ShopCard, system: System) -> Iterator[PointRow]:
    unit = size_of("lb" if system is System.US else "kg")
    for nutrient, price in card.prices.per_point.items():
        cents = 100 * price * unit
        yield PointRow(
            nutrient=str(nutrient),
            cents=decimal(abs(cents), 1),
            wanted=decimal(card.prices.wanted_kg[nutrient] / unit, 1),
            sign="-" if cents < 0 else "+",
        )
