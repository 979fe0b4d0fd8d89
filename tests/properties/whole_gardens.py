"""Whole gardens drawn at random: all that is kept, under names that a program might act upon."""

from dataclasses import replace
from datetime import date
from fractions import Fraction

from hypothesis import strategies as draw

from halfpail.application.garden_entry import GardenEntry
from halfpail.application.kept import MixEntry, SeasonEntry
from halfpail.application.whole_garden import WholeGarden
from halfpail.domain.bed import Content
from halfpail.domain.diary import Bought, Fed, Harvested, Made, Noted, Taken
from halfpail.domain.season import Feeding, SeasonPlan, Stir
from tests.properties.gardens import DAYS, MASSES, MONEY, NAMES, gardens, maybe

ODD = (
    "=cmd|' /C calc'!A0",
    "=1+1",
    "+1",
    "-2-3",
    "@SUM(A1)",
    "'=quoted",
    "''@twice",
    "'",
    "＝wide",
    "🍅 pail",
    "שלום",
    "_x0041_",
    "<b>&amp;</b>",
    'a "quoted", b; c',
    "1e5",
    "0012",
    "2027-05-10",
    "TRUE",
    "yes",
    "A" * 80,
    "é und e\u0301",
    "{{ 7*7 }}",
)
# Of a note a person may write whatever a text field takes, on many lines.
NOTES = draw.sampled_from(
    ["", "=1+1\n+2", "first\nsecond", "\ttab", "🍅🍅", "a, b; \"c\"\n'd'", " space before"]
) | draw.text(draw.characters(exclude_categories=("Cs", "Cc", "Cn", "Co")), max_size=30)
# What was worked out, and so has no short number.
LONG = draw.fractions(min_value=0, max_value=5000, max_denominator=10**9)
FIGURES = MASSES | LONG
COUNTS = draw.integers(1, 40)


@draw.composite
def odd_names(get, entry: GardenEntry) -> GardenEntry:
    """The garden with some of its names put in odd ones, no two alike."""
    odd = get(draw.permutations(ODD))
    bags = [
        replace(bag, name=odd[at]) if get(draw.booleans()) else bag
        for at, bag in enumerate(entry.bags)
    ]
    beds = [
        replace(bed, name=odd[at]) if get(draw.booleans()) else bed
        for at, bed in enumerate(entry.beds, len(bags))
    ]
    return replace(entry, bags=tuple(bags), beds=tuple(beds))


@draw.composite
def mixes_of(get, entry: GardenEntry, name: str) -> MixEntry:
    bags = [bag.name for bag in entry.bags]
    some = get(draw.lists(draw.sampled_from(bags), min_size=1, unique=True))
    return MixEntry(
        name=name,
        scoops={bag: get(COUNTS) for bag in some},
        purpose=get(draw.sampled_from(["", "leafy greens"])),
        note=get(NOTES),
    )


@draw.composite
def events_of(get, entry: GardenEntry, mixes: tuple[MixEntry, ...]):
    on, note = get(DAYS), get(NOTES)
    bag = draw.sampled_from([one.name for one in entry.bags])
    bed = draw.sampled_from([one.name for one in entry.beds])
    mix = draw.sampled_from([one.name for one in mixes] + ["a mix of old"])
    kind = get(draw.sampled_from([Bought, Made, Fed, Harvested, Noted]))
    if kind is Bought:
        prices = {"paid": get(MONEY), "list_price": get(maybe(MONEY))}
        return Bought(
            on=on, bag=get(bag), bags=get(COUNTS), bag_kg=get(MASSES), note=note, **prices
        )
    if kind is Made:
        taken = [
            Taken(bag=one, scoops=get(COUNTS), mass_kg=get(FIGURES))
            for one in get(draw.lists(bag, min_size=1, unique=True))
        ]
        return Made(on=on, mix=get(mix), rounds=get(COUNTS), taken=tuple(taken), note=note)
    if kind is Fed:
        straight = get(draw.booleans())
        return Fed(
            on=on,
            bed=get(bed),
            of=get(bag if straight else mix),
            straight=straight,
            scoops=get(COUNTS) / Fraction(4),
            mass_kg=get(FIGURES),
            holds=get(draw.dictionaries(draw.sampled_from(Content), draw.fractions(0, 1))),
            cost=get(maybe(LONG)),
            list_cost=get(maybe(LONG)),
            note=note,
        )
    if kind is Harvested:
        crop = get(draw.sampled_from(["tomato", "=crop"]))
        return Harvested(on=on, bed=get(bed), crop=crop, mass_kg=get(FIGURES), note=note)
    return Noted(on=on, note=note or "-", bed=get(draw.just("") | bed))


@draw.composite
def seasons_of(get, entry: GardenEntry, name: str) -> SeasonEntry:
    bags = [bag.name for bag in entry.bags]
    stirs = tuple(
        Stir(scoops=get(mixes_of(entry, "")).scoops, rounds=get(COUNTS))
        for _ in range(get(draw.integers(0, 2)))
    )
    of = draw.sampled_from([*range(len(stirs)), *bags])
    feedings = tuple(
        Feeding(plot=bed.name, of=get(of), measures=get(COUNTS))
        for bed in entry.beds
        if get(draw.booleans())
    )
    plan = SeasonPlan(
        stirs=stirs,
        feedings=feedings,
        purchases=get(draw.dictionaries(draw.sampled_from(bags), COUNTS)),
        money=get(LONG),
        missed=get(LONG),
        bound=get(LONG),
        proven_by="the engine",
        seconds=get(draw.floats(0, 100)),
    )
    return SeasonEntry(
        name=name,
        made_on=get(draw.dates(date(2026, 1, 1), date(2027, 12, 31))),
        plan=plan,
        garden=entry,
        chosen=get(draw.booleans()),
        note=get(NOTES),
    )


@draw.composite
def whole_gardens(get) -> WholeGarden:
    """A garden with its mixes, its diary and its plans."""
    entry = get(gardens().flatmap(odd_names))
    names = get(draw.lists(NAMES | draw.sampled_from(ODD), max_size=2, unique_by=_key))
    mixes = tuple(get(mixes_of(entry, name)) for name in names)
    plans = get(draw.lists(NAMES | draw.sampled_from(ODD), max_size=2, unique_by=_key))
    events = get(draw.lists(events_of(entry, mixes), max_size=4))
    return WholeGarden(
        garden=entry,
        answers=get(draw.dictionaries(draw.sampled_from(["a", "b"]), NOTES)),
        is_sample=get(draw.booleans()),
        mixes=mixes,
        diary=tuple(sorted(events, key=lambda event: event.on)),
        seasons=tuple(get(seasons_of(entry, name)) for name in plans),
    )


def _key(name: str) -> str:
    return " ".join(name.split()).casefold()
