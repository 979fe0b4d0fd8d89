"""The purposes a mix may lean to: they move N and K2O, and never ask for phosphorus."""

from dataclasses import dataclass
from functools import cache

from halfpail.domain.recipe import PerNitrogen, RatioTarget
from halfpail.reference.tables import Row, rows
from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class Purpose:
    """One purpose, its wished ratios to nitrogen, and who says so."""

    key: str
    name: str
    meaning: str
    target: RatioTarget
    citation: Citation


@cache
def purposes() -> dict[str, Purpose]:
    """All purposes by key, in the order of the table."""
    return {row.text("key"): _purpose(row) for row in rows("purposes")}


def purpose(key: str) -> Purpose:
    """One purpose.

    Raises:
        KeyError: there is no such purpose.

    >>> purpose("fruiting").target.aim["K2O"]
    Fraction(3, 2)
    """
    return purposes()[key]


def _purpose(row: Row) -> Purpose:
    high = {"K2O": row.needed("k2o_high_lb_per_lb_n")}
    most_p2o5 = row.amount("p2o5_high_lb_per_lb_n")
    if most_p2o5 is not None:
        high["P2O5"] = most_p2o5
    return Purpose(
        key=row.text("key"),
        name=row.text("name"),
        meaning=row.text("meaning"),
        target=RatioTarget(
            low={"K2O": row.needed("k2o_low_lb_per_lb_n")},
            aim={"K2O": row.needed("k2o_aim_lb_per_lb_n")},
            high=high,
            per=PerNitrogen.USABLE,
        ),
        citation=row.citation(),
    )
