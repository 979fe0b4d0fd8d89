"""JSON files opened: read, held to what a garden can be, and only then handed on."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Protocol

from halfpail.application.check_piece import (
    event_faults,
    mix_faults,
    name_faults,
    number_faults,
    plan_faults,
)
from halfpail.application.garden_entry import BagEntry, GardenEntry
from halfpail.application.open_garden import open_garden
from halfpail.application.shared_pieces import SharedMix, SharedPlan
from halfpail.application.whole_garden import JsonFiles, Piece, WholeGarden, without_text
from halfpail.domain.garden import Preferences, Tools
from halfpail.findings import Fault, Refusal

# A kept garden may do without, since bags and beds can be added to it.
_MAY_BE_NONE = ("bags", "beds")


class GardenFiles(Protocol):
    """Writes garden files and reads them; what a garden file refuses is refused here too."""

    @property
    def json_files(self) -> JsonFiles:
        """Writes and reads JSON files."""
        ...

    def write_garden(self, entry: GardenEntry) -> str:
        """A garden as the text of a garden file."""
        ...

    def read_garden_text(self, text: str) -> GardenEntry:
        """The text of a garden file, with the faults found in reading it."""
        ...


def open_json(files: GardenFiles, data: bytes) -> Piece:
    """What a JSON file holds: a whole garden, or a mix or a plan handed on.

    Raises:
        Refusal: with every fault of it, each with its place.
    """
    piece = files.json_files.read(data)
    if isinstance(piece, WholeGarden):
        found = list(_garden_faults(files, piece))
    elif isinstance(piece, SharedMix):
        found = list(_mix_faults(files, piece))
    else:
        found = [
            *name_faults("name", piece.name),
            *_sense(files, "garden", piece.garden),
            *plan_faults("plan", piece.plan, piece.garden),
        ]
    if found:
        raise Refusal(*found)
    return piece


def read_whole_garden(files: GardenFiles, data: bytes) -> WholeGarden:
    """The whole garden of a JSON file.

    Raises:
        Refusal: it is something else, or with every fault of it.
    """
    piece = open_json(files, data)
    if isinstance(piece, WholeGarden):
        return piece
    raise _other("This file holds a mix or a plan that was handed on, not a garden.")


def open_shared(files: GardenFiles, data: bytes) -> SharedMix | SharedPlan:
    """The mix or the plan of a JSON file.

    Raises:
        Refusal: it is something else, or with every fault of it.
    """
    piece = open_json(files, data)
    if isinstance(piece, WholeGarden):
        raise _other("This file holds a whole garden, not a mix or a plan.")
    return piece


def _garden_faults(files: GardenFiles, whole: WholeGarden) -> Iterator[Fault]:
    yield from _sense(files, "garden", whole.garden)
    yield from number_faults(whole.garden, whole.put_away)
    bags = {bag.name for bag in (*whole.garden.bags, *whole.put_away)}
    for at, mix in enumerate(whole.mixes, 1):
        yield from mix_faults(f"mixes[{at}]", mix, bags)
    for at, event in enumerate(whole.diary, 1):
        yield from event_faults(f"diary[{at}]", event)
    for at, season in enumerate(whole.seasons, 1):
        here = f"seasons[{at}]"
        yield from name_faults(f"{here}.name", season.name)
        yield from _sense(files, f"{here}.garden", season.garden)
        yield from plan_faults(f"{here}.plan", season.plan, season.garden)


def _mix_faults(files: GardenFiles, shared: SharedMix) -> Iterator[Fault]:
    yield from mix_faults("mix", shared.mix, {bag.name for bag in shared.bags})
    # The pail is not told; any that takes the scoop will do to look at the bags.
    tools = Tools(scoop_l=shared.scoop_l, pail_l=40 * shared.scoop_l)
    yield from _sense(
        files,
        "",
        GardenEntry(
            name=shared.mix.name.strip() or "-",
            bags=_in_place(shared.bags),
            beds=(),
            tools=tools,
            preferences=Preferences(),
            elemental_labels=shared.elemental_labels,
        ),
    )


def _sense(files: GardenFiles, place: str, entry: GardenEntry) -> Iterator[Fault]:
    """What a garden file with the same in it would be refused for."""
    found = files.read_garden_text(files.write_garden(without_text(entry)))
    faults = tuple(one for one in found.faults if one.place not in _MAY_BE_NONE)
    if not faults:
        try:
            open_garden(replace(found, faults=(), lines={}))
        except Refusal as refusal:
            faults = refusal.faults
    for fault in faults:
        yield replace(fault, place=".".join(filter(None, (place, fault.place))))


def _in_place(bags: tuple[BagEntry, ...]) -> tuple[BagEntry, ...]:
    return tuple(replace(bag, place=f"bags[{at}]") for at, bag in enumerate(bags, 1))


def _other(sentence: str) -> Refusal:
    return Refusal(
        Fault(place="the file", read="", sentence=sentence, remedy="Choose the file you meant.")
    )
