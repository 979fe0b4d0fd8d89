"""The numbers assumed where a person has said nothing, each with its standing."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from halfpail.reference.table_units import table_unit
from halfpail.reference.tables import Row, rows
from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class Default:
    """One assumed number in this project's own `unit`, with its ends where it has any.

    `printed` and `printed_unit` are the number and unit as the table has them.
    """

    key: str
    meaning: str
    value: Fraction
    low: Fraction | None
    high: Fraction | None
    unit: str
    printed: Fraction
    printed_unit: str
    citation: Citation


@cache
def defaults() -> dict[str, Default]:
    """All assumed numbers by key."""
    return {row.text("key"): _default(row) for row in rows("defaults")}


def default(key: str) -> Default:
    """One assumed number.

    Raises:
        KeyError: there is no such number.

    >>> density = default("blend_density")
    >>> density.unit, round(float(density.value), 3), density.printed, density.printed_unit
    ('kg per L', 0.721, Fraction(45, 1), 'lb_per_ft3')
    """
    return defaults()[key]


def _default(row: Row) -> Default:
    unit = table_unit(row.text("unit"))
    sides = {side: row.printed(side) for side in ("low", "high")}
    ends = {side: None if end is None else end * unit.size for side, end in sides.items()}
    printed = Fraction(row.text("value"))
    return Default(
        key=row.text("key"),
        meaning=row.text("meaning"),
        value=printed * unit.size,
        low=ends["low"],
        high=ends["high"],
        unit=unit.canonical,
        printed=printed,
        printed_unit=row.text("unit"),
        citation=row.citation(),
    )
