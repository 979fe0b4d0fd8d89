"""What the diary adds up to: each bed against its need, the money, what is left in the pails."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from halfpail.application.season_answer import FitAnswer
from halfpail.application.tell_season import fit_of
from halfpail.domain.bed import Bed, Content
from halfpail.domain.diary import (
    Event,
    Fed,
    FeedingCost,
    Harvested,
    Spent,
    feeding_cost,
    given_kg,
    harvested_kg,
    left_in_pails_kg,
    spent,
)
from halfpail.domain.garden import Garden, Preferences
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.domain.phosphorus_account import PhosphorusYear
from halfpail.domain.removal import Removal, removal
from halfpail.domain.stock import Bag
from halfpail.quantities.showing import show_mass, show_money, show_rate
from halfpail.reference.crops import crop_called
from halfpail.reference.harvests import food_composition
from halfpail.working import Step, Working

NONE = Fraction(0)
# What a bag that serves one purpose is counted by: nitrogen as far as a crop can use it.
_SERVES = {Nutrient.N: Content.N_TYPICAL, Nutrient.P2O5: Content.P2O5, Nutrient.K2O: Content.K2O}


@dataclass(frozen=True, slots=True, kw_only=True)
class BedTotal:
    """One bed so far: its feedings, each range beside what was given, its harvest [kg], its cost.

    `left_to_aim_kg_per_m2` is what is still wanted of each nutrient, never below nought;
    `removed_kg_per_m2` is what the harvest carried away, as far as the crops are in the tables.
    """

    bed: Bed
    fed: tuple[Fed, ...]
    fits: tuple[FitAnswer, ...]
    left_to_aim_kg_per_m2: Mapping[str, Fraction] = field(hash=False)
    harvested_kg: Mapping[str, Fraction] = field(hash=False)
    removed_kg_per_m2: Removal
    cost: FeedingCost


@dataclass(frozen=True, slots=True, kw_only=True)
class SingleBags:
    """The same feeding from single-purpose bags at list price [money], where there are such bags.

    `bags` names the bag of each nutrient; `without` the nutrients that no such bag holds.
    """

    cost: Fraction
    bags: Mapping[str, str] = field(hash=False)
    without: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class DiaryAnswer:
    """The sums of a stretch of the diary."""

    beds: tuple[BedTotal, ...]
    left_in_pails_kg: Mapping[str, Fraction] = field(hash=False)
    spent: Spent
    fed: FeedingCost
    in_single_bags: SingleBags
    working: Working


def read_diary(garden: Garden, season: Iterable[Event], all_time: Iterable[Event]) -> DiaryAnswer:
    """The sums of one season's events; what is left in the pails counts events of all time."""
    events = tuple(season)
    given = given_kg(events)
    of_bed = defaultdict(list)
    for each in events:
        of_bed[getattr(each, "bed", None)].append(each)
    beds = tuple(
        _total(bed, tuple(of_bed[bed.name]), given.get(bed.name, {})) for bed in garden.beds
    )
    money, fed = spent(events), feeding_cost(each for each in events if isinstance(each, Fed))
    return DiaryAnswer(
        beds=beds,
        left_in_pails_kg=left_in_pails_kg(all_time),
        spent=money,
        fed=fed,
        in_single_bags=in_single_bags(garden.bags, given.values()),
        working=_working(beds, money, fed, garden.preferences),
    )


def bed_total(bed: Bed, events: Iterable[Event]) -> BedTotal:
    """One bed's sums; what was given to others does not count."""
    mine = tuple(one for one in events if getattr(one, "bed", None) == bed.name)
    return _total(bed, mine, given_kg(mine).get(bed.name, {}))


def _total(bed: Bed, mine: tuple[Event, ...], given: Mapping[Content, Fraction]) -> BedTotal:
    rates = {content: mass_kg / bed.area_m2 for content, mass_kg in given.items()}
    fits = tuple(fit_of(need, rates) for need in bed.needs)
    fed = tuple(one for one in mine if isinstance(one, Fed))
    return BedTotal(
        bed=bed,
        fed=fed,
        fits=fits,
        left_to_aim_kg_per_m2={
            fit.need.nutrient: max(NONE, fit.need.aim - fit.typical_kg_per_m2) for fit in fits
        },
        harvested_kg={crop: mass_kg for (_, crop), mass_kg in harvested_kg(mine).items()},
        removed_kg_per_m2=_removed(bed, mine),
        cost=feeding_cost(fed),
    )


