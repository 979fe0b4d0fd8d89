"""Gardens drawn at random, as entries: whatever a garden file can say."""

from datetime import date, timedelta
from fractions import Fraction
from typing import Any

from hypothesis import strategies as draw

from halfpail.application.garden_entry import (
    BagEntry,
    BedEntry,
    CropEntry,
    GardenEntry,
    GivenEntry,
    NeedEntry,
    YearEntry,
)
from halfpail.application.lime_question import BedUse, EarlierLime
from halfpail.application.need_question import CoverCrop, Manure, NitrogenSources, Water
from halfpail.application.warm_soil import WarmthQuestion
from halfpail.domain.bed import History
from halfpail.domain.frost_calendar import FrostDates
from halfpail.domain.garden import Preferences, Tools
from halfpail.domain.lime_method import Buffer, Texture
from halfpail.domain.manure_interval import Contact, Treatment
from halfpail.domain.soil_test import (
    BufferReading,
    Element,
    Extractant,
    Scale,
    SoilFigure,
    SoilTest,
)
from halfpail.quantities.units import System, size_of

# Numbers as people type them: at most four digits, two of them after the point.
NUMBERS = draw.integers(1, 9999).map(lambda number: Fraction(number, 100))
WHOLE = draw.integers(1, 12)


def amounts(*units: str, per: Fraction = Fraction(1)) -> draw.SearchStrategy[Fraction]:
    return draw.builds(
        lambda number, unit: number * size_of(unit) / per, NUMBERS, draw.sampled_from(units)
    )


MASSES = amounts("kg", "lb", "oz", "g")
AREAS = amounts("m²", "sq ft")
RATES = amounts("lb", "oz", per=100 * size_of("sq ft")) | amounts("g", "kg")
MONEY = draw.integers(0, 99999).map(lambda cents: Fraction(cents, 100))
SHARES = draw.integers(1, 100).map(lambda percent: Fraction(percent, 100))
NAMES = (
    draw.text(draw.characters(exclude_categories=("C", "Z")), min_size=1, max_size=20)
    .map(lambda text: text.strip())
    .filter(lambda text: text.isprintable() and bool(text))
)
LABELS = draw.sampled_from(["4-4-4", 'Total Nitrogen (N) 12.0%\n  "12.0%" of it\\ slow', "0-0-50"])


def maybe(values: draw.SearchStrategy) -> draw.SearchStrategy:
    return draw.none() | values


def named(kind: str, entries: draw.SearchStrategy) -> draw.SearchStrategy:
    """One to three entries in their places, no two of one name."""
    return draw.lists(
        entries, min_size=1, max_size=3, unique_by=lambda one: one["name"].casefold()
    ).map(lambda found: [{**one, "place": f"{kind}[{at}]"} for at, one in enumerate(found, 1)])


BAGS = draw.fixed_dictionaries(
    {"name": NAMES, "label": LABELS},
    optional={
        "bag_kg": MASSES,
        "price": MONEY,
        "list_price": MONEY,
        "offered": draw.integers(0, 20),
        "shed_kg": draw.just(Fraction(0)) | MASSES,
        "treatment": draw.sampled_from(Treatment),
        "scoop_weighs_kg": draw.sampled_from([10 * size_of("oz"), Fraction(1, 3)]),
        "straight_ok": draw.booleans(),
        "avoid": draw.booleans(),
    },
).map(lambda bag: bag if "bag_kg" in bag else {**bag, "price": None})


DAYS = draw.dates(date(2027, 3, 1), date(2027, 8, 31))
CLIMATES = draw.builds(
    WarmthQuestion,
    frost=maybe(
        draw.builds(
            lambda last, days: FrostDates(last=last, first=last + timedelta(days=days)),
            draw.dates(date(2027, 4, 1), date(2027, 6, 1)),
            draw.integers(60, 200),
        )
    ),
    months_c=maybe(
        draw.lists(draw.integers(-20, 35), min_size=12, max_size=12).map(
            lambda means: tuple(float(mean) for mean in means)
        )
    ),
    steady_c=maybe(draw.just(18.5)),
    depth_m=maybe(draw.just(0.1)),
).filter(lambda told: told.frost or told.months_c or told.steady_c)


