"""Which families of materials may share a pail."""

from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from halfpail.reference.tables import rows
from halfpail.sources import Citation


class Verdict(StrEnum):
    """What may be done with two families; the value is the letter of the table."""

    MIX = "Y"
    SAME_DAY = "L"
    APART = "N"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two families of materials: whether they may share a pail, why not, and who says so."""

    verdict: Verdict
    reason: str
    citation: Citation


@cache
def pairs() -> dict[frozenset[str], Pair]:
    """All pairs of different families that the table knows."""
    return {
        frozenset((row.text("family"), row.text("other"))): Pair(
            verdict=Verdict(row.text("verdict")),
            reason=row.text("reason"),
            citation=row.citation(),
        )
        for row in rows("compatibility")
    }


@cache
def families() -> frozenset[str]:
    """Every family the table knows."""
    return frozenset().union(*pairs())


def pair(family: str, other: str) -> Pair | None:
    """What the table says of two families; None for one family, or where it says nothing.

    >>> pair("urea", "superphosphate").verdict
    <Verdict.APART: 'N'>
    >>> pair("meal", "meal") is None
    True
    """
    return pairs().get(frozenset((family, other)))
