"""The card for the shop as plain text: prices of a per cent, a table by grade, two blank sums."""

from collections.abc import Mapping
from fractions import Fraction

from halfpail.application.make_shop_card import ShopCard, grade_text
from halfpail.cli import printing
from halfpail.domain.matter import Nutrient
from halfpail.quantities.rounding import decimal
from halfpail.quantities.showing import show_mass, show_price_per_mass
from halfpail.quantities.units import System, size_of

_BLANK = "_____"


def shop_card_text(card: ShopCard, units: System) -> str:
    """The card: what a per cent is worth, common grades, what is still wanted, two sums."""
    unit = "lb" if units is System.US else "kg"
    cents = {n: 100 * price * size_of(unit) for n, price in card.prices.per_point.items()}
    wanted = {n: kg / size_of(unit) for n, kg in card.prices.wanted_kg.items()}
    return "\n\n".join(
        (
            printing.heading("Card for the shop"),
            printing.paragraph(
                f"Each per cent on the label makes one {unit} of the bag worth so many cents. Add "
                f"the three up, times the {unit} in the bag: that is the highest price worth "
                "paying. Less than nothing: leave it. Within a tenth of it: either is right."
            ),
            printing.table(
                ("1 % of", f"cents per {unit}", f"{unit} still wanted"),
                [(str(n), decimal(cents[n], 1), decimal(wanted[n], 1)) for n in cents],
            ),
            printing.paragraph(
                f"Count no more of a bag than brings what is still wanted: the {unit} still "
                "wanted, times 100, divided by the per cent; the least of the three."
            ),
            _grades(card, units),
            *(_sum(cents, unit) for _ in range(2)),
        )
    )


def _grades(card: ShopCard, units: System) -> str:
    return printing.table(
        ("grade", "highest price worth paying", "still wanted"),
        (
            (
                grade_text(line.grade),
                show_price_per_mass(line.worth_per_kg, card.currency, units),
                show_mass(line.wanted_kg, units) if line.worth_per_kg else "none",
            )
            for line in card.grades
        ),
    )


def _sum(cents: Mapping[Nutrient, Fraction], unit: str) -> str:
    terms = "".join(_term(str(nutrient), each) for nutrient, each in cents.items())
    return (
        f"  {terms.removeprefix('  +').strip()}  =  {_BLANK} cents per {unit}\n"
        f"  {_BLANK} cents per {unit}  x  {_BLANK} {unit}, no more than wanted  =  {_BLANK}"
    )


def _term(nutrient: str, cents: Fraction) -> str:
    """One product of the sum; what takes away is taken away."""
    return f"  {'-' if cents < 0 else '+'}  {_BLANK} % {nutrient} x {decimal(abs(cents), 1)}"
