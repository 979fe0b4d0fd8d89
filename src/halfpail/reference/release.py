"""How the nitrogen of each kind of material comes, from the shipped table."""

from dataclasses import dataclass
from functools import cache

from halfpail.domain.release import Pool, ReleaseCurve
from halfpail.reference.tables import Row, rows
from halfpail.reference.usable_nitrogen import unnamed_nitrogen
from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleaseKind:
    """One kind of material, its keys, its curve, and who says so."""

    key: str
    meaning: str
    materials: tuple[str, ...]
    label_n: str
    curve: ReleaseCurve
    citation: Citation


@cache
def release_kinds() -> dict[str, ReleaseKind]:
    """All kinds by key."""
    return {row.text("key"): _kind(row) for row in rows("release")}


@cache
def release_of(material: str) -> ReleaseKind | None:
    """The kind of one material by its key; None where it holds no nitrogen.

    >>> release_of("blood_meal").curve.at_once_share
    0.29
    """
    return next((kind for kind in release_kinds().values() if material in kind.materials), None)


@cache
def release_of_label(n_share: float) -> ReleaseKind:
    """How label nitrogen [kg/kg] is read where a bag names no source.

    Raises:
        ValueError: the share is below nought or above one.

    >>> release_of_label(0.04).key, release_of_label(0.21).key
    ('granular_organics', 'quick')
    """
    if not 0 <= n_share <= 1:
        raise ValueError(f"a share lies between 0 and 1, not {n_share}")
    band = next(i for i, one in enumerate(unnamed_nitrogen()) if n_share <= one.to)
    name = rows("usable_nitrogen_unnamed")[band].text("key")
    return next(kind for kind in release_kinds().values() if kind.label_n == name)


def _kind(row: Row) -> ReleaseKind:
    return ReleaseKind(
        key=row.text("key"),
        meaning=row.text("meaning"),
        materials=row.words("materials"),
        label_n=row.text("label_n"),
        curve=ReleaseCurve(
            at_once_share=float(row.needed("at_once_percent_of_n")),
            pools=(_pool(row, "fast"), _pool(row, "slow")),
            reference_c=float(row.needed("reference_c")),
        ),
        citation=row.citation(),
    )


def _pool(row: Row, stem: str) -> Pool:
    return Pool(
        share=float(row.needed(f"{stem}_percent_of_n")),
        rate_per_day=float(row.needed(f"{stem}_per_day")),
        q10=float(row.needed(f"{stem}_q10")),
    )
