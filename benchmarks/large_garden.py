"""A garden far larger than most, made up, to load the pages with: bags, beds and years of diary.

Its bags and beds are those of the sample garden over and over under other names, at other prices
and sizes; its diary is the same on every machine but for its years, which end with this one.
"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from random import Random

from halfpail.application.garden_entry import GardenEntry
from halfpail.application.kept import MixEntry, SeasonEntry
from halfpail.application.open_garden import open_garden
from halfpail.application.plan_season import plan_season
from halfpail.application.ports import SeasonEffort
from halfpail.application.whole_garden import WholeGarden, without_text
from halfpail.domain.bed import Content
from halfpail.domain.diary import Bought, Event, Fed, Harvested, Made, Noted, Taken
from halfpail.domain.season import Unmet
from halfpail.wiring import services

BAGS, BEDS, YEARS = 60, 100, 3
MIXES = 20
BATCHES, FEEDINGS, BUYINGS, HARVESTS, NOTES = 12, 250, 20, 60, 20
# The pages are measured, not the planner: any plan will do, and soon.
SOON = SeasonEffort(relative_gap=0.5, work=0.2, seconds=10.0)
ONE_KG = Fraction(1)
HOLDS = {content: Fraction(4, 100) for content in Content}


def large_garden(year: int) -> WholeGarden:
    """The garden with its mixes, three years of diary that end with `year`, and two plans."""
    entry = _large(services().read_sample_garden())
    return WholeGarden(
        garden=entry,
        mixes=tuple(_mixes(entry)),
        diary=tuple(sorted(_diary(entry, year), key=lambda event: event.on)),
        seasons=tuple(_plans(entry, year)),
    )


def _large(sample: GardenEntry) -> GardenEntry:
    bags = (
        replace(
            one,
            name=f"{one.name} {number}",
            price=None if one.price is None else one.price * Fraction(90 + number % 21, 100),
            typed={},
        )
        for number in range(1, BAGS + 1)
        for one in (sample.bags[number % len(sample.bags)],)
    )
    beds = (
        replace(
            one,
            name=f"{one.name} {number}",
            area_m2=one.area_m2 * Fraction(80 + number % 41, 100),
            given=(),
            typed={},
        )
        for number in range(1, BEDS + 1)
        for one in (sample.beds[number % len(sample.beds)],)
    )
    liked = replace(sample.preferences, mixes=1, budget=None)
    return without_text(
        replace(
            sample, name="A large garden", bags=tuple(bags), beds=tuple(beds), preferences=liked
        )
    )


def _mixes(entry: GardenEntry) -> Iterator[MixEntry]:
    chance = Random(1)
    for number in range(1, MIXES + 1):
        bags = chance.sample(entry.bags, 3)
        yield MixEntry(
            name=f"Pail {number}", scoops={bag.name: chance.randint(1, 5) for bag in bags}
        )


def _diary(entry: GardenEntry, last: int) -> Iterator[Event]:
    chance = Random(2)
    for year in range(last - YEARS + 1, last + 1):
        spring = date(year, 3, 1)
        kinds = (_made, BATCHES), (_fed, FEEDINGS), (_bought, BUYINGS), (_harvested, HARVESTS)
        for kind, times in (*kinds, (_noted, NOTES)):
            for _ in range(times):
                yield kind(entry, spring + timedelta(days=chance.randrange(240)), chance)


def _made(entry: GardenEntry, on: date, chance: Random) -> Event:
    taken = tuple(
        Taken(bag=bag.name, scoops=2, mass_kg=ONE_KG / 2) for bag in chance.sample(entry.bags, 3)
    )
    return Made(on=on, mix=f"Pail {chance.randint(1, MIXES)}", rounds=2, taken=taken)


def _fed(entry: GardenEntry, on: date, chance: Random) -> Event:
    straight = chance.random() < 0.2
    return Fed(
        on=on,
        bed=chance.choice(entry.beds).name,
        of=chance.choice(entry.bags).name if straight else f"Pail {chance.randint(1, MIXES)}",
        straight=straight,
        scoops=Fraction(chance.randint(1, 12), 4),
        mass_kg=Fraction(chance.randint(2, 20), 16),
        holds=HOLDS,
        cost=Fraction(chance.randint(20, 300), 100),
        list_cost=Fraction(chance.randint(300, 600), 100),
    )


def _bought(entry: GardenEntry, on: date, chance: Random) -> Event:
    bag = chance.choice(entry.bags)
    return Bought(on=on, bag=bag.name, bags=2, bag_kg=bag.bag_kg or ONE_KG, paid=Fraction(25))


def _harvested(entry: GardenEntry, on: date, chance: Random) -> Event:
    bed = chance.choice(entry.beds)
    crop = bed.crop or (bed.crops[0].crop if bed.crops else "tomato")
    return Harvested(on=on, bed=bed.name, crop=crop, mass_kg=Fraction(chance.randint(1, 20)))


def _noted(entry: GardenEntry, on: date, chance: Random) -> Event:
    return Noted(on=on, note="Rain at last.", bed=chance.choice(entry.beds).name)


def _plans(entry: GardenEntry, year: int) -> Iterator[SeasonEntry]:
    found = plan_season(open_garden(entry).garden, services().engine, SOON)
    if isinstance(found, Unmet):
        raise ValueError(found.sentence)
    for name in ("Another plan", "The plan"):
        made_on, chosen = date(year, 1, 31), name == "The plan"
        yield SeasonEntry(name=name, made_on=made_on, plan=found.plan, garden=entry, chosen=chosen)
