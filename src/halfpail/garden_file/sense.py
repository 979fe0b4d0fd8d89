"""Whether what was read of a garden makes sense together, and the entry made of it."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction
from typing import Any

from halfpail.application.garden_entry import BagEntry, BedEntry, GardenEntry, NeedEntry
from halfpail.domain.bed import History
from halfpail.domain.garden import Preferences, Tools
from halfpail.findings import Fault, Refusal
from halfpail.garden_file.ground_sense import (
    container_area_m2,
    crops_of,
    ground_faults,
    nitrogen_of,
    years_of,
)
from halfpail.garden_file.soil_sense import soil_faults, soil_test_of
from halfpail.garden_file.time_sense import (
    climate_faults,
    climate_of,
    earlier_lime_of,
    given_of,
    time_faults,
)
from halfpail.garden_file.values import shown
from halfpail.quantities.units import size_of

_Fields = dict[str, Any]

_LARGEST_BED_M2 = size_of("ha")
_LARGEST_SCOOP_L = Fraction(10)
_LARGEST_PAIL_L = Fraction(1000)
_HEAVIEST_KG_PER_L = Fraction(3)
_LIGHTEST_KG_PER_L = Fraction(1, 20)
_TOGETHER = {
    "size": ("size", "row", "row_width"),
    "compost_years": ("compost_each_year", "compost_years"),
}
# Fields that are gathered in the nitrogen of an entry.
_IN_NITROGEN = ("manure", "cover_dry", "cover_n", "water_m", "water_ppm", "legume_before")
# Stand in for what was faulty, so that the rest can be read; the garden is refused all the same.
_SOME_AREA_M2 = Fraction(1)
_SOME_TOOLS = Tools(scoop_l=Fraction(1, 2), pail_l=Fraction(20))


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """The fields read of each table; bags and beds by place."""

    top: _Fields
    tools: _Fields
    preferences: _Fields
    climate: _Fields
    bags: Mapping[str, _Fields]
    beds: Mapping[str, _Fields]


def sensible(typed: Typed, faults: Sequence[Fault], lines: Mapping[str, int]) -> GardenEntry:
    """The entry of what was typed, with the faults of the reading and those of its sense."""
    preferences = dict(typed.preferences)
    avoided = preferences.pop("avoid", ())
    elemental = preferences.pop("elemental_labels", False)
    broken = {fault.place for fault in faults}
    found = [
        *_tool_faults(typed.tools),
        *_same_names(typed.bags, "bags"),
        *_same_names(typed.beds, "beds"),
        *_avoid_faults(avoided, typed.bags),
        *climate_faults(typed.climate),
    ]
    for place, bag in typed.bags.items():
        found.extend(_bag_faults(place, bag, typed.tools.get("scoop_l")))
    for place, bed in typed.beds.items():
        found.extend(_bed_faults(place, bed))
    return GardenEntry(
        name=typed.top.get("name", "Garden"),
        bags=tuple(_bag(place, bag, avoided) for place, bag in typed.bags.items()),
        beds=tuple(_bed(place, bed) for place, bed in typed.beds.items()),
        tools=Tools(**typed.tools) if {"scoop_l", "pail_l"} <= set(typed.tools) else _SOME_TOOLS,
        preferences=Preferences(**preferences),
        elemental_labels=elemental,
        climate=climate_of(typed.climate),
        faults=(*faults, *(fault for fault in found if not broken & _concerned(fault))),
        lines=lines,
    )


def sensible_bag(
    place: str, fields: _Fields, faults: Sequence[Fault], scoop_l: Fraction
) -> BagEntry:
    """The entry of one bag told by itself, with the scoop it is measured by [L].

    Raises:
        Refusal: with the faults of the reading and those of its sense.
    """
    broken = {fault.place for fault in faults}
    found = [one for one in _bag_faults(place, fields, scoop_l) if not broken & _concerned(one)]
    if faults or found:
        raise Refusal(*faults, *found)
    return _bag(place, fields, ())


def sensible_bed(place: str, fields: _Fields, faults: Sequence[Fault]) -> BedEntry:
    """The entry of one bed told by itself.

    Raises:
        Refusal: with the faults of the reading and those of its sense.
    """
    broken = {fault.place for fault in faults}
    found = [one for one in _bed_faults(place, fields) if not broken & _concerned(one)]
    if faults or found:
        raise Refusal(*faults, *found)
    return _bed(place, fields)


def _concerned(fault: Fault) -> set[str]:
    """The places a fault of sense is about; where one is broken already it need not be told."""
    place, _, key = fault.place.rpartition(".")
    return {f"{place}.{one}" for one in _TOGETHER.get(key, (key,))}


def _bag(place: str, fields: _Fields, avoided: Iterable[str]) -> BagEntry:
    name = fields.get("name", place)
    avoid = fields.get("avoid", False) or _same(name) in {_same(one) for one in avoided}
    rest = {"label": "", **fields, "name": name, "avoid": avoid}
    return BagEntry(place=place, **rest)


def _bed(place: str, fields: _Fields) -> BedEntry:
    rest = {"name": place, **fields}
    row, width = rest.pop("row_m", None), rest.pop("row_width_m", None)
    container = rest.get("container_l")
    known = row * width if row and width else container and container_area_m2(container)
    area = rest.pop("area_m2", known or _SOME_AREA_M2)
    needs = tuple(
        NeedEntry(nutrient=nutrient, **need)
        for nutrient, need in rest.pop("needs").items()
        if {"aim", "most"} <= set(need)
    )
    below: _Fields = {
        "crops": crops_of(rest),
        "years": years_of(rest),
        "nitrogen": nitrogen_of(rest),
        "soil_test": soil_test_of(rest["soil_test"]) if rest.get("soil_test") else None,
        "given": given_of(rest),
        "earlier_lime": earlier_lime_of(rest),
    }
    gathered = (*below, *_IN_NITROGEN, "lime_given", "lime_months_ago")
    plain = {name: value for name, value in rest.items() if name not in gathered}
    return BedEntry(place=place, area_m2=area, needs=needs, **plain, **below)


def _same(name: str) -> str:
    """Names that differ only in case and spaces are the same name."""
    return " ".join(name.split()).casefold()


def _same_names(tables: Mapping[str, _Fields], kind: str) -> Iterator[Fault]:
    first: dict[str, str] = {}
    for place, fields in tables.items():
        if "name" not in fields:
            continue
        before = first.setdefault(_same(fields["name"]), place)
        if before != place:
            yield Fault(
                place=f"{place}.name",
                read=fields["name"],
                sentence=f"{before} has the same name.",
                remedy=f"Give each of the {kind} a name of its own.",
            )


def _avoid_faults(avoided: Iterable[str], bags: Mapping[str, _Fields]) -> Iterator[Fault]:
    named = {_same(bag["name"]): bag["name"] for bag in bags.values() if "name" in bag}
    for name in avoided:
        if _same(name) in named:
            continue
        near = get_close_matches(_same(name), list(named), n=1)
        yield Fault(
            place="preferences.avoid",
            read=name,
            sentence="No bag has this name.",
            remedy=f"Did you mean {named[near[0]]}?" if near else "Write a name as the bag has it.",
        )


def _tool_faults(tools: _Fields) -> Iterator[Fault]:
    scoop, pail = tools.get("scoop_l"), tools.get("pail_l")
    if scoop and scoop > _LARGEST_SCOOP_L:
        yield _fault("tools.scoop", scoop, "L", "No scoop is that large.", "Check the unit.")
    if pail and pail > _LARGEST_PAIL_L:
        yield _fault("tools.pail", pail, "L", "No pail is that large.", "Check the unit.")
    if scoop and pail and pail < 4 * scoop:
        sentence = "Half the pail does not hold two scoops."
        yield _fault("tools.pail", pail, "L", sentence, "Take a larger pail or a smaller scoop.")


def _bag_faults(place: str, bag: _Fields, scoop_l: Fraction | None) -> Iterator[Fault]:
    if bag.get("price") is not None and "bag_kg" not in bag:
        yield Fault(
            place=f"{place}.weight",
            read="",
            sentence="A price without the weight of a bag says nothing.",
            remedy='Write weight = "25 lb", say.',
        )
    weighs = bag.get("scoop_weighs_kg")
    if weighs is None or scoop_l is None:
        return
    if not _LIGHTEST_KG_PER_L <= weighs / scoop_l <= _HEAVIEST_KG_PER_L:
        sentence = "No level scoop of your size weighs that, whatever is in it."
        yield _fault(f"{place}.scoop_weighs", weighs, "kg", sentence, "Weigh one level scoop.")


def _bed_faults(place: str, bed: _Fields) -> Iterator[Fault]:
    ways = {"area_m2", "row_m", "row_width_m"} & set(bed)
    sized = ways in ({"area_m2"}, {"row_m", "row_width_m"})
    if not sized and not ("container_l" in bed and not ways):
        yield Fault(
            place=f"{place}.size",
            read="",
            sentence="A bed has either a size, or a row and its row_width.",
            remedy='Write size = "4 x 12 ft", or row = "50 ft" and row_width = "3 ft".',
        )
    area = bed.get("area_m2") or bed.get("row_m", 0) * bed.get("row_width_m", 0)
    if area > _LARGEST_BED_M2:
        sentence = "No garden bed is that large."
        yield _fault(f"{place}.size", area, "m²", sentence, "Check the unit.")
    compost = {"compost_m_per_year", "compost_years"} & set(bed)
    if len(compost) == 1:
        yield Fault(
            place=f"{place}.compost_years",
            read="",
            sentence="Compost needs both how deep each year and how many years.",
            remedy='Write compost_each_year = "1/2 in" and compost_years = 3, say.',
        )
    if compost and bed.get("history") is History.VIRGIN and bed.get("compost_years"):
        yield Fault(
            place=f"{place}.history",
            read="virgin",
            sentence="Ground that got compost is not virgin.",
            remedy='Write history = "fed", or leave the compost out.',
        )
    yield from ground_faults(place, bed)
    yield from time_faults(place, bed)
    if "soil_test" in bed:
        yield from soil_faults(f"{place}.soil_test", bed["soil_test"])
    for nutrient, need in bed["needs"].items():
        yield from _need_faults(f"{place}.need.{nutrient}", nutrient, need)


def _need_faults(place: str, nutrient: str, need: _Fields) -> Iterator[Fault]:
    if "cap" in need and nutrient != "P2O5":
        yield Fault(
            place=f"{place}.stop",
            read=nutrient,
            sentence="Only P2O5 may go above its most, up to a stop.",
            remedy="Leave stop out: the most is not passed.",
        )
    steps = [need[step] for step in ("least", "aim", "most", "cap") if step in need]
    if steps != sorted(steps):
        yield Fault(
            place=place,
            read="",
            sentence="The range does not rise from least over aim and most to stop.",
            remedy="Put the four in order, the smallest first.",
        )


def _fault(place: str, amount: Fraction, unit: str, sentence: str, remedy: str) -> Fault:
    read = f"{float(amount):.4g} {unit}"
    return Fault(place=place, read=shown(read), sentence=sentence, remedy=remedy)
