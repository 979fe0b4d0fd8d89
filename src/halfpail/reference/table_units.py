"""Units that columns of the shipped tables may have, and their size in this project's own units."""

from dataclasses import dataclass
from fractions import Fraction

from halfpail.quantities.units import size_of

# Kinds of cells that hold words.
WORDS = frozenset({"key", "keys", "text", "list", "source", "mark", "unit"})
# A number whose unit stands in the `unit` cell of its row.
OWN = "own"


@dataclass(frozen=True, slots=True)
class TableUnit:
    """What one unit of a column is in this project's own units."""

    canonical: str
    size: Fraction


def _ratio(upper: str, lower: str, canonical: str, of: int = 1) -> TableUnit:
    return TableUnit(canonical, size_of(upper) / (of * size_of(lower)))


NUMBERS: dict[str, TableUnit] = {
    "percent": TableUnit("share", Fraction(1, 100)),
    "percentage_point": TableUnit("share", Fraction(1, 100)),
    "percent_of_n": TableUnit("share of N", Fraction(1, 100)),
    "percent_of_insoluble_n": TableUnit("share of insoluble N", Fraction(1, 100)),
    "percent_of_guarantee": TableUnit("share of guarantee", Fraction(1, 100)),
    "count": TableUnit("count", Fraction(1)),
    "years": TableUnit("years", Fraction(1)),
    "days": TableUnit("days", Fraction(1)),
    "weeks": TableUnit("days", Fraction(7)),
    "per_day": TableUnit("per day", Fraction(1)),
    "c": TableUnit("°C", Fraction(1)),
    "mm2_per_s": TableUnit("m2 per s", Fraction(1, 10**6)),
    "mg_per_kg": TableUnit("mg per kg", Fraction(1)),
    "lb_per_ton": _ratio("lb", "short ton", "kg per kg"),
    "ph": TableUnit("pH", Fraction(1)),
    "times": TableUnit("times", Fraction(1)),
    "lb_per_lb_n": TableUnit("kg per kg N", Fraction(1)),
    "lb": TableUnit("kg", size_of("lb")),
    "ft": TableUnit("m", size_of("ft")),
    "in": TableUnit("m", size_of("in")),
    "sq_ft": TableUnit("m2", size_of("sq ft")),
    "gal": TableUnit("L", size_of("gal")),
    "lb_per_ft3": _ratio("lb", "cu ft", "kg per L"),
    "lb_per_100_sq_ft": _ratio("lb", "sq ft", "kg per m2", of=100),
    "lb_per_1000_sq_ft": _ratio("lb", "sq ft", "kg per m2", of=1000),
    "tons_per_acre": _ratio("short ton", "acre", "kg per m2"),
    "g_per_m2": _ratio("g", "m²", "kg per m2"),
    "lb_per_acre": _ratio("lb", "acre", "kg per m2"),
    "lb_per_acre_per_ppm": _ratio("lb", "acre", "kg per m2 per mg per kg"),
    "kg_per_ha": _ratio("kg", "ha", "kg per m2"),
    "g_per_l": TableUnit("kg per L", size_of("g")),
    "mg_per_100_g": TableUnit("share", Fraction(1, 100_000)),
    "ppm": TableUnit("mg per kg", Fraction(1)),
    "index": TableUnit("index", Fraction(1)),
    "meq_per_100_g": TableUnit("meq per 100 g", Fraction(1)),
    "months": TableUnit("months", Fraction(1)),
    "mesh": TableUnit("mesh", Fraction(1)),
    "percent_per_month": TableUnit("share per month", Fraction(1, 100)),
    "dollars_per_lb": TableUnit("dollars per kg", 1 / size_of("lb")),
}


def table_unit(name: str) -> TableUnit:
    """The unit of that name.

    Raises:
        KeyError: no table may use that unit.

    >>> table_unit("lb_per_ft3").canonical, round(float(table_unit("lb_per_ft3").size), 6)
    ('kg per L', 0.016018)
    """
    return NUMBERS[name]


def is_number(unit: str) -> bool:
    """Whether cells of this unit hold numbers.

    >>> is_number("percent"), is_number("text")
    (True, False)
    """
    return unit in NUMBERS or unit == OWN
