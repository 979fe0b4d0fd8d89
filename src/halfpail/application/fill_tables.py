"""A whole garden as rows of its tables."""

from collections.abc import Iterator, Sequence
from datetime import date
from fractions import Fraction

from halfpail.application import garden_tables
from halfpail.application.fill_bed_tables import bed_tables
from halfpail.application.garden_entry import BagEntry, GardenEntry
from halfpail.application.kept import MixEntry, SeasonEntry
from halfpail.application.sheet_cells import FilledTable, Row
from halfpail.application.sheet_columns import Cell, Units
from halfpail.application.whole_garden import WholeGarden
from halfpail.domain.diary import Bought, Event, Fed, Harvested, Made

FIND = "find"


def fill_tables(whole: WholeGarden) -> tuple[FilledTable, ...]:
    """Every table of a garden, in the order of the sheets; those without rows too."""
    garden = whole.garden
    diary = tuple(enumerate(whole.diary, 1))
    filled = (
        FilledTable(table=garden_tables.GARDEN, rows=(_garden(garden),)),
        FilledTable(table=garden_tables.BAGS, rows=tuple(map(_bag, garden.bags))),
        *bed_tables(garden.beds),
        FilledTable(table=garden_tables.MIXES, rows=tuple(_mixes(whole.mixes))),
        FilledTable(table=garden_tables.DIARY, rows=tuple(_line(*one) for one in diary)),
        FilledTable(table=garden_tables.BATCHES, rows=tuple(_batches(diary))),
        FilledTable(table=garden_tables.HELD, rows=tuple(_held(diary))),
        *_plan_tables(whole.seasons),
    )
    by_name = {one.table.name: one for one in filled}
    return tuple(by_name[table.name] for table in garden_tables.TABLES)


def units_of(garden: GardenEntry) -> Units:
    """The units of the heads: those the garden is shown in."""
    return Units(system=garden.preferences.units, currency=garden.preferences.currency)


def _garden(garden: GardenEntry) -> Row:
    liked = garden.preferences
    return {
        "name": garden.name,
        "tools.scoop": garden.tools.scoop_l,
        "tools.pail": garden.tools.pail_l,
        "tools.measure": garden.tools.measure,
        "preferences.units": liked.units.value,
        "preferences.currency": liked.currency,
        "preferences.mixes": FIND if liked.mixes is None else str(liked.mixes),
        "preferences.another_mix_saves": liked.another_mix_saves,
        "preferences.most_scoops": liked.most_scoops,
        "preferences.most_bags": liked.most_bags,
        "preferences.budget": liked.budget,
        "preferences.price_ceiling": liked.ceiling_per_kg,
        "preferences.visits": liked.visits,
        "preferences.elemental_labels": garden.elemental_labels,
        "preferences.shed_is_free": liked.shed_is_free,
        **_climate(garden),
    }


def _climate(garden: GardenEntry) -> Row:
    told = garden.climate
    if told is None:
        return {}
    row: dict[str, Cell] = {}
    if told.frost:
        row |= {"climate.last_frost": told.frost.last, "climate.first_frost": told.frost.first}
    for at, mean_c in enumerate(told.months_c or (), 1):
        row[f"climate.months[{at}]"] = Fraction(repr(mean_c))
    if told.steady_c is not None:
        row["climate.soil_temperature"] = Fraction(repr(told.steady_c))
    if told.depth_m is not None:
        row["climate.soil_depth"] = Fraction(repr(told.depth_m))
    return row


def _bag(bag: BagEntry) -> Row:
    return {
        "name": bag.name,
        "label": bag.label,
        "weight": bag.bag_kg,
        "price": bag.price,
        "list_price": bag.list_price,
        "offered": bag.offered,
        "in_shed": bag.shed_kg,
        "scoop_weighs": bag.scoop_weighs_kg,
        "straight": bag.straight_ok,
        "manure": bag.treatment.value,
        "avoid": bag.avoid,
    }


