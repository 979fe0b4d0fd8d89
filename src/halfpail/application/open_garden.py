"""From a garden as typed to the garden itself: labels read, ranges looked up, faults together."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from halfpail.application.fill_bag import fill_bag
from halfpail.application.garden_entry import BagEntry, BedEntry, GardenEntry
from halfpail.application.lime_of_bed import facts_of, lime_question_of
from halfpail.application.lime_question import LimeQuestion
from halfpail.application.need_of_bed import BedNeed, need_of_bed
from halfpail.application.take_off_given import given_foods, still_needed
from halfpail.application.warm_soil import WarmthQuestion
from halfpail.domain.bed import Bed
from halfpail.domain.garden import Garden
from halfpail.domain.stock import Bag
from halfpail.findings import Fault, Notice, Refusal
from halfpail.quantities.units import System


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenedBed:
    """A bed with what it was opened from: its entry, its whole need, and its lime question.

    The need is that of the season, what was given already not yet taken off. Without a soil pH
    nothing can be asked about lime.
    """

    bed: Bed
    entry: BedEntry
    need: BedNeed
    lime: LimeQuestion | None


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenedGarden:
    """A garden and what should be known about how its bags and beds were filled in."""

    garden: Garden
    notices: tuple[Notice, ...]
    beds: tuple[OpenedBed, ...] = ()
    climate: WarmthQuestion | None = None


def open_garden(entry: GardenEntry) -> OpenedGarden:
    """The garden of an entry.

    Raises:
        Refusal: with every fault of the entry, its labels and its crops, from top to bottom.
    """
    faults = list(entry.faults)
    notices: list[Notice] = []
    bags = [_bag(one, entry, faults, notices) for one in entry.bags if one.label]
    units = entry.preferences.units
    at_hand = [bag for bag in bags if bag]
    opened = [_bed(one, at_hand, units, faults) for one in entry.beds if one.crop or one.crops]
    if faults:
        raise Refusal(*entry.in_order(tuple(faults)))
    beds = tuple(bed for bed in opened if bed)
    return OpenedGarden(
        garden=Garden(
            name=entry.name,
            bags=tuple(at_hand),
            beds=tuple(one.bed for one in beds),
            tools=entry.tools,
            preferences=entry.preferences,
        ),
        notices=(*notices, *(notice for one in beds for notice in one.need.notices)),
        beds=beds,
        climate=entry.climate,
    )


def _bag(
    bag: BagEntry, entry: GardenEntry, faults: list[Fault], notices: list[Notice]
) -> Bag | None:
    at_label = replace(bag, place=f"{bag.place}.label")
    try:
        filled, found = fill_bag(at_label, entry.tools.scoop_l, entry.elemental_labels)
    except Refusal as refusal:
        faults.extend(refusal.faults)
        return None
    notices.extend(() if filled.avoid else found)
    return filled


def _bed(
    entry: BedEntry, bags: Sequence[Bag], units: System, faults: list[Fault]
) -> OpenedBed | None:
    try:
        need = need_of_bed(entry, units)
        given = given_foods(entry, bags)
    except Refusal as refusal:
        faults.extend(refusal.faults)
        return None
    lime = lime_question_of(entry, need, units)
    bed = Bed(
        key=entry.name,
        name=entry.name,
        area_m2=entry.area_m2,
        crop=entry.crop or ", ".join(dict.fromkeys(crop.crop for crop in entry.crops)),
        needs=still_needed(need.needs, given),
        straight_ok=entry.straight_ok,
        group=need.group,
        doses=need.doses,
        facts=facts_of(entry, need, lime),
        given=given,
    )
    return OpenedBed(bed=bed, entry=entry, need=need, lime=lime)