@draw.composite
def soil_tests(get) -> SoilTest:
    common = get(draw.sampled_from([Extractant.MEHLICH_3_ICP, Extractant.BRAY_1, Extractant.OLSEN]))
    bases = get(draw.sampled_from([common, Extractant.AMMONIUM_ACETATE]))
    methods = {
        Element.P: common,
        Element.K: bases,
        Element.MG: bases,
        Element.B: get(draw.sampled_from([common, Extractant.HOT_WATER])),
        Element.NITRATE: Extractant.WATER,
    }
    tested = get(draw.sets(draw.sampled_from(list(methods)))) | {Element.P}
    figures = tuple(
        SoilFigure(
            element=one,
            extractant=methods[one],
            value=get(NUMBERS) / 4,
            scale=get(draw.sampled_from(Scale)),
        )
        for one in Element
        if one in tested
    )
    ph = draw.integers(45, 80).map(lambda tenths: Fraction(tenths, 10))
    readings = draw.builds(
        BufferReading,
        buffer=draw.sampled_from([Buffer.SMP, Buffer.SIKORA]),
        value=draw.integers(55, 75).map(lambda tenths: Fraction(tenths, 10)),
    )
    return SoilTest(
        figures=figures,
        ph=get(maybe(ph)),
        buffer=get(maybe(readings)),
        organic_matter_share=get(maybe(SHARES)),
        depth_m=get(maybe(draw.integers(1, 12).map(lambda inches: inches * size_of("in")))),
        texture=get(maybe(draw.sampled_from(Texture))),
        cec=get(maybe(draw.just(Fraction(200, 7)))),
        region=get(draw.sampled_from(["", "delaware"])),
        year=get(maybe(draw.integers(2020, 2026))),
        p_equation=get(maybe(draw.integers(1, 5))),
        k_equation=get(maybe(draw.integers(1, 5))),
    )


@draw.composite
def needs(get) -> tuple[NeedEntry, ...]:
    found = []
    for nutrient in sorted(get(draw.sets(draw.sampled_from(["N", "P2O5", "K2O"])))):
        steps = sorted(get(draw.lists(RATES, min_size=3, max_size=3)))
        cap = get(maybe(draw.just(2 * steps[2]))) if nutrient == "P2O5" else None
        found.append(
            NeedEntry(nutrient=nutrient, least=steps[0], aim=steps[1], most=steps[2], cap=cap)
        )
    return tuple(sorted(found, key=lambda need: ("N", "P2O5", "K2O").index(need.nutrient)))


NITROGEN = draw.builds(
    NitrogenSources,
    manure=draw.lists(
        draw.builds(
            Manure,
            series=draw.just("poultry"),
            years_ago=draw.integers(0, 4),
            organic_n_kg_per_m2=WHOLE.map(lambda grams: Fraction(grams, 1000)),
            ammonium_n_kg_per_m2=draw.sampled_from([Fraction(0), Fraction(1, 250)]),
        ),
        max_size=2,
    ).map(tuple),
    cover_crop=maybe(
        draw.builds(CoverCrop, dry_kg_per_m2=RATES, n_share=draw.just(Fraction(3, 100)))
    ),
    legume_before=draw.booleans(),
    water=maybe(
        draw.builds(
            Water, depth_m=draw.just(12 * size_of("in")), nitrate_n_ppm=draw.just(Fraction(5))
        )
    ),
)


