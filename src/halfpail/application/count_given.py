"""What the diary says was given, counted into the beds of a garden as typed."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date
from fractions import Fraction

from halfpail.application.garden_entry import BedEntry, GardenEntry, GivenEntry
from halfpail.domain.bed import Content
from halfpail.domain.diary import Event, Fed, Made
from halfpail.quantities.rounding import shortest

NONE = Fraction(0)
_TENTHS = 1


def with_given(entry: GardenEntry, events: Iterable[Event], since: date) -> GardenEntry:
    """The garden with every feeding of the diary from a day on written to its bed.

    A feeding of a mix counts as the bags of its last batch before it, each by its share; where no
    batch was written down, or a bag is gone, it counts by its grade.
    """
    told = tuple(events)
    fed = [one for one in told if isinstance(one, Fed) and one.on >= since]
    batches = [one for one in told if isinstance(one, Made)]
    bags = frozenset(bag.name for bag in entry.bags)
    beds = tuple(
        _bed(bed, [one for one in fed if one.bed == bed.name], batches, bags) for bed in entry.beds
    )
    return replace(entry, beds=beds)


def _bed(bed: BedEntry, fed: list[Fed], batches: list[Made], bags: frozenset[str]) -> BedEntry:
    given = [one for each in fed for one in _given(each, batches, bags)]
    placed = (replace(one, place=f"given[{at}]") for at, one in enumerate(given, 1))
    return replace(bed, given=(*bed.given, *placed)) if given else bed


def _given(fed: Fed, batches: list[Made], bags: frozenset[str]) -> Iterator[GivenEntry]:
    shares = {fed.of: Fraction(1)} if fed.straight else _shares(fed, batches)
    if not shares or not shares.keys() <= bags:
        shares = {_grade_of(fed): Fraction(1)}
    for of, share in shares.items():
        yield GivenEntry(place="", of=of, mass_kg=fed.mass_kg * share, on=fed.on)


def _shares(fed: Fed, batches: list[Made]) -> Mapping[str, Fraction]:
    """The share of each bag in the last batch of a mix up to the day it was given [0-1]."""
    made = [one for one in batches if one.mix == fed.of and one.on <= fed.on and one.mass_kg]
    if not made:
        return {}
    last = max(made, key=lambda one: one.on)
    return {one.bag: one.mass_kg / last.mass_kg for one in last.taken}


def _grade_of(fed: Fed) -> str:
    held = (Content.N_LABEL, Content.P2O5, Content.K2O)
    return "-".join(shortest(100 * fed.holds.get(what, NONE), _TENTHS) for what in held)
