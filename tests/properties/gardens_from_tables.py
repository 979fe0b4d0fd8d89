"""A whole garden built again from the rows of its tables, to see that they hold all of it."""

from collections import defaultdict
from collections.abc import Callable, Mapping
from dataclasses import fields
from fractions import Fraction
from typing import Any

from halfpail.application.garden_entry import (
    BagEntry,
    BedEntry,
    CropEntry,
    GardenEntry,
    GivenEntry,
    NeedEntry,
    YearEntry,
)
from halfpail.application.kept import MixEntry, SeasonEntry
from halfpail.application.lime_question import BedUse, EarlierLime
from halfpail.application.need_question import CoverCrop, Manure, NitrogenSources, Water
from halfpail.application.warm_soil import WarmthQuestion
from halfpail.application.whole_garden import WholeGarden
from halfpail.domain.bed import Content, History
from halfpail.domain.diary import Bought, Event, Fed, Harvested, Made, Noted, Taken
from halfpail.domain.frost_calendar import FrostDates
from halfpail.domain.garden import Preferences, Tools
from halfpail.domain.lime_method import Buffer, Texture
from halfpail.domain.manure_interval import Contact, Treatment
from halfpail.domain.season import Feeding, SeasonPlan, Stir
from halfpail.domain.soil_test import (
    BASES,
    BufferReading,
    Element,
    Extractant,
    Scale,
    SoilFigure,
    SoilTest,
)
from halfpail.quantities.units import System

Row = Mapping[str, Any]
Rows = Mapping[str, list[dict[str, Any]]]
SCALES = {"mg/dm3": Scale.VOLUME, "index": Scale.INDEX}
NONE = Fraction(0)


def garden_from(rows: Rows) -> WholeGarden:
    """The garden; what no table has (answers, the garden of a plan) is left to the caller."""
    (about,) = rows["Garden"]
    below = {
        name: under_bed(rows[name])
        for name in (
            "Crops",
            "Soil tests",
            "Manure",
            "Earlier years",
            "Given this season",
            "Ranges",
        )
    }
    beds = enumerate(rows["Beds"], 1)
    garden = GardenEntry(
        name=about["name"],
        bags=tuple(bag(one, f"bags[{at}]") for at, one in enumerate(rows["Bags"], 1)),
        beds=tuple(bed(one, f"beds[{at}]", below) for at, one in beds),
        tools=Tools(**{one.name: about[f"tools.{key}"] for one, key in TOOLS}),
        preferences=preferences(about),
        elemental_labels=about["preferences.elemental_labels"],
        climate=climate(about),
    )
    return WholeGarden(
        garden=garden, mixes=mixes(rows["Mixes"]), diary=diary(rows), seasons=seasons(rows, garden)
    )


TOOLS = [(one, one.name.removesuffix("_l")) for one in fields(Tools)]


def under_bed(rows: list[dict[str, Any]]) -> dict[str, list[Row]]:
    found: dict[str, list[Row]] = defaultdict(list)
    for row in rows:
        found[row["bed"]].append(row)
    return found


def preferences(about: Row) -> Preferences:
    told: dict[str, Any] = {
        one.name: about.get(f"preferences.{one.name}") for one in fields(Preferences)
    }
    mixes = None if told["mixes"] == "find" else int(told["mixes"])
    ceiling = about["preferences.price_ceiling"]
    return Preferences(
        **{**told, "mixes": mixes, "units": System(told["units"]), "ceiling_per_kg": ceiling}
    )


def climate(about: Row) -> WarmthQuestion | None:
    told = {key.removeprefix("climate."): one for key, one in about.items() if "climate." in key}
    months = [told.pop(f"months[{month}]") for month in range(1, 13)]
    if not any(one is not None for one in (*months, *told.values())):
        return None
    last, first = told["last_frost"], told["first_frost"]
    return WarmthQuestion(
        frost=FrostDates(last=last, first=first) if last else None,
        months_c=tuple(map(float, months)) if months[0] is not None else None,
        steady_c=a_float(told["soil_temperature"]),
        depth_m=a_float(told["soil_depth"]),
    )


def a_float(value: Fraction | None) -> float | None:
    return None if value is None else float(value)


