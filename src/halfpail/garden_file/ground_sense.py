"""Whether what is told below a bed makes sense: crops, container, water, manure, earlier years."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from halfpail.application.garden_entry import CropEntry, YearEntry
from halfpail.application.need_question import CoverCrop, Manure, NitrogenSources, Water
from halfpail.findings import Fault
from halfpail.quantities.rounding import shortest
from halfpail.reference.decay_series import cover_crop_line
from halfpail.reference.defaults import default

Fields = Mapping[str, Any]

NONE = Fraction(0)
_PAIRS = (
    ("cover_dry", "cover_n", "cover_crop_N", 'cover_crop_dry = "6 lb per 100 sq ft" and its N'),
    ("water_m", "water_ppm", "water_nitrate", 'water_depth = "12 in" and water_nitrate = "5 ppm"'),
)
_LARGEST_CONTAINER_L = Fraction(2000)


def crops_of(fields: Fields) -> tuple[CropEntry, ...]:
    """The crops of a bed that lists them; those that name none are left out."""
    listed = fields.get("crops", {})
    return tuple(CropEntry(place=place, **crop) for place, crop in listed.items() if "crop" in crop)


def years_of(fields: Fields) -> tuple[YearEntry, ...]:
    """The earlier years of a bed, oldest first; those not whole are left out."""
    listed = fields.get("years", {})
    whole = (
        YearEntry(place=place, **year)
        for place, year in listed.items()
        if {"year", "crop", "given_kg_per_m2"} <= set(year)
    )
    return tuple(sorted(whole, key=lambda year: year.year))


def nitrogen_of(fields: Fields) -> NitrogenSources:
    """Where a bed's nitrogen comes from that need not be given."""
    cover, water = None, None
    if {"cover_dry", "cover_n"} <= set(fields):
        cover = CoverCrop(dry_kg_per_m2=fields["cover_dry"], n_share=fields["cover_n"])
    if {"water_m", "water_ppm"} <= set(fields):
        water = Water(depth_m=fields["water_m"], nitrate_n_ppm=fields["water_ppm"])
    return NitrogenSources(
        manure=tuple(
            _manure(given)
            for given in fields.get("manure", {}).values()
            if {"kind", "amount", "organic_N"} <= set(given)
        ),
        cover_crop=cover,
        legume_before=fields.get("legume_before", False),
        water=water,
    )


def _manure(given: Fields) -> Manure:
    return Manure(
        series=given["kind"],
        years_ago=given.get("years_ago", 0),
        organic_n_kg_per_m2=given["amount"] * given["organic_N"],
        ammonium_n_kg_per_m2=given["amount"] * given.get("ammonium_N", NONE),
    )


def container_area_m2(container_l: Fraction) -> Fraction:
    """The ground a container covers whose size is not told [m²], by the usual depth of its mix."""
    return container_l / 1000 / default("container_depth").value


def ground_faults(place: str, fields: Fields) -> Iterator[Fault]:
    """Everything told below a bed that cannot be so."""
    yield from _share_faults(place, fields)
    for one, other, key, remedy in _PAIRS:
        if (one in fields) != (other in fields):
            sentence = "Only one of a pair is told; both are needed."
            yield Fault(
                place=f"{place}.{key}", read="", sentence=sentence, remedy=f"Write {remedy}."
            )
    most = cover_crop_line()[0][-1][0]
    if fields.get("cover_n", NONE) > 2 * most:
        yield Fault(
            place=f"{place}.cover_crop_N",
            read=f"{shortest(100 * fields['cover_n'], 1)} %",
            sentence="No green plant holds that much nitrogen.",
            remedy="Write nitrogen in the dry matter, such as 3 %.",
        )
    if fields.get("container_l", NONE) > _LARGEST_CONTAINER_L:
        yield Fault(
            place=f"{place}.container",
            read=f"{shortest(fields['container_l'], 0)} L",
            sentence="No pot is that large.",
            remedy="Check the unit, or tell it as a bed with its size.",
        )
    yield from _year_faults(place, fields)


def _share_faults(place: str, fields: Fields) -> Iterator[Fault]:
    if "crops" in fields and not fields["crops"]:
        return
    turns: dict[int, Fraction] = {}
    for crop in crops_of(fields):
        turns[crop.succession] = turns.get(crop.succession, NONE) + crop.share
    for turn, share in turns.items():
        if share > 1:
            yield Fault(
                place=f"{place}.crops",
                read=f"{shortest(100 * share, 0)} %",
                sentence=f"The shares of crops that stand at one time ({turn}) pass the whole bed.",
                remedy="Give what follows another crop succession = 2.",
            )


def _year_faults(place: str, fields: Fields) -> Iterator[Fault]:
    seen: set[int] = set()
    for at, year in fields.get("years", {}).items():
        if year.get("year") in seen:
            yield Fault(
                place=f"{at}.year",
                read=str(year["year"]),
                sentence="This year stands twice.",
                remedy="Put a year's phosphorus together in one entry.",
            )
        if "year" in year:
            seen.add(year["year"])