def _mixes(mixes: Sequence[MixEntry]) -> Iterator[Row]:
    for mix in mixes:
        for bag, scoops in mix.scoops.items():
            yield {
                "mix": mix.name,
                "bag": bag,
                "scoops": scoops,
                "purpose": mix.purpose,
                "note": mix.note,
            }


def _line(line: int, event: Event) -> Row:
    """One line of the diary; what was held and what went into a batch stand in other tables."""
    row: dict[str, Cell] = {"line": line, "on": event.on, "note": event.note}
    if isinstance(event, Bought):
        return row | {
            "what": "bought",
            "bag": event.bag,
            "bags": event.bags,
            "weight": event.bag_kg,
            "paid": event.paid,
            "list_price": event.list_price,
        }
    if isinstance(event, Made):
        made: dict[str, Cell] = {"mix": event.mix, "rounds": event.rounds}
        return row | {"what": "made", **made, "weight": event.mass_kg}
    if isinstance(event, Fed):
        return row | {
            "what": "fed",
            "bed": event.bed,
            "bag" if event.straight else "mix": event.of,
            "scoops": event.scoops,
            "weight": event.mass_kg,
            "cost": event.cost,
            "list_cost": event.list_cost,
        }
    if isinstance(event, Harvested):
        what: dict[str, Cell] = {"what": "harvested", "bed": event.bed, "crop": event.crop}
        return row | what | {"weight": event.mass_kg}
    return row | {"what": "noted", "bed": event.bed}


def _batches(diary: Sequence[tuple[int, Event]]) -> Iterator[Row]:
    for line, event in diary:
        for one in event.taken if isinstance(event, Made) else ():
            assert isinstance(event, Made)
            yield {
                "line": line,
                "mix": event.mix,
                "bag": one.bag,
                "scoops": one.scoops,
                "weight": one.mass_kg,
            }


def _held(diary: Sequence[tuple[int, Event]]) -> Iterator[Row]:
    for line, event in diary:
        if isinstance(event, Fed):
            held = {content.value: share for content, share in event.holds.items()}
            yield {"line": line, "of": event.of, **held}


def _plan_tables(seasons: Sequence[SeasonEntry]) -> Iterator[FilledTable]:
    for table, rows_of in (
        (garden_tables.PLANS, _plan),
        (garden_tables.PLAN_MIXES, _plan_mixes),
        (garden_tables.PLAN_FEEDINGS, _plan_feedings),
        (garden_tables.PLAN_BUYING, _plan_buying),
    ):
        yield FilledTable(table=table, rows=tuple(row for one in seasons for row in rows_of(one)))


def _plan(season: SeasonEntry) -> Iterator[Row]:
    made_on: date = season.made_on
    yield {
        "plan": season.name,
        "made_on": made_on,
        "chosen": season.chosen,
        "money": season.plan.money,
        "missed": season.plan.missed,
        "bound": season.plan.bound,
        "proven_by": season.plan.proven_by,
        "note": season.note,
    }


def _plan_mixes(season: SeasonEntry) -> Iterator[Row]:
    for number, stir in enumerate(season.plan.stirs, 1):
        for bag, scoops in stir.scoops.items():
            yield {
                "plan": season.name,
                "mix": number,
                "rounds": stir.rounds,
                "bag": bag,
                "scoops": scoops,
            }


def _plan_feedings(season: SeasonEntry) -> Iterator[Row]:
    measure = season.garden.tools.measure
    for one in season.plan.feedings:
        yield {
            "plan": season.name,
            "bed": one.plot,
            "mix": one.of + 1 if isinstance(one.of, int) else None,
            "bag": one.of if isinstance(one.of, str) else None,
            "measures": one.measures,
            "scoops": one.measures * measure,
        }


def _plan_buying(season: SeasonEntry) -> Iterator[Row]:
    prices = {bag.name: bag.price for bag in season.garden.bags}
    for bag, count in season.plan.purchases.items():
        price = prices.get(bag)
        yield {
            "plan": season.name,
            "bag": bag,
            "bags": count,
            "price": price,
            "cost": None if price is None else count * price,
        }
