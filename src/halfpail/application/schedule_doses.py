"""The feedings of a plan one by one: how much of what goes on which bed, and when."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from halfpail.application.date_season import DatedFeed, crop_of
from halfpail.application.open_garden import OpenedGarden
from halfpail.application.place_in_season import Stand, place_in_season
from halfpail.application.season_answer import BedAnswer, FeedAnswer, SeasonAnswer
from halfpail.domain.garden import Tools
from halfpail.findings import Notice, Refusal


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


def schedule_doses(
    opened: OpenedGarden,
    answer: SeasonAnswer,
    dated: Sequence[DatedFeed] = (),
    notices: Sequence[Notice] = (),
) -> Schedule:
    """The doses of a plan on the days found for them, with what was said of these days.

    A bed without days keeps its doses, as equal as whole measures allow.
    """
    days: dict[tuple[str, str], list[DatedFeed]] = {}
    for feed in dated:
        days.setdefault((feed.bed, feed.food), []).append(feed)
    return Schedule(
        feedings=tuple(
            one
            for bed in answer.beds
            for feed in bed.feeds
            for one in (
                _dated(days[bed.bed.name, feed.name])
                if (bed.bed.name, feed.name) in days
                else _undated(bed, feed, opened.garden.tools)
            )
        ),
        stands=dict(_stands(opened)),
        notices=tuple(notices),
    )


def equal_doses(measures: int, doses: int) -> tuple[int, ...]:
    """Measures split into doses as equal as whole measures allow, the larger ones first.

    >>> equal_doses(7, 3), equal_doses(1, 2)
    ((3, 2, 2), (1,))
    """
    each, more = divmod(measures, doses)
    return tuple(each + (number < more) for number in range(doses) if each or number < more)


def _dated(feeds: Sequence[DatedFeed]) -> Iterator[PlannedFeeding]:
    for number, one in enumerate(sorted(feeds, key=lambda feed: feed.on), start=1):
        yield PlannedFeeding(
            bed=one.bed,
            of=one.food,
            scoops=one.scoops,
            volume_l=one.volume_l,
            mass_kg=one.mass_kg,
            dose=number,
            doses=len(feeds),
            on=one.on,
        )


def _undated(bed: BedAnswer, feed: FeedAnswer, tools: Tools) -> Iterator[PlannedFeeding]:
    parts = equal_doses(round(feed.scoops / tools.measure), max(1, bed.doses))
    for number, measures in enumerate(parts, start=1):
        scoops = measures * tools.measure
        yield PlannedFeeding(
            bed=bed.bed.name,
            of=feed.name,
            scoops=scoops,
            volume_l=scoops * tools.scoop_l,
            mass_kg=scoops * feed.scoop_kg,
            dose=number,
            doses=len(parts),
        )


def _stands(opened: OpenedGarden) -> Iterator[tuple[str, Stand]]:
    """When each bed is planted and harvested, where that follows from what is known."""
    frost = opened.climate.frost if opened.climate else None
    for bed in opened.beds:
        crop, planted, harvest = crop_of(bed.entry)
        try:
            yield bed.bed.name, place_in_season(crop, planted, harvest, frost, bed.bed.name)
        except Refusal:
            continue  # the notices of the dates say why
