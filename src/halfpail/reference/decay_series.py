"""Shares that come year by year, the line for fresh plants, and the phosphorus of bone and rock."""

from fractions import Fraction
from functools import cache

from halfpail.domain.decay_series import DecaySeries
from halfpail.domain.matter import Nutrient
from halfpail.reference.tables import Row, rows
from halfpail.sources import Citation

Points = tuple[tuple[Fraction, Fraction], ...]


@cache
def decay_series() -> dict[str, DecaySeries]:
    """All series by key, of nitrogen, phosphorus and potassium.

    >>> float(decay_series()["cow_wet"].years[0])
    0.35
    """
    return {row.text("key"): _series(row) for row in rows("decay_series")}


@cache
def manure_series() -> dict[str, DecaySeries]:
    """The series of organic nitrogen in manures and composts, by key.

    >>> "poultry" in manure_series(), "p_ontario" in manure_series()
    (True, False)
    """
    found = (row for row in rows("decay_series") if row.text("nutrient") == Nutrient.N)
    return {row.text("key"): _series(row) for row in found}


@cache
def decay_of(material: str) -> DecaySeries | None:
    """The series of organic nitrogen of a material by its key; None where it has none.

    >>> decay_of("poultry_litter").key
    'poultry'
    """
    return next(
        (
            _series(row)
            for row in rows("decay_series")
            if row.text("nutrient") == Nutrient.N and material in row.words("materials")
        ),
        None,
    )


@cache
def cover_crop_line() -> tuple[Points, Citation]:
    """Plant-available nitrogen [kg per kg dry matter] by nitrogen in dry matter [kg/kg]."""
    table = rows("cover_crop")
    points = tuple((row.needed("n_percent"), row.needed("available_lb_per_ton")) for row in table)
    return points, table[0].citation()


def _series(row: Row) -> DecaySeries:
    years = (row.amount(f"{year}_percent") for year in ("first", "second", "third"))
    return DecaySeries(
        key=row.text("key"),
        meaning=row.text("meaning"),
        years=tuple(year for year in years if year is not None),
        citation=row.citation(),
    )
