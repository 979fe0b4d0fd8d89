"""When the amounts of a season plan go on: whole measures on dates, few visits, none that is past.

A bed that cannot be dated says why; the rest of the garden is dated all the same.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from halfpail.application.garden_entry import BedEntry
from halfpail.application.heed_manure import may_be_raw
from halfpail.application.open_garden import OpenedBed, OpenedGarden
from halfpail.application.place_in_season import place_in_season
from halfpail.application.season_answer import SeasonAnswer
from halfpail.application.tell_season import mix_name
from halfpail.application.time_feedings import (
    BedFood,
    BedTimes,
    FedBed,
    FedBefore,
    TimingQuestion,
    last_feeding,
    no_date_left,
    time_feedings,
)
from halfpail.application.warm_soil import WarmthQuestion, warm_soil
from halfpail.domain.garden import Tools
from halfpail.domain.manure_interval import Treatment
from halfpail.domain.matter import Nutrient
from halfpail.domain.mix import part_mass_kg
from halfpail.domain.season import Feeding
from halfpail.domain.stock import Bag
from halfpail.findings import Notice, Refusal, Severity
from halfpail.working import Working

NONE = Fraction(0)
WHOLE = Fraction(1)


@dataclass(frozen=True, slots=True, kw_only=True)
class DatedFeed:
    """So many whole measures of one mix or bag for one bed on one day, before or after planting."""

    on: date
    bed: str
    food: str
    measures: int
    scoops: Fraction
    volume_l: Fraction
    mass_kg: Fraction
    beside_rows: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonDates:
    """What goes on when, the first day first; `beds` has the curves of each bed that was timed."""

    feeds: tuple[DatedFeed, ...]
    beds: tuple[BedTimes, ...]
    notices: tuple[Notice, ...]
    working: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bench:
    """What the dating of every bed needs."""

    climate: WarmthQuestion
    tools: Tools
    visits: int
    today: date | None

    def not_past(self, on: date) -> date:
        """A day, or today where it is past."""
        return on if self.today is None else max(on, self.today)


def date_season(
    opened: OpenedGarden, answer: SeasonAnswer, today: date | None = None
) -> SeasonDates | None:
    """The dates of a told plan; None where nothing is known of the climate.

    Nothing is planned before `today`, where it is given.
    """
    if opened.climate is None:
        return None
    garden = opened.garden
    bench = _Bench(
        climate=opened.climate,
        tools=garden.tools,
        visits=garden.preferences.visits,
        today=today,
    )
    warmth = warm_soil(opened.climate)
    feeds: list[DatedFeed] = []
    timed: list[BedTimes] = []
    notices: list[Notice] = [*warmth.notices, *_of_manure(garden.bags, answer)]
    for bed in opened.beds:
        foods = _foods(bed, answer, garden.tools)
        if not foods:
            continue
        try:
            times, dated = _date_bed(bed, foods, bench)
        except Refusal as refusal:
            notices.extend(_undated(bed, refusal))
            continue
        feeds.extend(dated)
        if times is not None:
            timed.append(times)
            notices.extend(times.notices)
    return SeasonDates(
        feeds=tuple(sorted(feeds, key=lambda feed: (feed.on, feed.bed, feed.food))),
        beds=tuple(timed),
        notices=tuple(notices),
        working=warmth.working,
    )


def _date_bed(
    opened: OpenedBed, foods: Sequence[BedFood], bench: _Bench
) -> tuple[BedTimes | None, list[DatedFeed]]:
    """Foods with nitrogen by the search, the others on the first day, or when it is planted."""
    nitrogen = [food for food in foods if _nitrogen(food)]
    others = [food for food in foods if not _nitrogen(food)]
    aim = _season_aim(opened)
    crop, planted, harvest = crop_of(opened.entry)
    if not nitrogen or not aim:
        stand = place_in_season(crop, planted, harvest, bench.climate.frost, opened.bed.name)
        on = bench.not_past(stand.planted)
        if on > max(stand.planted, last_feeding(stand.harvest)):
            raise no_date_left(stand.harvest, opened.bed.name)
        return None, [
            _dated(food, food.measures, on, opened, bench, stand.planted) for food in foods
        ]
    fed = FedBed(
        name=opened.bed.name,
        crop=crop,
        area_m2=opened.bed.area_m2,
        n_aim_kg_per_m2=aim,
        foods=tuple(nitrogen),
        planted=planted,
        harvest=harvest,
        contact=opened.entry.contact,
        nitrate_n_mg_per_kg=opened.entry.nitrate_n_mg_per_kg,
        before=_before(opened),
    )
    question = TimingQuestion(
        beds=(fed,),
        warmth=bench.climate,
        frost=bench.climate.frost,
        most_visits=bench.visits,
        today=bench.today,
    )
    (times,) = time_feedings(question)
    start = times.stand.planted
    by_name = {food.name: food for food in nitrogen}
    dated = [
        _dated(by_name[name], measures, visit.on, opened, bench, start)
        for visit in times.visits
        for name, measures in visit.measures.items()
        if measures
    ]
    first = min((visit.on for visit in times.visits), default=bench.not_past(start))
    dated += [_dated(food, food.measures, first, opened, bench, start) for food in others]
    return times, dated


def _dated(
    food: BedFood, measures: int, on: date, opened: OpenedBed, bench: _Bench, planted: date
) -> DatedFeed:
    scoops = measures * bench.tools.measure
    return DatedFeed(
        on=on,
        bed=opened.bed.name,
        food=food.name,
        measures=measures,
        scoops=scoops,
        volume_l=scoops * bench.tools.scoop_l,
        mass_kg=measures * food.measure_kg,
        beside_rows=on > planted,
    )


def _foods(opened: OpenedBed, answer: SeasonAnswer, tools: Tools) -> list[BedFood]:
    """What the plan gives a bed, bag by bag within each mix."""
    feedings = (one for one in answer.plan.feedings if one.plot == opened.bed.key)
    return [_food(one, answer, tools) for one in feedings if one.measures]


def _food(feeding: Feeding, answer: SeasonAnswer, tools: Tools) -> BedFood:
    if isinstance(feeding.of, int):
        mix = answer.mixes[feeding.of].round
        parts = tuple(
            (part.bag, part_mass_kg(part, mix.scoop_l) / mix.mass_kg) for part in mix.parts
        )
        name, scoop_kg = mix_name(feeding.of), mix.mass_kg / mix.scoops
    else:
        bag = next(one.bag for one in answer.bags if one.bag.key == feeding.of)
        parts, name, scoop_kg = ((bag, WHOLE),), bag.name, bag.scoop_kg(tools.scoop_l)
    return BedFood(
        name=name,
        parts=parts,
        measure_kg=tools.measure * scoop_kg,
        measures=feeding.measures,
        treatment=_treatment([bag for bag, _ in parts]),
    )


def _treatment(bags: Sequence[Bag]) -> Treatment:
    """What was done to all manure in a food; what is not known counts as raw."""
    doubtful = (bag for bag in bags if may_be_raw([bag]))
    raw = any(bag.treatment in (Treatment.RAW, Treatment.UNKNOWN) for bag in doubtful)
    return Treatment.RAW if raw else Treatment.COMPOSTED


def _nitrogen(food: BedFood) -> Fraction:
    return sum((share * bag.label.analysis.of(Nutrient.N) for bag, share in food.parts), NONE)


def _season_aim(opened: OpenedBed) -> Fraction:
    """The usable nitrogen aimed at over the whole season, what was given counted in [kg/m²]."""
    need = next((one for one in opened.need.needs if one.nutrient == "N"), None)
    return NONE if need is None else need.aim


def _before(opened: OpenedBed) -> tuple[FedBefore, ...]:
    """What was given already and holds nitrogen, as one measure each."""
    return tuple(
        FedBefore(
            on=one.on,
            food=BedFood(
                name=one.food.name,
                parts=((one.food, WHOLE),),
                measure_kg=one.rate_kg_per_m2 * opened.bed.area_m2,
                measures=1,
                treatment=Treatment.COMPOSTED,
            ),
        )
        for one in opened.bed.given
        if one.food.label.analysis.of(Nutrient.N)
    )


def crop_of(entry: BedEntry) -> tuple[str, date | None, date | None]:
    """The crop that a bed is dated by, the largest of those that stand first, and its dates."""
    if not entry.crops:
        return entry.crop, entry.planted, entry.harvest
    first = min(one.succession for one in entry.crops)
    standing = [one for one in entry.crops if one.succession == first]
    main = max(standing, key=lambda one: one.share)
    return main.crop, entry.planted or main.planted, entry.harvest or main.harvest


def _of_manure(bags: Sequence[Bag], answer: SeasonAnswer) -> Iterator[Notice]:
    used = {one.bag.key for one in answer.bags if one.used_kg}
    for bag in bags:
        if bag.key in used and bag.treatment is Treatment.UNKNOWN and may_be_raw([bag]):
            yield Notice(
                severity=Severity.CAUTION,
                sentence=f"{bag.name}: nobody said whether its manure is raw, so it counts as raw "
                'and waits before harvest. The bag may tell: write manure = "composted" or '
                '"heat-processed" with it.',
            )


def _undated(opened: OpenedBed, refusal: Refusal) -> Iterator[Notice]:
    for fault in refusal.faults:
        said = f"{opened.bed.name}: no dates. {fault.sentence} {fault.remedy}".strip()
        yield Notice(severity=Severity.CAUTION, sentence=said)
