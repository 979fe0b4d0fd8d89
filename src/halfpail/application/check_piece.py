"""Whether what a JSON file holds can be: amounts of a garden, recipes, diary and plans."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import fields
from fractions import Fraction

from halfpail.application.garden_entry import BagEntry, GardenEntry
from halfpail.application.kept import MixEntry
from halfpail.domain.diary import Event, Fed, Made
from halfpail.domain.season import SeasonPlan
from halfpail.findings import Fault

MOST = 100_000
MOST_NAME = 400
MOST_NOTE = 4000
_NAMES = {"bag", "bed", "mix", "of", "crop"}


def mix_faults(place: str, mix: MixEntry, bags: Collection[str]) -> Iterator[Fault]:
    """What cannot be in a mix; `bags` are the names there are."""
    yield from name_faults(f"{place}.name", mix.name)
    yield from _note_faults(place, mix.purpose, mix.note)
    yield from scoops_faults(f"{place}.scoops", mix.scoops, bags)


def scoops_faults(place: str, scoops: Mapping[str, int], bags: Collection[str]) -> Iterator[Fault]:
    """What cannot be in a recipe."""
    if not scoops:
        yield _fault(place, "", "There is not a scoop in it.")
    for name, count in scoops.items():
        if name not in bags:
            yield _fault(place, name, "There is no bag of this name in the file.")
        if not 1 <= count <= MOST:
            yield _fault(f"{place}.{name[:40]}", str(count)[:40], f"Scoops are 1 to {MOST}.")


def plan_faults(place: str, plan: SeasonPlan, garden: GardenEntry) -> Iterator[Fault]:
    """What cannot be in a plan made for a garden."""
    bags, beds = {bag.name for bag in garden.bags}, {bed.name for bed in garden.beds}
    for at, stir in enumerate(plan.stirs, 1):
        yield from scoops_faults(f"{place}.stirs[{at}].scoops", stir.scoops, bags)
        yield from _count_faults(f"{place}.stirs[{at}].rounds", stir.rounds)
    for at, feeding in enumerate(plan.feedings, 1):
        here = f"{place}.feedings[{at}]"
        yield from _count_faults(f"{here}.measures", feeding.measures)
        if feeding.plot not in beds:
            yield _fault(here, feeding.plot, "There is no bed of this name in the file.")
        known = feeding.of in bags or (
            isinstance(feeding.of, int) and 0 <= feeding.of < len(plan.stirs)
        )
        if not known:
            yield _fault(here, str(feeding.of)[:40], "There is no such mix or bag in the plan.")
    for name, count in plan.purchases.items():
        if name not in bags:
            yield _fault(f"{place}.purchases", name, "There is no bag of this name in the file.")
        yield from _count_faults(f"{place}.purchases", count, least=0)


def event_faults(place: str, event: Event) -> Iterator[Fault]:
    """What cannot be in a line of the diary."""
    for one in fields(event):
        held, at = getattr(event, one.name), f"{place}.{one.name}"
        if one.name in _NAMES and held:
            yield from name_faults(at, held)
        elif isinstance(held, Fraction):
            yield from _amount_faults(at, held)
        elif isinstance(held, int) and not isinstance(held, bool):
            yield from _count_faults(at, held, least=0)
    yield from _note_faults(place, event.note)
    if isinstance(event, Made):
        for number, taken in enumerate(event.taken, 1):
            yield from name_faults(f"{place}.taken[{number}].bag", taken.bag)
            yield from _count_faults(f"{place}.taken[{number}].scoops", taken.scoops, least=0)
            yield from _amount_faults(f"{place}.taken[{number}].mass_kg", taken.mass_kg)
    if isinstance(event, Fed):
        for content, share in event.holds.items():
            if not 0 <= share <= 1:
                yield _fault(f"{place}.holds", str(content), "A share is between 0 and 1.")


def number_faults(garden: GardenEntry, put_away: Iterable[BagEntry] = ()) -> Iterator[Fault]:
    """Whole numbers of a garden that no column holds; what else is wrong the garden file tells."""
    for bag in (*garden.bags, *put_away):
        if bag.offered is not None:
            yield from _count_faults(f"{bag.place}.offered", bag.offered, least=0)


def name_faults(place: str, name: str) -> Iterator[Fault]:
    """What cannot be a name."""
    if not name.strip() or len(name) > MOST_NAME or not name.isprintable():
        yield _fault(place, name[:60], f"A name has 1 to {MOST_NAME} letters on one line.")


def _note_faults(place: str, *notes: str) -> Iterator[Fault]:
    if any(len(note) > MOST_NOTE for note in notes):
        yield _fault(f"{place}.note", "", f"A note has at most {MOST_NOTE} letters.")


def _count_faults(place: str, count: int, least: int = 1) -> Iterator[Fault]:
    if not least <= count <= MOST:
        yield _fault(place, str(count)[:40], f"A whole number from {least} to {MOST} is wanted.")


def _amount_faults(place: str, amount: Fraction) -> Iterator[Fault]:
    if amount < 0:
        yield _fault(place, "", "No amount is below nought.")


def _fault(place: str, read: str, sentence: str) -> Fault:
    return Fault(
        place=place,
        read=read,
        sentence=sentence,
        remedy="Write the file again with halfpail export, and change nothing in it.",
    )
