"""Bags and beds of the store, worked out: each entry is understood once and then remembered."""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from halfpail.application.fill_bag import fill_bag
from halfpail.application.garden_entry import BagEntry, BedEntry, GardenEntry
from halfpail.application.need_of_bed import BedNeed, need_of_bed
from halfpail.domain.stock import Bag
from halfpail.findings import Notice, Refusal
from halfpail.quantities.units import System

REMEMBERED = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class FilledBag:
    """A whole bag, and what should be known about how it was filled in."""

    bag: Bag
    notices: tuple[Notice, ...]


def filled_bag(entry: BagEntry, about: GardenEntry) -> FilledBag | None:
    """The bag of an entry; None where its label cannot be read."""
    return _filled(entry, about.tools.scoop_l, about.elemental_labels)


@lru_cache(maxsize=REMEMBERED)
def _filled(entry: BagEntry, scoop_l: Fraction, elemental: bool) -> FilledBag | None:
    try:
        bag, notices = fill_bag(entry, scoop_l, elemental)
    except Refusal:
        return None
    return FilledBag(bag=bag, notices=notices)


@lru_cache(maxsize=REMEMBERED)
def bed_need(entry: BedEntry, system: System) -> BedNeed | None:
    """What a bed should get; None where nothing or nothing known grows there."""
    if not (entry.crop or entry.crops):
        return None
    try:
        return need_of_bed(entry, system)
    except Refusal:
        return None
