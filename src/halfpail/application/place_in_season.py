"""When a bed is planted and harvested, and how much nitrogen its crop wants by each day."""

from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from halfpail.application.warm_soil import SoilWarmth
from halfpail.domain.feeding_times import GrowingSeason
from halfpail.domain.frost_calendar import FrostDates, planting_window
from halfpail.domain.uptake import Stages, stretched, taken_up
from halfpail.findings import Fault, Refusal
from halfpail.reference.crop_calendar import (
    CropStages,
    Maturity,
    PlantingRule,
    maturities,
    planting_rule,
    stages_near,
)
from halfpail.reference.crops import Crop, crop_called
from halfpail.reference.defaults import default

_REMEDY = "Write the date, such as 2027-05-20."


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """A crop on a bed: planted, harvested, its stages, and the rows the dates come from.

    `planting` and `maturity` are None where the date was typed.
    """

    crop: Crop
    planted: date
    harvest: date
    row: CropStages
    stages: Stages
    planting: PlantingRule | None
    maturity: Maturity | None


def place_in_season(
    crop: str, planted: date | None, harvest: date | None, frost: FrostDates | None, place: str
) -> Stand:
    """A crop with its dates; those not typed follow from the frost dates and days to maturity.

    Raises:
        Refusal: the crop is not known, a date is missing, or harvest does not follow planting.

    >>> frost = FrostDates(last=date(2027, 4, 22), first=date(2027, 10, 10))
    >>> place_in_season("tomato", None, None, frost, "bed").planted
    datetime.date(2027, 4, 25)
    """
    known = crop_called(crop)
    if known is None:
        said = "This crop is not in the table."
        raise _refused(f"{place}.crop", crop, said, "Write a crop of the table, such as lettuce.")
    rule = None if planted else planting_rule(known.key)
    planted = planted or _planted(rule, frost, place)
    kind = None if harvest else next(iter(maturities(known.key)), None)
    harvest = harvest or _harvest(kind, planted, place)
    if harvest <= planted:
        said = f"Harvest is not after planting, {planted.isoformat()}."
        raise _refused(f"{place}.harvest", harvest.isoformat(), said, "Write a later date.")
    days = (harvest - planted).days
    row = stages_near(known.key, days)
    return Stand(
        crop=known,
        planted=planted,
        harvest=harvest,
        row=row,
        stages=stretched(row.stages, days),
        planting=rule,
        maturity=kind,
    )


def growing_season(
    stand: Stand, aim_kg_per_m2: Fraction, warmth: SoilWarmth, before_days: int
) -> GrowingSeason:
    """The days from so many before planting to harvest [days], for an aim of nitrogen [kg/m²].

    What is wanted by a day is what the crop has taken up some days later: roots do not reach every
    grain of soil, so that nitrogen must be there ahead of its use. After harvest nothing is wanted,
    and what still comes is left to wash down.
    """
    ahead = int(default("nitrogen_ahead").value)
    start = stand.planted - timedelta(days=before_days)
    days = (stand.harvest - start).days + 1
    after = int(default("after_harvest").value)
    aim = float(aim_kg_per_m2)
    wanted = (
        aim * taken_up(stand.stages, stand.row.habit, day - before_days + ahead + 1)
        if day >= before_days
        else 0.0
        for day in range(days)
    )
    return GrowingSeason(
        start=start,
        planted=stand.planted,
        harvest=stand.harvest,
        temperatures_c=warmth.days_c(start, days + after),
        wanted_kg_per_m2=tuple(wanted),
    )


def before_planting_days() -> int:
    """How long before planting a bed is fed at most [days]."""
    return int(default("before_planting").value)


def _planted(rule: PlantingRule | None, frost: FrostDates | None, place: str) -> date:
    if rule is None or frost is None:
        raise _refused(
            f"{place}.planted", "", "When this is planted follows from nothing known.", _REMEDY
        )
    return planting_window(rule.offsets, frost).start


def _harvest(kind: Maturity | None, planted: date, place: str) -> date:
    if kind is None:
        raise _refused(
            f"{place}.harvest", "", "The table has no days to maturity for this.", _REMEDY
        )
    return planted + timedelta(days=kind.middle_days)


def _refused(place: str, read: str, sentence: str, remedy: str) -> Refusal:
    return Refusal(Fault(place=place, read=read, sentence=sentence, remedy=remedy))