def phosphorus_years(bed: Bed, events: Iterable[Event]) -> tuple[PhosphorusYear, ...]:
    """The bed's phosphorus year by year, all P2O5 given and what harvests took [kg/m²]."""
    mine = [one for one in events if getattr(one, "bed", None) == bed.name]
    years = sorted({one.on.year for one in mine if isinstance(one, Fed | Harvested)})
    return tuple(
        PhosphorusYear(
            year=year,
            given_kg_per_m2=_p2o5_kg(bed, of_year) / bed.area_m2,
            removed_kg_per_m2=_removed(bed, of_year).p2o5,
        )
        for year in years
        for of_year in [[one for one in mine if one.on.year == year]]
    )


def in_single_bags(bags: Iterable[Bag], given: Iterable[Mapping[Content, Fraction]]) -> SingleBags:
    """What N, P2O5 and K2O given [kg] would cost from the cheapest bag of each alone, at list."""
    total = {n: NONE for n in _SERVES}
    for one in given:
        for nutrient, content in _SERVES.items():
            total[nutrient] += one.get(content, NONE)
    known = tuple(bags)
    cost, named, without = NONE, {}, []
    for nutrient, mass_kg in total.items():
        prices = [found for bag in known if (found := _price_alone(bag, nutrient)) is not None]
        if prices:
            price, name = min(prices)
            cost += mass_kg * price
            named[str(nutrient)] = name
        elif mass_kg:
            without.append(str(nutrient))
    return SingleBags(cost=cost, bags=named, without=tuple(without))


def _price_alone(bag: Bag, nutrient: Nutrient) -> tuple[Fraction, str] | None:
    """List price of a nutrient [money per kg] in a bag that holds no other of the three."""
    analysis = bag.label.analysis
    alone = [one for one in PRIMARY if analysis.of(one)] == [nutrient]
    held = bag.usable_n.typical if nutrient is Nutrient.N else analysis.of(nutrient)
    if not alone or not held or bag.list_price is None or not bag.bag_kg:
        return None
    return bag.list_price / bag.bag_kg / held, bag.name


def _p2o5_kg(bed: Bed, events: Iterable[Event]) -> Fraction:
    return given_kg(events).get(bed.name, {}).get(Content.P2O5_TOTAL, NONE)


def _removed(bed: Bed, events: Iterable[Event]) -> Removal:
    total = Removal()
    for (_, words), mass_kg in harvested_kg(events).items():
        crop = crop_called(words)
        food = food_composition().get(crop.key) if crop else None
        if food:
            total = total.plus(removal(mass_kg / bed.area_m2, food))
    return total


def _working(
    beds: tuple[BedTotal, ...], money: Spent, fed: FeedingCost, preferences: Preferences
) -> Working:
    units, currency = preferences.units, preferences.currency
    steps = [
        Step(
            reason=f"{total.bed.name}: weight times what it held, over the bed's area",
            sum="\n".join(
                f"{fit.need.nutrient}: {show_rate(fit.typical_kg_per_m2, units)} given, "
                f"aim {show_rate(fit.need.aim, units)}"
                for fit in total.fits
            ),
        )
        for total in beds
        if total.fed
    ]
    at_list = f"{show_money(money.at_list, currency)} at list price"
    steps.append(
        Step(
            reason="What was paid for bags, and what those with a list price would have cost",
            sum=f"{show_money(money.paid, currency)} paid; {at_list}; "
            f"{show_money(money.saved, currency)} saved",
        )
    )
    steps.append(
        Step(
            reason="What was fed, each weight at the price of its bags",
            sum=f"{show_mass(fed.mass_kg, units)} for {show_money(fed.cost, currency)}",
        )
    )
    return tuple(steps)
