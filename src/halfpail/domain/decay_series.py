"""Organic nitrogen that comes year by year, by a published series; exact."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class DecaySeries:
    """Shares that come in the first, second and third year, as far as a source says [0-1]."""

    key: str
    meaning: str
    years: tuple[Fraction, ...]
    citation: Citation


def released_this_year(series: DecaySeries, given: Sequence[Fraction]) -> Fraction:
    """Organic nitrogen that comes this year [the unit of `given`].

    `given` holds what was given this year, last year, and so on back; what is older than the
    series no longer counts. 50 lb a year of cow manure nitrogen brings 26 lb in the third year
    (Cornell University, CSS 412).

    >>> from halfpail.sources import Mark
    >>> cow = DecaySeries(key="cow", meaning="", citation=Citation(mark=Mark.VERIFIED),
    ...                   years=(Fraction(35, 100), Fraction(12, 100), Fraction(5, 100)))
    >>> released_this_year(cow, [Fraction(50)] * 3)
    Fraction(26, 1)
    """
    pairs = zip(series.years, given, strict=False)
    return sum((share * amount for share, amount in pairs), Fraction(0))
