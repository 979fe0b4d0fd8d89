"""A garden from a day on: beds whose last feeding is past are left out of the plan, and told."""

from dataclasses import replace
from datetime import date

from halfpail.application.date_season import crop_of
from halfpail.application.open_garden import OpenedBed, OpenedGarden
from halfpail.application.place_in_season import place_in_season
from halfpail.application.time_feedings import last_feeding
from halfpail.domain.frost_calendar import FrostDates
from halfpail.findings import Fault, Notice, Refusal, Severity


def leave_past_beds(opened: OpenedGarden, today: date) -> OpenedGarden:
    """The garden with the beds that can still be fed; one whose dates nobody knows stays.

    Raises:
        Refusal: no bed is left.
    """
    frost = opened.climate.frost if opened.climate else None
    past = {one.bed.name for one in opened.beds if _is_past(one, frost, today)}
    left = tuple(one for one in opened.beds if one.bed.name not in past)
    if not left:
        raise Refusal(
            Fault(
                place="from",
                read=today.isoformat(),
                sentence="From this day on no bed of the garden can be fed any more.",
                remedy="Write an earlier day, or the frost dates of the next season.",
            )
        )
    if not past:
        return opened
    names = ", ".join(one.bed.name for one in opened.beds if one.bed.name in past)
    told = Notice(
        severity=Severity.NOTE,
        sentence=f"{names}: the last day to feed is past, so nothing is planned there.",
    )
    garden = replace(opened.garden, beds=tuple(one.bed for one in left))
    return replace(opened, garden=garden, beds=left, notices=(told, *opened.notices))


def _is_past(opened: OpenedBed, frost: FrostDates | None, today: date) -> bool:
    crop, planted, harvest = crop_of(opened.entry)
    try:
        stand = place_in_season(crop, planted, harvest, frost, opened.bed.name)
    except Refusal:
        return False
    return today > max(stand.planted, last_feeding(stand.harvest))
