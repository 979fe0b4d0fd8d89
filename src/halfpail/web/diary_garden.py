"""The garden as the diary needs it: its bags filled in, its beds with what they should get."""

from dataclasses import replace

from halfpail.application.garden_entry import BedEntry
from halfpail.application.need_of_bed import BedNeed
from halfpail.domain.bed import Bed
from halfpail.domain.garden import Garden
from halfpail.quantities.units import System
from halfpail.web.at_hand import bed_need, filled_bag
from halfpail.web.home import Home


def diary_garden(home: Home, system: System) -> Garden:
    """The garden; a bag whose label cannot be read is left out."""
    about = home.about
    filled = [filled_bag(kept.value, about) for kept in home.shelf.bags.all()]
    return Garden(
        name=about.name,
        bags=tuple(one.bag for one in filled if one),
        beds=tuple(bed_of(kept.value, system) for kept in home.shelf.beds.all()),
        tools=about.tools,
        preferences=replace(about.preferences, units=system),
    )


def bed_of(entry: BedEntry, system: System) -> Bed:
    """A bed with the whole need of its season."""
    need: BedNeed | None = bed_need(entry, system)
    crops = dict.fromkeys(crop.crop for crop in entry.crops)
    return Bed(
        key=entry.name,
        name=entry.name,
        area_m2=entry.area_m2,
        crop=entry.crop or ", ".join(crops),
        needs=need.needs if need else (),
    )
