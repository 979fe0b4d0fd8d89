"""The bags of a garden as a table: grade, usable nitrogen, price, phosphorus that comes along."""

from fractions import Fraction

from halfpail.application.pose_season import price_ceiling
from halfpail.cli import printing
from halfpail.domain.garden import Garden
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.domain.price import Verdict, price_view
from halfpail.domain.stock import Bag
from halfpail.quantities.rounding import decimal, shortest
from halfpail.quantities.showing import show_mass, show_money, show_price_per_mass
from halfpail.quantities.units import System, size_of


def bags_text(garden: Garden, units: System) -> str:
    """Every bag that is not avoided, and what its price comes to against the gardener's ceiling."""
    ceiling = price_ceiling(garden.preferences)
    currency = garden.preferences.currency
    unit = "kg" if units is System.METRIC else "lb"
    rows = [_row(bag, ceiling, currency, units) for bag in garden.bags if not bag.avoid]
    headings = ("bag", "grade", "usable N, %", "weight", "price", "saved", f"a {unit}")
    table = printing.table((*headings, f"a {unit} usable N", "P2O5 with 0.1"), rows)
    above = [
        bag.name
        for bag in garden.bags
        if (view := price_view(bag, ceiling)) and view.verdict is Verdict.ABOVE and not bag.avoid
    ]
    words = show_price_per_mass(ceiling, currency, units)
    said = f"Above your ceiling of {words}: {', '.join(above)}." if above else ""
    return "\n".join(filter(None, (table, printing.paragraph(said, indent="  ") if said else "")))


def _row(bag: Bag, ceiling: Fraction, currency: str, units: System) -> tuple[str, ...]:
    view = price_view(bag, ceiling)
    unit = size_of("kg" if units is System.METRIC else "lb")
    usable = bag.usable_n
    grade = "-".join(shortest(100 * bag.label.analysis.of(each), 2) for each in PRIMARY)
    p2o5 = bag.label.analysis.of(Nutrient.P2O5)
    per_usable_n = view.per_kg_usable_n if view else None
    return (
        bag.name,
        grade,
        f"{decimal(100 * usable.low, 1)} to {decimal(100 * usable.high, 1)}",
        "-" if bag.bag_kg is None else show_mass(bag.bag_kg, units),
        "-" if bag.price is None else show_money(bag.price, currency),
        "-" if view is None or view.saved is None else show_money(view.saved, currency),
        "-" if view is None else show_money(view.per_kg * unit, currency),
        "-" if per_usable_n is None else show_money(per_usable_n * unit, currency),
        decimal(p2o5 / usable.typical / 10, 2) if usable.typical else "-",
    )
