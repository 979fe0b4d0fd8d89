"""From a garden as typed to the garden itself: labels read, ranges looked up, faults together."""

from dataclasses import dataclass, replace

from halfpail.application.fill_bag import fill_bag
from halfpail.application.garden_entry import BagEntry, BedEntry, GardenEntry
from halfpail.application.need_of_bed import need_of_bed
from halfpail.domain.bed import Bed
from halfpail.domain.garden import Garden
from halfpail.domain.stock import Bag
from halfpail.findings import Fault, Notice, Refusal
from halfpail.quantities.units import System


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenedGarden:
    """A garden and what should be known about how its bags and beds were filled in."""

    garden: Garden
    notices: tuple[Notice, ...]


def open_garden(entry: GardenEntry) -> OpenedGarden:
    """The garden of an entry.

    Raises:
        Refusal: with every fault of the entry, its labels and its crops, from top to bottom.
    """
    faults = list(entry.faults)
    notices: list[Notice] = []
    bags = [_bag(one, entry, faults, notices) for one in entry.bags if one.label]
    units = entry.preferences.units
    beds = [_bed(one, units, faults) for one in entry.beds if one.crop or one.crops]
    if faults:
        raise Refusal(*entry.in_order(tuple(faults)))
    return OpenedGarden(
        garden=Garden(
            name=entry.name,
            bags=tuple(bag for bag in bags if bag),
            beds=tuple(bed for bed in beds if bed),
            tools=entry.tools,
            preferences=entry.preferences,
        ),
        notices=tuple(notices),
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


def _bed(bed: BedEntry, units: System, faults: list[Fault]) -> Bed | None:
    try:
        need = need_of_bed(bed, units)
    except Refusal as refusal:
        faults.extend(refusal.faults)
        return None
    return Bed(
        key=bed.name,
        name=bed.name,
        area_m2=bed.area_m2,
        crop=bed.crop or ", ".join(dict.fromkeys(crop.crop for crop in bed.crops)),
        needs=need.needs,
        straight_ok=bed.straight_ok,
        group=need.group,
        doses=need.doses,
    )
