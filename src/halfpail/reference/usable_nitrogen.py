"""How much of the insoluble nitrogen a crop gets in the first season, by kind of material."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from halfpail.domain.material import Spread
from halfpail.domain.usable_nitrogen import UnnamedSource
from halfpail.reference.tables import rows
from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class UsableShares:
    """Usable share of nitrogen [0-1] of one kind of material, and who says so."""

    meaning: str
    share: Spread
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class UnnamedNitrogen(UsableShares):
    """Usable share of label nitrogen [0-1] of a bag that names no source.

    It holds for nitrogen above `above` and up to `to` [kg per kg product].
    """

    above: Fraction
    to: Fraction


@cache
def usable_shares(key: str) -> UsableShares:
    """The usable share of insoluble nitrogen of one class of materials [0-1].

    Raises:
        KeyError: there is no such class.

    >>> usable_shares("granular_organics").share.typical
    Fraction(9, 20)
    """
    row = {row.text("key"): row for row in rows("usable_nitrogen")}[key]
    return UsableShares(
        meaning=row.text("meaning"),
        share=row.needed_spread("usable_percent_of_insoluble_n"),
        citation=row.citation(),
    )


@cache
def unnamed_nitrogen() -> tuple[UnnamedNitrogen, ...]:
    """What is counted where a label names no source, from poor to rich in nitrogen."""
    return tuple(
        UnnamedNitrogen(
            meaning=row.text("meaning"),
            above=row.needed("n_percent_above"),
            to=row.needed("n_percent_to"),
            share=row.needed_spread("usable_percent_of_n"),
            citation=row.citation(),
        )
        for row in rows("usable_nitrogen_unnamed")
    )


def unnamed_shares(n: Fraction) -> UnnamedNitrogen:
    """The usable share of nitrogen of a bag that names no source and holds `n` [kg/kg].

    Raises:
        ValueError: `n` is below nought or above one.

    >>> unnamed_shares(Fraction(4, 100)).share.typical
    Fraction(9, 20)
    >>> unnamed_shares(Fraction(21, 100)).share.low
    Fraction(1, 1)
    """
    if not 0 <= n <= 1:
        raise ValueError(f"a share lies between 0 and 1, not {n}")
    return next(band for band in unnamed_nitrogen() if n <= band.to)


def unnamed_source(n: Fraction) -> UnnamedSource:
    """What the rule of usable nitrogen needs for a bag that names no source and holds `n` [kg/kg].

    >>> unnamed_source(Fraction(4, 100)).of_all.high
    Fraction(11, 20)
    """
    return UnnamedSource(
        of_all=unnamed_shares(n).share,
        of_insoluble=usable_shares("granular_organics").share,
    )
