"""When crops are sown, set out and harvested, from the frost dates of a season."""

from dataclasses import dataclass
from datetime import date, timedelta

from halfpail.domain.frost_calendar import FrostDates, Way, Window, latest_sowing, planting_window
from halfpail.findings import Fault, Refusal
from halfpail.reference.crop_calendar import maturities, planting_rule
from halfpail.reference.crops import crop_called
from halfpail.reference.defaults import default
from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantingDates:
    """The dates of one crop; what the tables do not know is None.

    `harvest` follows from planting on the first day; `latest` is the last sowing for autumn.
    """

    crop: str
    indoors: Window | None
    outdoors: Window | None
    harvest: Window | None
    latest: date | None
    citation: Citation | None


def date_plantings(crop: str, frost: FrostDates) -> PlantingDates:
    """The dates of one crop in one season, in either hemisphere.

    Raises:
        Refusal: the crop is not known.

    >>> frost = FrostDates(last=date(2027, 4, 22), first=date(2027, 10, 10))
    >>> radish = date_plantings("radish", frost)
    >>> radish.outdoors.start, radish.latest
    (datetime.date(2027, 4, 10), datetime.date(2027, 8, 17))
    """
    known = crop_called(crop)
    if known is None:
        said, remedy = "This crop is not in the table.", "Write a crop of the table: lettuce, say."
        raise Refusal(Fault(place="crop", read=crop, sentence=said, remedy=remedy))
    rule, inside = planting_rule(known.key), planting_rule(known.key, Way.INDOORS)
    outdoors = planting_window(rule.offsets, frost) if rule else None
    kind = next(iter(maturities(known.key)), None)
    harvest = latest = None
    if kind is not None:
        slower = int(default("short_days").value)
        latest = latest_sowing(frost, kind.late_days, slower)
    if kind is not None and outdoors is not None:
        harvest = Window(
            start=outdoors.start + timedelta(days=kind.early_days),
            until=outdoors.start + timedelta(days=kind.late_days),
        )
    return PlantingDates(
        crop=known.name,
        indoors=planting_window(inside.offsets, frost) if inside else None,
        outdoors=outdoors,
        harvest=harvest,
        latest=latest,
        citation=rule.citation if rule else None,
    )
