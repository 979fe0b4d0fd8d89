"""Whether climate and dates make sense together, and what is made of them."""

from collections.abc import Iterator, Mapping
from typing import Any

from halfpail.application.garden_entry import GivenEntry
from halfpail.application.lime_question import EarlierLime
from halfpail.application.warm_soil import WarmthQuestion
from halfpail.domain.frost_calendar import FrostDates
from halfpail.findings import Fault

Fields = Mapping[str, Any]

_FROST = ("last_frost", "first_frost")
_LIME = ("lime_given", "lime_months_ago")


def climate_of(fields: Fields) -> WarmthQuestion | None:
    """How warm the place is; None where nothing or no more than the depth is told."""
    known = {key: fields[key] for key in ("months_c", "steady_c") if key in fields}
    frost = _frost(fields)
    if frost is None and not known:
        return None
    depth = fields.get("depth_m")
    return WarmthQuestion(frost=frost, depth_m=None if depth is None else float(depth), **known)


def given_of(fields: Fields) -> tuple[GivenEntry, ...]:
    """What a bed got already; those not whole are left out."""
    listed = fields.get("given", {})
    return tuple(
        GivenEntry(place=place, **given)
        for place, given in listed.items()
        if {"of", "mass_kg", "on"} <= set(given)
    )


def earlier_lime_of(fields: Fields) -> EarlierLime | None:
    """Lime that a bed got; None where it is not told whole."""
    if not set(_LIME) <= set(fields):
        return None
    return EarlierLime(rate_kg_per_m2=fields["lime_given"], months=fields["lime_months_ago"])


def climate_faults(fields: Fields) -> Iterator[Fault]:
    """Frost dates that are no season, or only one of them."""
    told = [key for key in _FROST if key in fields]
    if len(told) == 1:
        missing = next(key for key in _FROST if key not in fields)
        yield Fault(
            place=f"climate.{missing}",
            read="",
            sentence="The other frost date is missing.",
            remedy=f'Write {missing} = "2027-10-01", say.',
        )
    elif told and _frost(fields) is None:
        yield Fault(
            place="climate.first_frost",
            read=fields["first_frost"].isoformat(),
            sentence="The first frost of autumn comes after the last one of spring, within a year.",
            remedy="Check the two dates and their years; they may have changed places.",
        )


def time_faults(place: str, fields: Fields) -> Iterator[Fault]:
    """Dates of a bed that cannot be so, and half-told lime."""
    crops = fields.get("crops", {})
    for at, one in ((place, fields), *crops.items()):
        planted, harvest = one.get("planted"), one.get("harvest")
        if planted and harvest and harvest <= planted:
            yield Fault(
                place=f"{at}.harvest",
                read=harvest.isoformat(),
                sentence=f"Harvest is not after planting, {planted.isoformat()}.",
                remedy="Write a later date, or leave it out.",
            )
    told = [key for key in _LIME if key in fields]
    if len(told) == 1:
        missing = next(key for key in _LIME if key not in fields)
        yield Fault(
            place=f"{place}.{missing}",
            read="",
            sentence="Earlier lime counts by how much and how long ago.",
            remedy='Write lime_given = "5 lb per 100 sq ft" and lime_months_ago = 8, say.',
        )


def _frost(fields: Fields) -> FrostDates | None:
    if not set(_FROST) <= set(fields):
        return None
    try:
        return FrostDates(last=fields["last_frost"], first=fields["first_frost"])
    except ValueError:
        return None
