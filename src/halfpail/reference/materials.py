"""The materials fertilizers are made of, from the shipped table."""

from fractions import Fraction
from functools import cache
from types import MappingProxyType

from halfpail.domain.material import Material, OrganicUse, Release, Spread
from halfpail.domain.matter import Nutrient
from halfpail.reference.tables import Row, rows
from halfpail.reference.usable_nitrogen import usable_shares

_SPREAD = (Nutrient.N, Nutrient.P2O5, Nutrient.K2O, Nutrient.CA, Nutrient.MG, Nutrient.S)
_SINGLE = (
    *(Nutrient.CL, Nutrient.NA, Nutrient.B, Nutrient.FE),
    *(Nutrient.ZN, Nutrient.MN, Nutrient.CU, Nutrient.MO),
)


@cache
def materials() -> tuple[Material, ...]:
    """All materials in the order of the table.

    >>> len(materials()) >= 60
    True
    """
    return tuple(_material(row) for row in rows("materials"))


@cache
def material(key: str) -> Material:
    """One material.

    Raises:
        KeyError: the table has no such material.

    >>> material("urea").contents[Nutrient.N].typical
    Fraction(23, 50)
    """
    found = {one.key: one for one in materials()}
    return found[key]


def _material(row: Row) -> Material:
    usable = usable_shares(row.text("usable_class")) if row.text("usable_class") else None
    release, organic_use = row.text("release"), row.text("organic_use")
    cce = row.amount("cce_percent")
    density = row.spread("density_lb_per_ft3")
    return Material(
        key=row.text("key"),
        name=row.text("name"),
        synonyms=row.words("synonyms"),
        contents=MappingProxyType(_contents(row)),
        total_p2o5=row.amount("total_p2o5_percent"),
        density_kg_per_l=density,
        release=Release(release) if release else None,
        soluble_n=row.amount("soluble_n_percent_of_n") or Fraction(0),
        usable_insoluble_n=usable.share if usable else None,
        organic_use=OrganicUse(organic_use) if organic_use else None,
        cce=cce or Fraction(0),
        formula=row.text("formula"),
        family=row.text("family"),
        cautions=row.words("cautions"),
        citation=row.citation(),
        density_citation=row.citation("density_") if density else None,
        usable_n_citation=usable.citation if usable else None,
        cce_citation=row.citation("cce_") if cce is not None else None,
    )


def _contents(row: Row) -> dict[Nutrient, Spread]:
    """Contents above nought; a nutrient the table leaves out is not known to be there."""
    spreads = {nutrient: row.spread(f"{nutrient.lower()}_percent") for nutrient in _SPREAD}
    for nutrient in _SINGLE:
        share = row.amount(f"{nutrient.lower()}_percent")
        spreads[nutrient] = None if share is None else Spread(low=share, typical=share, high=share)
    return {nutrient: spread for nutrient, spread in spreads.items() if spread and spread.high}