@draw.composite
def beds(get) -> dict[str, Any]:
    bed = get(
        draw.fixed_dictionaries(
            {"name": NAMES, "area_m2": AREAS},
            optional={
                "history": draw.sampled_from(History),
                "straight_ok": draw.booleans(),
                "soil_test": soil_tests(),
                "nitrogen": NITROGEN,
                "needs": needs(),
                "yield_kg_per_m2": RATES,
                "contact": draw.sampled_from(Contact),
                "nitrate_n_mg_per_kg": NUMBERS,
                "use": draw.sampled_from([BedUse.POTATOES, BedUse.ACID]),
                "earlier_lime": draw.builds(
                    EarlierLime, rate_kg_per_m2=RATES, months=WHOLE.map(Fraction)
                ),
                "free_lime": draw.booleans(),
                "container_l": draw.integers(1, 400).map(Fraction),
            },
        )
    )
    if get(draw.booleans()):
        bed |= {
            "history": History.FED,
            "compost_m_per_year": get(draw.sampled_from([Fraction(1, 100), size_of("in") / 2])),
            "compost_years": get(WHOLE),
        }
    return {**bed, "crop": get(draw.sampled_from(["tomato", "sweet corn", "heavy"]))}


def _bed(fields: dict[str, Any], several: bool, years: list[int], day: date | None) -> BedEntry:
    """The bed with what stands below it in its place; one of several crops names none itself."""
    place = fields["place"]
    dates = {"planted": day, "harvest": day and day + timedelta(days=60)}
    if not several:
        fields = {**fields, **dates}
    else:
        fields = {name: one for name, one in fields.items() if name != "yield_kg_per_m2"}
        halves = (("pea", Fraction(1, 2), 1), ("beet", Fraction(1, 3), 2))
        crops = tuple(
            CropEntry(
                place=f"{place}.crops[{at}]",
                crop=crop,
                share=share,
                succession=turn,
                yield_kg_per_m2=Fraction(turn),
                **dates,
            )
            for at, (crop, share, turn) in enumerate(halves, 1)
        )
        fields |= {"crop": "", "crops": crops}
    return BedEntry(
        **fields,
        given=tuple(
            GivenEntry(place=f"{place}.given[{at}]", of="4-4-4", mass_kg=Fraction(at), on=on)
            for at, on in enumerate([day] if day else [], 1)
        ),
        years=tuple(
            YearEntry(
                place=f"{place}.years[{at}]",
                year=year,
                given_kg_per_m2=Fraction(at, 1000),
                crop="tomato",
                yield_kg_per_m2=Fraction(year, 1000),
            )
            for at, year in enumerate(sorted(years), 1)
        ),
    )


@draw.composite
def gardens(get) -> GardenEntry:
    """A whole garden as typed, without the words it was typed in."""
    several = get(draw.lists(draw.booleans(), min_size=3, max_size=3))
    found = get(named("beds", beds()))
    years = get(draw.lists(draw.integers(2020, 2026), max_size=2, unique=True))
    return GardenEntry(
        name=get(NAMES),
        bags=tuple(BagEntry(**bag) for bag in get(named("bags", BAGS))),
        beds=tuple(
            _bed(bed, many, years, get(maybe(DAYS)))
            for bed, many in zip(found, several, strict=False)
        ),
        tools=get(
            draw.builds(
                Tools,
                scoop_l=draw.integers(1, 8).map(lambda cups: cups * size_of("cup")),
                pail_l=draw.integers(4, 20).map(lambda gallons: gallons * size_of("gal")),
                measure=draw.sampled_from([Fraction(1, 4), Fraction(1, 3), Fraction(1)]),
            )
        ),
        preferences=get(
            draw.builds(
                Preferences,
                mixes=maybe(draw.integers(1, 4)),
                most_scoops=draw.integers(1, 40),
                most_bags=draw.integers(1, 10),
                budget=maybe(MONEY),
                currency=draw.sampled_from(["USD", "EUR", "CHF"]),
                units=draw.sampled_from(System),
                shed_is_free=draw.booleans(),
                another_mix_saves=maybe(MONEY),
                visits=draw.integers(1, 4),
                ceiling_per_kg=maybe(amounts("kg") | MONEY.map(lambda m: m / size_of("lb"))),
            )
        ),
        elemental_labels=get(draw.booleans()),
        climate=get(maybe(CLIMATES)),
    )