def bag(row: Row, place: str) -> BagEntry:
    return BagEntry(
        name=row["name"],
        place=place,
        label=row["label"],
        bag_kg=row["weight"],
        price=row["price"],
        list_price=row["list_price"],
        offered=row["offered"],
        shed_kg=row["in_shed"],
        scoop_weighs_kg=row["scoop_weighs"],
        straight_ok=row["straight"],
        avoid=row["avoid"],
        treatment=Treatment(row["manure"]),
    )


def bed(row: Row, place: str, below: Mapping[str, Mapping[str, list[Row]]]) -> BedEntry:
    name = row["name"]

    def each(table: str, kind: Callable[..., Any], key: str, told: Mapping[str, str]) -> Any:
        rows = below[table].get(name, [])
        return tuple(
            kind(place=f"{place}.{key}[{at}]", **{field: one[head] for field, head in told.items()})
            for at, one in enumerate(rows, 1)
        )

    crop = {"crop": "crop", "yield_kg_per_m2": "yield"}
    dates = {"planted": "planted", "harvest": "harvest"}
    lime = row["lime_given"]
    tests = below["Soil tests"].get(name, [])
    return BedEntry(
        name=name,
        place=place,
        area_m2=row["size"],
        crop=row["crop"] or "",
        history=History(row["history"]),
        compost_m_per_year=row["compost_each_year"] or NONE,
        compost_years=row["compost_years"] or 0,
        yield_kg_per_m2=row["yield"],
        crops=each(
            "Crops",
            CropEntry,
            "crops",
            {**crop, **dates, "share": "share", "succession": "succession"},
        ),
        container_l=row["container"],
        soil_test=soil_test(tests[0]) if tests else None,
        nitrogen=nitrogen(row, below["Manure"].get(name, [])),
        years=each(
            "Earlier years", YearEntry, "years", {**crop, "year": "year", "given_kg_per_m2": "P2O5"}
        ),
        needs=tuple(need(one) for one in below["Ranges"].get(name, [])),
        planted=row["planted"],
        harvest=row["harvest"],
        contact=Contact(row["eaten_part"]),
        nitrate_n_mg_per_kg=row["nitrate_test"],
        given=each(
            "Given this season", GivenEntry, "given", {"of": "of", "mass_kg": "amount", "on": "on"}
        ),
        use=BedUse(row["kept_for"]) if row["kept_for"] else None,
        earlier_lime=EarlierLime(rate_kg_per_m2=lime, months=row["lime_months_ago"])
        if lime is not None
        else None,
        free_lime=row["free_lime"],
        straight_ok=row["straight"],
    )


def nitrogen(row: Row, manure: list[Row]) -> NitrogenSources:
    cover, water = row["cover_crop_dry"], row["water_depth"]
    return NitrogenSources(
        manure=tuple(
            Manure(
                series=one["kind"],
                years_ago=one["years_ago"],
                organic_n_kg_per_m2=one["organic_N"],
                ammonium_n_kg_per_m2=one["ammonium_N"],
            )
            for one in manure
        ),
        cover_crop=CoverCrop(dry_kg_per_m2=cover, n_share=row["cover_crop_N"])
        if cover is not None
        else None,
        legume_before=row["legume_before"],
        water=Water(depth_m=water, nitrate_n_ppm=row["water_nitrate"])
        if water is not None
        else None,
    )


def need(row: Row) -> NeedEntry:
    told = {key: row[key] for key in ("nutrient", "least", "aim", "most")}
    return NeedEntry(**told, cap=row["stop"])


