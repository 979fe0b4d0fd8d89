"""The feedings of a plan one by one: how much of what goes on which bed, and when."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from halfpail.application.place_in_season import Stand
from halfpail.application.season_answer import BedAnswer, FeedAnswer, SeasonAnswer
from halfpail.application.tell_season import mix_name
from halfpail.application.time_feedings import (
    BedFood,
    BedTimes,
    FedBed,
    TimingQuestion,
    time_feedings,
)
from halfpail.application.warm_soil import WarmthQuestion
from halfpail.domain.frost_calendar import FrostDates
from halfpail.domain.garden import Garden
from halfpail.domain.mix import part_mass_kg
from halfpail.domain.stock import Bag
from halfpail.findings import Notice, Refusal, Severity

MOST_VISITS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedFeeding:
    """One dose: so much of one mix or bag for one bed; `on` is None where no date is known.

    `dose` counts from 1 to `doses` for this bed and food.
    """

    bed: str
    of: str
    scoops: Fraction
    volume_l: Fraction
    mass_kg: Fraction
    dose: int
    doses: int
    on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Schedule:
    """Every dose of a plan, when each bed is planted and harvested, and what could not be dated."""

    feedings: tuple[PlannedFeeding, ...]
    stands: Mapping[str, Stand]
    notices: tuple[Notice, ...]


def date_feedings(
    garden: Garden, answer: SeasonAnswer, frost: FrostDates | None = None
) -> Schedule:
    """The doses of a plan; with frost dates also their days, where the crop's days are known.

    A bed whose days do not follow from the frost dates keeps its doses without days, and a notice
    says why.
    """
    feedings: list[PlannedFeeding] = []
    stands: dict[str, Stand] = {}
    notices: list[Notice] = []
    for bed in answer.beds:
        times = _times(bed, garden, answer, frost, notices) if frost and bed.feeds else None
        if times:
            stands[bed.bed.name] = times.stand
            notices += times.notices
        for feed in bed.feeds:
            feedings += _doses(bed, feed, garden, times)
    return Schedule(feedings=tuple(feedings), stands=stands, notices=tuple(notices))


def equal_doses(measures: int, doses: int) -> tuple[int, ...]:
    """Measures split into doses as equal as whole measures allow, the larger ones first.

    >>> equal_doses(7, 3), equal_doses(1, 2)
    ((3, 2, 2), (1,))
    """
    each, more = divmod(measures, doses)
    return tuple(each + (number < more) for number in range(doses) if each or number < more)


def _doses(
    bed: BedAnswer, feed: FeedAnswer, garden: Garden, times: BedTimes | None
) -> Iterator[PlannedFeeding]:
    dated = _dated(bed, feed, garden, times)
    tools = garden.tools
    for number, (on, measures) in enumerate(dated, start=1):
        scoops = measures * tools.measure
        yield PlannedFeeding(
            bed=bed.bed.name,
            of=feed.name,
            scoops=scoops,
            volume_l=scoops * tools.scoop_l,
            mass_kg=scoops * feed.scoop_kg,
            dose=number,
            doses=len(dated),
            on=on,
        )


def _dated(
    bed: BedAnswer, feed: FeedAnswer, garden: Garden, times: BedTimes | None
) -> tuple[tuple[date | None, int], ...]:
    """Days and measures of one food: as timed, at planting without nitrogen, else undated."""
    if times:
        visits = [
            (one.on, one.measures[feed.name]) for one in times.visits if feed.name in one.measures
        ]
        if visits:
            return tuple(visits)
        if not feed.quick_n_kg and not _has_nitrogen(feed):
            return ((times.stand.planted, _measures(feed, garden)),)
    return tuple((None, one) for one in equal_doses(_measures(feed, garden), max(1, bed.doses)))


def _measures(feed: FeedAnswer, garden: Garden) -> int:
    return round(feed.scoops / garden.tools.measure)


def _has_nitrogen(feed: FeedAnswer) -> bool:
    return any(share for content, share in feed.holds.items() if content.value == "label N")


def _times(
    bed: BedAnswer,
    garden: Garden,
    answer: SeasonAnswer,
    frost: FrostDates | None,
    notices: list[Notice],
) -> BedTimes | None:
    parts = _parts(garden, answer)
    need = bed.bed.need("N")
    foods = tuple(
        BedFood(
            name=feed.name,
            parts=parts[feed.name],
            measure_kg=garden.tools.measure * feed.scoop_kg,
            measures=_measures(feed, garden),
        )
        for feed in bed.feeds
        if _has_nitrogen(feed)
    )
    fed = FedBed(
        name=bed.bed.name,
        crop=bed.bed.crop,
        area_m2=bed.bed.area_m2,
        n_aim_kg_per_m2=(need.aim or need.most) if need else Fraction(0),
        foods=foods,
    )
    asked = TimingQuestion(
        beds=(fed,), warmth=WarmthQuestion(frost=frost), frost=frost, most_visits=MOST_VISITS
    )
    try:
        return time_feedings(asked)[0]
    except Refusal as refusal:
        why = " ".join(f"{fault.sentence} {fault.remedy}".strip() for fault in refusal.faults)
        said = f"{bed.bed.name}: no dates were found for it. {why}"
        notices.append(Notice(severity=Severity.NOTE, sentence=said))
        return None


def _parts(garden: Garden, answer: SeasonAnswer) -> dict[str, tuple[tuple[Bag, Fraction], ...]]:
    """What each food of the plan is made of, by name, each bag with its share of the weight."""
    found: dict[str, tuple[tuple[Bag, Fraction], ...]] = {
        bag.name: ((bag, Fraction(1)),) for bag in garden.bags
    }
    for number, mix in enumerate(answer.mixes):
        one = mix.round
        found[mix_name(number)] = tuple(
            (part.bag, part_mass_kg(part, one.scoop_l) / one.mass_kg) for part in one.parts
        )
    return found
