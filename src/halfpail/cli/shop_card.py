"""The card for the shop as plain text: prices of a per cent, a table by grade, two blank sums."""

from fractions import Fraction

from halfpail.application.make_shop_card import ShopCard, grade_text
from halfpail.cli import printing
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.quantities.rounding import decimal
from halfpail.quantities.showing import show_mass, show_price_per_mass
from halfpail.quantities.units import System, size_of

_BLANK = "_____"


def shop_card_text(card: ShopCard, units: System) -> str:
    """The card: what a per cent is worth, common grades, what is still wanted, two sums."""
    unit = "lb" if units is System.US else "kg"
    points = {
        nutrient: 100 * price * size_of(unit) for nutrient, price in card.point_worth_per_kg.items()
    }
    return "\n\n".join(
        (
            printing.heading("Card for the shop"),
            printing.paragraph(
                f"Each per cent on the label makes a {unit} of the bag worth so many cents. Add "
                "the three up: that is the highest price worth paying. Less than nothing: leave it."
            ),
            printing.table(
                ("1 % of", f"cents per {unit}"),
                [(str(nutrient), decimal(cents, 1)) for nutrient, cents in points.items()],
            ),
            printing.table(
                ("grade", "highest price worth paying"),
                [
                    (
                        grade_text(row.grade),
                        show_price_per_mass(row.card_worth_per_kg, card.currency, units),
                    )
                    for row in card.grades
                ],
            ),
            printing.paragraph(f"Still wanted, beyond the shed: {_wanted(card, units)}."),
            *(_sum(points, unit) for _ in range(2)),
        )
    )


def _wanted(card: ShopCard, units: System) -> str:
    names = {Nutrient.N: "usable N", Nutrient.P2O5: "P2O5", Nutrient.K2O: "K2O"}
    return ", ".join(
        f"{show_mass(card.wanted_kg[nutrient], units)} {names[nutrient]}" for nutrient in PRIMARY
    )


def _sum(points: dict[Nutrient, Fraction], unit: str) -> str:
    terms = "".join(_term(str(nutrient), cents) for nutrient, cents in points.items())
    return (
        f"  {terms.removeprefix('  +').strip()}  =  {_BLANK} cents per {unit}\n"
        f"  {_BLANK} cents per {unit}  x  {_BLANK} {unit} in the bag  =  {_BLANK} at the most"
    )


def _term(nutrient: str, cents: Fraction) -> str:
    """One product of the sum; what takes away is taken away."""
    return f"  {'-' if cents < 0 else '+'}  {_BLANK} % {nutrient} x {decimal(abs(cents), 1)}"