def soil_test(row: Row) -> SoilTest:
    common = Extractant(row["extractant"])
    methods = dict.fromkeys(Element, common)
    methods |= dict.fromkeys(BASES, Extractant(row["bases_extractant"] or common))
    methods[Element.B] = Extractant(row["boron_extractant"] or common)
    methods[Element.NITRATE] = Extractant.WATER
    found = []
    for element in Element:
        held = row.get("nitrate" if element is Element.NITRATE else element.value)
        if held is not None:
            number, _, unit = held.partition(" ") if isinstance(held, str) else (held, "", "")
            figure = SoilFigure(
                element=element,
                extractant=methods[element],
                value=Fraction(number),
                scale=SCALES.get(unit, Scale.MASS),
            )
            found.append(figure)
    buffer = None
    if row["buffer"]:
        buffer = BufferReading(buffer=Buffer(f"{row['buffer']} buffer pH"), value=row["buffer_pH"])
    elif row["acidity"] is not None:
        buffer = BufferReading(buffer=Buffer.ACIDITY, value=row["acidity"])
    return SoilTest(
        figures=tuple(found),
        ph=row["pH"],
        buffer=buffer,
        organic_matter_share=row["organic_matter"],
        cec=row["CEC"],
        depth_m=row["depth"],
        texture=Texture(row["texture"]) if row["texture"] else None,
        region=row["table"] or "",
        year=row["year"],
        p_equation=row["P_equation"],
        k_equation=row["K_equation"],
    )


def mixes(rows: list[dict[str, Any]]) -> tuple[MixEntry, ...]:
    scoops: dict[str, dict[str, int]] = {}
    for row in rows:
        scoops.setdefault(row["mix"], {})[row["bag"]] = row["scoops"]
    told = {row["mix"]: (row["purpose"] or "", row["note"] or "") for row in rows}
    return tuple(
        MixEntry(name=name, scoops=held, purpose=told[name][0], note=told[name][1])
        for name, held in scoops.items()
    )


def diary(rows: Rows) -> tuple[Event, ...]:
    batches, held = defaultdict(list), {row["line"]: row for row in rows["Feedings held"]}
    for row in rows["Batches"]:
        taken = Taken(bag=row["bag"], scoops=row["scoops"], mass_kg=row["weight"])
        batches[row["line"]].append(taken)
    return tuple(event(row, batches, held) for row in rows["Diary"])


def event(row: Row, batches: Mapping[int, list[Taken]], held: Mapping[int, Row]) -> Event:
    line, told = row["line"], {"on": row["on"], "note": row["note"] or ""}
    if row["what"] == "bought":
        kept = {key: row[key] for key in ("bag", "bags", "paid", "list_price")}
        return Bought(**told, **kept, bag_kg=row["weight"])
    if row["what"] == "made":
        made = Made(**told, mix=row["mix"], rounds=row["rounds"], taken=tuple(batches[line]))
        assert row["weight"] == made.mass_kg
        return made
    if row["what"] == "fed":
        holds = {one: held[line][one.value] for one in Content}
        return Fed(
            **told,
            **{key: row[key] for key in ("bed", "scoops", "cost", "list_cost")},
            of=row["bag"] or row["mix"],
            straight=row["bag"] is not None,
            mass_kg=row["weight"],
            holds={content: share for content, share in holds.items() if share is not None},
        )
    if row["what"] == "harvested":
        return Harvested(**told, bed=row["bed"], crop=row["crop"], mass_kg=row["weight"])
    return Noted(**told, bed=row["bed"] or "")


def seasons(rows: Rows, garden: GardenEntry) -> tuple[SeasonEntry, ...]:
    return tuple(season(one, rows, garden) for one in rows["Plans"])


def season(row: Row, rows: Rows, garden: GardenEntry) -> SeasonEntry:
    def own(table: str) -> list[dict[str, Any]]:
        return [one for one in rows[table] if one["plan"] == row["plan"]]

    stirs: dict[int, Stir] = {}
    for one in own("Plan mixes"):
        before = stirs[one["mix"]].scoops if one["mix"] in stirs else {}
        stirs[one["mix"]] = Stir(scoops={**before, one["bag"]: one["scoops"]}, rounds=one["rounds"])
    plan = SeasonPlan(
        stirs=tuple(stirs[number] for number in sorted(stirs)),
        feedings=tuple(
            Feeding(
                plot=one["bed"],
                of=one["bag"] if one["mix"] is None else one["mix"] - 1,
                measures=one["measures"],
            )
            for one in own("Plan feedings")
        ),
        purchases={one["bag"]: one["bags"] for one in own("Plan buying")},
        **{key: row[key] for key in ("money", "missed", "bound", "proven_by")},
    )
    return SeasonEntry(
        name=row["plan"],
        made_on=row["made_on"],
        plan=plan,
        garden=garden,
        chosen=row["chosen"],
        note=row["note"] or "",
    )
