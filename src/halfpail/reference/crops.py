"""Crops by name and the ranges of their groups for a bed without a soil test."""

from dataclasses import dataclass
from functools import cache

from halfpail.domain.bed import NeedRange, UntestedRanges
from halfpail.quantities.units import size_of
from halfpail.reference.defaults import default
from halfpail.reference.tables import Row, rows
from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class Crop:
    """One crop, the words for it, its group of nitrogen need, and who sorts it there."""

    key: str
    name: str
    synonyms: tuple[str, ...]
    group: str
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class CropGroup:
    """A group of crops: its ranges without a soil test, and in how many doses its N comes."""

    key: str
    ranges: UntestedRanges
    doses: int


@cache
def crops() -> dict[str, Crop]:
    """All crops by key."""
    found = (
        Crop(
            key=row.text("key"),
            name=row.text("name"),
            synonyms=row.words("synonyms"),
            group=row.text("group"),
            citation=row.citation(),
        )
        for row in rows("crops")
    )
    return {crop.key: crop for crop in found}


def crop_called(words: str) -> Crop | None:
    """The crop of that key, name or synonym in any case; None where the table has none.

    >>> crop_called("Zucchini").key
    'summer_squash'
    """
    return _by_word().get(_plain(words))


@cache
def crop_groups() -> dict[str, CropGroup]:
    """All groups of crops by key, from least to most nitrogen."""
    return {
        row.text("group"): CropGroup(
            key=row.text("group"),
            ranges=_untested_ranges(row),
            doses=int(row.needed("doses")),
        )
        for row in rows("crop_groups")
        if row.text("nutrient") == "N"
    }


def crop_group(key: str) -> CropGroup:
    """One group of crops.

    Raises:
        KeyError: there is no such group.

    >>> crop_group("heavy").doses
    3
    """
    return crop_groups()[key]


def _untested_ranges(nitrogen: Row) -> UntestedRanges:
    for_all = {
        (row.text("nutrient"), row.text("ground")): _need_range(row)
        for row in rows("crop_groups")
        if row.text("group") == "any"
    }
    return UntestedRanges(
        n=_need_range(nitrogen),
        p2o5_fed=for_all["P2O5", "fed"],
        p2o5_virgin=for_all["P2O5", "virgin"],
        k2o=for_all["K2O", "any"],
        compost_p2o5_kg_per_m3=default("compost_inch_p2o5").value / size_of("in"),
    )


def _need_range(row: Row) -> NeedRange:
    sides = ("least", "aim", "most", "cap")
    least, aim, most, cap = (row.needed(f"{side}_lb_per_100_sq_ft") for side in sides)
    return NeedRange(
        nutrient=row.text("nutrient"),
        least=least,
        aim=aim,
        most=most,
        cap=cap,
        citation=row.citation(),
    )


@cache
def _by_word() -> dict[str, Crop]:
    return {
        _plain(word): crop
        for crop in crops().values()
        for word in (crop.key, crop.name, *crop.synonyms)
    }


def _plain(words: str) -> str:
    return " ".join(words.replace("_", " ").replace("-", " ").casefold().split())
