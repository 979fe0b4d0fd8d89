"""Lime and sulfur by texture, what fineness counts, how amounts are parted, calcium in crops."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from halfpail.domain.lime_method import Texture, Use
from halfpail.domain.liming_value import FinenessSystem, Sieved
from halfpail.domain.spreading import PartingRule
from halfpail.domain.sulfur import SulfurStep
from halfpail.quantities.units import size_of
from halfpail.reference.table_units import table_unit
from halfpail.reference.tables import Row, rows
from halfpail.sources import Citation

CAREFUL = "low_rate"
NONE = Fraction(0)
# The sulfur table is for this depth of soil.
SULFUR_DEPTH_M = 7 * size_of("in")
_SULFUR = "michigan"


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedRate:
    """A published amount that takes a soil of one texture from one pH to another.

    `low` and `high` are [kg/m²], or kilograms for each kilogram of sulfur where `unit` says so;
    `reason` says why it is not used.
    """

    system: str
    material: str
    texture: Texture
    from_ph: Fraction
    to_ph: Fraction
    low: Fraction
    high: Fraction
    unit: str
    use: Use
    reason: str
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class CropCalcium:
    """Calcium and magnesium a crop holds [kg/m²] at a yield."""

    crop: str
    yield_per_acre: str
    calcium_kg_per_m2: Fraction
    magnesium_kg_per_m2: Fraction
    citation: Citation


@cache
def lime_by_texture() -> tuple[PublishedRate, ...]:
    """Ground limestone by texture alone: the careful rates and those that are only shown."""
    return tuple(
        _published(row, "ground limestone", "amount", "amount") for row in rows("lime_texture")
    )


def careful_rate(texture: Texture) -> PublishedRate | None:
    """The careful rate for one unit of pH; None for soil that needs a buffer test in any case.

    >>> careful_rate(Texture.ORGANIC) is None
    True
    """
    found = (rate for rate in lime_by_texture() if rate.system == CAREFUL)
    return next((rate for rate in found if rate.texture is texture), None)


@cache
def acidifying() -> tuple[PublishedRate, ...]:
    """Everything published that makes soil sour, used or only shown."""
    return tuple(_published(row, row.text("material"), "low", "high") for row in rows("acidifying"))


def sulfur_steps(texture: Texture) -> tuple[SulfurStep, ...]:
    """The steps of the table that is used, for one texture; clay is read as clay loam.

    >>> len(sulfur_steps(Texture.LOAM))
    3
    """
    column = Texture.CLAY_LOAM if texture is Texture.CLAY else texture
    return tuple(
        SulfurStep(from_ph=rate.from_ph, to_ph=rate.to_ph, rate_kg_per_m2=rate.low)
        for rate in acidifying()
        if rate.system == _SULFUR and rate.texture is column
    )


def sulfur_citation() -> Citation:
    """Who says how much sulfur."""
    return next(rate.citation for rate in acidifying() if rate.system == _SULFUR)


@cache
def fineness_steps(system: FinenessSystem) -> tuple[Sieved, ...]:
    """What each sieve fraction counts under one rule, from coarse to fine."""
    return tuple(
        Sieved(
            through_mesh=int(row.needed("through_mesh")),
            not_through_mesh=int(row.needed("not_through_mesh"))
            if row.text("not_through_mesh")
            else None,
            counted=row.needed("counted_percent"),
        )
        for row in rows("fineness")
        if row.text("system") == system
    )


def fineness_citation(system: FinenessSystem) -> Citation:
    """Who says what the fractions count."""
    return next(row.citation() for row in rows("fineness") if row.text("system") == system)


@cache
def parting_rules(stem: str) -> tuple[PartingRule, ...]:
    """The rules for beds whose key begins with a stem: `garden` for lime, `epsom` for its salt."""
    return tuple(
        PartingRule(
            least=row.in_own_unit("least") or NONE,
            step=table_unit(row.text("unit")).size,
            parts=int(row.needed("parts")),
            months_apart=int(row.needed("months_apart")),
            citation=row.citation(),
        )
        for row in rows("lime_splits")
        if row.text("key").startswith(stem) and row.text("use") == Use.BED
    )


@cache
def calcium_in_crops() -> tuple[CropCalcium, ...]:
    """What crops hold, from the published table."""
    return tuple(
        CropCalcium(
            crop=row.text("crop"),
            yield_per_acre=row.text("yield_per_acre"),
            calcium_kg_per_m2=row.needed("ca_lb_per_acre"),
            magnesium_kg_per_m2=row.needed("mg_lb_per_acre"),
            citation=row.citation(),
        )
        for row in rows("calcium_in_crops")
    )


def _published(row: Row, material: str, low: str, high: str) -> PublishedRate:
    return PublishedRate(
        system=row.text("system"),
        material=material,
        texture=Texture(row.text("texture")),
        from_ph=row.needed("from_ph"),
        to_ph=row.needed("to_ph"),
        low=row.in_own_unit(low) or NONE,
        high=row.in_own_unit(high) or NONE,
        unit=row.text("unit"),
        use=Use(row.text("use")),
        reason=row.text("reason"),
        citation=row.citation(),
    )
