"""Dates and doses for what each bed gets: least short, least left to wash down, few visits."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from fractions import Fraction

from halfpail.application.explain_times import times_working
from halfpail.application.find_curve import curve_of_bag
from halfpail.application.heed_manure import last_date_for, may_be_raw
from halfpail.application.place_in_season import (
    Stand,
    before_planting_days,
    growing_season,
    place_in_season,
)
from halfpail.application.read_nitrate import nitrate_notices, skips
from halfpail.application.warm_soil import SoilWarmth, WarmthQuestion, warm_soil
from halfpail.domain.feeding_search import Ask, best_times
from halfpail.domain.feeding_times import (
    Balance,
    Food,
    GrowingSeason,
    Visit,
    balance,
    least_visits,
    supply_kg_per_m2,
)
from halfpail.domain.frost_calendar import FrostDates
from halfpail.domain.manure_interval import Contact, Treatment
from halfpail.domain.matter import Nutrient
from halfpail.domain.release import mixed
from halfpail.domain.stock import Bag
from halfpail.findings import Fault, Notice, Refusal, Severity
from halfpail.reference.defaults import default
from halfpail.working import Working

MOST_VISITS = 6
_WEEK = 7
_HEAVY = "heavy"
# What is short or left beyond this share of the aim is told.
_MUCH = 0.25


@dataclass(frozen=True, slots=True, kw_only=True)
class BedFood:
    """What a bed gets of one mix or bag: its bags, each with its share of the weight [0-1].

    `measure_kg` is the weight of one measure [kg], `measures` how many of them the bed gets.
    """

    name: str
    parts: tuple[tuple[Bag, Fraction], ...]
    measure_kg: Fraction
    measures: int
    treatment: Treatment = Treatment.UNKNOWN


@dataclass(frozen=True, slots=True, kw_only=True)
class FedBefore:
    """What a bed got already on a day."""

    on: date
    food: BedFood


@dataclass(frozen=True, slots=True, kw_only=True)
class FedBed:
    """A bed to be fed: its crop, the usable nitrogen it should get [kg/m²], and what it gets.

    Dates that are None follow from the frost dates. `nitrate_n_mg_per_kg` is an in-season test.
    `before` counts against what is wanted, and is not dated any more.
    """

    name: str
    crop: str
    area_m2: Fraction
    n_aim_kg_per_m2: Fraction
    foods: tuple[BedFood, ...]
    planted: date | None = None
    harvest: date | None = None
    contact: Contact = Contact.SOIL
    nitrate_n_mg_per_kg: Fraction | None = None
    before: tuple[FedBefore, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class TimingQuestion:
    """The beds, the warmth of the place, and how often the gardener will come.

    Nothing is planned before `today`, where it is given.
    """

    beds: tuple[FedBed, ...]
    warmth: WarmthQuestion
    frost: FrostDates | None = None
    most_visits: int = 3
    today: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekOfBed:
    """One date: nitrogen wanted so far and nitrogen that has come [kg/m²]."""

    on: date
    wanted_kg_per_m2: float
    came_kg_per_m2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BedTimes:
    """The feedings of a bed; those in `visits` after planting go beside the rows."""

    name: str
    stand: Stand
    visits: tuple[Visit, ...]
    balance: Balance
    weeks: tuple[WeekOfBed, ...]
    notices: tuple[Notice, ...]
    working: Working

    @property
    def before_planting(self) -> tuple[Visit, ...]:
        """The feedings up to the day of planting."""
        return tuple(visit for visit in self.visits if visit.on <= self.stand.planted)

    @property
    def beside_rows(self) -> tuple[Visit, ...]:
        """The feedings after planting."""
        return tuple(visit for visit in self.visits if visit.on > self.stand.planted)


def time_feedings(question: TimingQuestion) -> tuple[BedTimes, ...]:
    """Dates and doses for every bed.

    Raises:
        Refusal: with every fault of every bed; a date too soon after raw manure is one.
    """
    if not 1 <= question.most_visits <= MOST_VISITS:
        read, said = str(question.most_visits), f"Visits are from 1 to {MOST_VISITS}."
        raise Refusal(Fault(place="visits", read=read, sentence=said, remedy="Write 3."))
    warmth = warm_soil(question.warmth)
    timed: list[BedTimes] = []
    faults: list[Fault] = []
    for bed in question.beds:
        try:
            timed.append(_time_bed(bed, question, warmth))
        except Refusal as refusal:
            faults.extend(refusal.faults)
    if faults:
        raise Refusal(*faults)
    return tuple(timed)


def _time_bed(bed: FedBed, question: TimingQuestion, warmth: SoilWarmth) -> BedTimes:
    stand = place_in_season(bed.crop, bed.planted, bed.harvest, question.frost, bed.name)
    season = growing_season(stand, bed.n_aim_kg_per_m2, warmth, before_planting_days())
    dates = _dates(season, question.today, bed.name)
    foods = [_food(food, bed, stand, dates[0]) for food in bed.foods]
    ask = _ask(bed, stand, foods, dates, question.most_visits)
    there = _there_already(bed, stand, season)
    timed = best_times(_still_wanted(season, there), foods, ask)
    if timed.unplaced:
        raise Refusal(_too_much_quick(bed, ask.most_visits + 1, question.most_visits))
    visits = tuple(one for one in timed.visits if one.on <= stand.planted or not _skips(bed))
    later = supply_kg_per_m2(season, foods, visits)
    supply = tuple(one + other for one, other in zip(there, later, strict=True))
    met = balance(season, supply)
    return BedTimes(
        name=bed.name,
        stand=stand,
        visits=visits,
        balance=met,
        weeks=_weeks(season, supply),
        notices=tuple(_notices(bed, stand, visits, met)),
        working=(*warmth.working, *times_working(stand, bed.n_aim_kg_per_m2, foods, visits, met)),
    )


def _there_already(bed: FedBed, stand: Stand, season: GrowingSeason) -> tuple[float, ...]:
    """What comes day by day of what was given before [kg/m²].

    What was given before the first day counts from that day on.
    """
    supply = [0.0] * len(season.temperatures_c)
    for one in bed.before:
        on = min(max(one.on, season.start), season.harvest)
        food = _food(one.food, bed, stand, season.start)
        came = supply_kg_per_m2(season, [food], [Visit(on=on, measures={food.key: 1})])
        supply = [sum(both) for both in zip(supply, came, strict=True)]
    return tuple(supply)


def _still_wanted(season: GrowingSeason, there: Sequence[float]) -> GrowingSeason:
    """The season with what comes of itself taken off what is wanted by each day."""
    wanted = zip(season.wanted_kg_per_m2, there, strict=False)
    return replace(season, wanted_kg_per_m2=tuple(max(0.0, want - came) for want, came in wanted))


def _skips(bed: FedBed) -> bool:
    return bed.nitrate_n_mg_per_kg is not None and skips(bed.nitrate_n_mg_per_kg)


def _dates(season: GrowingSeason, today: date | None, place: str) -> tuple[date, ...]:
    """Every week up to planting, and from two weeks after it until it is too late."""
    last = last_feeding(season.harvest)
    weeks = range(0, (season.harvest - season.start).days, _WEEK)
    all_dates = [season.start + timedelta(days=day) for day in weeks]
    seedlings = season.planted + timedelta(days=_WEEK)
    open_dates = tuple(
        on
        for on in all_dates
        if (today is None or on >= today) and (on <= season.planted or seedlings < on <= last)
    )
    if not open_dates:
        raise no_date_left(season.harvest, place)
    return open_dates


def last_feeding(harvest: date) -> date:
    """The last day to feed a bed before its harvest."""
    return harvest - timedelta(days=int(default("before_harvest").value))


def no_date_left(harvest: date, place: str) -> Refusal:
    """Why a bed cannot be fed any more."""
    said = "No date is left to feed this bed before its harvest."
    return Refusal(Fault(place=f"{place}.harvest", read=harvest.isoformat(), sentence=said))


def _food(food: BedFood, bed: FedBed, stand: Stand, earliest: date) -> Food:
    """One food as the search sees it, its nitrogen spread over the bed."""
    nitrogen = [(share * bag.label.analysis.of(Nutrient.N), bag) for bag, share in food.parts]
    total = sum((n for n, _ in nitrogen), Fraction(0))
    if not total or food.measures < 0 or food.measure_kg <= 0 or bed.area_m2 <= 0:
        said = "A food has nitrogen, a weight and a bed to lie on."
        raise Refusal(Fault(place=f"{bed.name}.{food.name}", read="", sentence=said))
    quick = sum((share * bag.usable_n.quick for bag, share in food.parts), Fraction(0))
    on_bed = food.measure_kg / bed.area_m2
    curves = [(float(n / total), curve_of_bag(bag).curve) for n, bag in nitrogen if n]
    until = (
        last_date_for(food.treatment, bed.contact, stand, earliest, f"{bed.name}.{food.name}")
        if may_be_raw(bag for bag, _ in food.parts)
        else None
    )
    return Food(
        key=food.name,
        measures=food.measures,
        n_kg_per_m2=total * on_bed,
        quick_n_kg_per_m2=quick * on_bed,
        curve=mixed(curves),
        until=until,
    )


def _ask(
    bed: FedBed, stand: Stand, foods: Sequence[Food], dates: tuple[date, ...], most: int
) -> Ask:
    cap = default("quick_n_per_dose").value
    needed = least_visits(foods, cap)
    if needed is None:
        said = "One measure alone holds more quick nitrogen than a dose may."
        remedy = "Use a smaller measure for this bed."
        raise Refusal(Fault(place=bed.name, read="", sentence=said, remedy=remedy))
    if needed > most:
        raise Refusal(_too_much_quick(bed, needed, most))
    for_crop = 2 if stand.crop.group == _HEAVY else 1
    return Ask(
        dates=dates,
        least_visits=min(max(needed, for_crop), most),
        most_visits=most,
        quick_cap_kg_per_m2=cap,
    )


def _too_much_quick(bed: FedBed, needed: int, most: int) -> Fault:
    return Fault(
        place=f"{bed.name}.visits",
        read=str(most),
        sentence="So much quick nitrogen cannot be given on so few days without burning.",
        remedy=f"Allow {needed} visits or more, or give less of it.",
    )


def _weeks(season: GrowingSeason, supply: Sequence[float]) -> tuple[WeekOfBed, ...]:
    last = len(season.wanted_kg_per_m2) - 1
    return tuple(
        WeekOfBed(
            on=season.start + timedelta(days=day),
            wanted_kg_per_m2=season.wanted_kg_per_m2[day],
            came_kg_per_m2=supply[day],
        )
        for day in sorted({*range(0, last, _WEEK), last})
    )


def _notices(bed: FedBed, stand: Stand, visits: Sequence[Visit], met: Balance) -> Iterator[Notice]:
    if bed.nitrate_n_mg_per_kg is not None:
        yield from nitrate_notices(bed.name, bed.nitrate_n_mg_per_kg)
    if not _skips(bed):
        yield from _plan_notices(bed, stand, visits, met)


def _plan_notices(
    bed: FedBed, stand: Stand, visits: Sequence[Visit], met: Balance
) -> Iterator[Notice]:
    """What of the plan a gardener should know: a heavy feeder fed once, too much, too little."""
    aim = float(bed.n_aim_kg_per_m2)
    if stand.crop.group == _HEAVY and len(visits) == 1:
        yield Notice(
            severity=Severity.CAUTION,
            sentence=f"{bed.name}: a heavy feeder wants its nitrogen in two or more doses, and "
            "here it comes in one.",
            citation=default("quick_n_per_dose").citation,
        )
    if not aim:
        yield from _unwanted(bed, met)
        return
    if met.left > _MUCH * aim:
        yield Notice(
            severity=Severity.CAUTION,
            sentence=f"{bed.name}: about {met.left / aim:.0%} of the nitrogen aimed at is left in "
            "the ground after harvest and may wash down; give less, or sow a cover crop.",
        )
    if met.short > _MUCH * aim:
        yield Notice(
            severity=Severity.NOTE,
            sentence=f"{bed.name}: by {met.short_on.isoformat()} about {met.short / aim:.0%} of "
            "the nitrogen aimed at has not come yet; a quicker source would help.",
        )


def _unwanted(bed: FedBed, met: Balance) -> Iterator[Notice]:
    """What is left where no nitrogen is aimed at: all that comes."""
    if met.left:
        yield Notice(
            severity=Severity.CAUTION,
            sentence=f"{bed.name}: no nitrogen is aimed at here, and what comes is left in the "
            "ground after harvest and may wash down; feed it with something without nitrogen.",
        )
