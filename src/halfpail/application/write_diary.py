"""From what a person did to a line of the diary: the figures of the day are taken along."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

from halfpail.application.pose_season import contents
from halfpail.domain.diary import Fed, Made, Taken
from halfpail.domain.garden import Garden
from halfpail.domain.mix import Mix, Part, as_bag, stir
from halfpail.domain.stock import Bag
from halfpail.findings import Fault, Refusal

NONE = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchDone:
    """A mix that was stirred: its recipe in whole scoops by bag, and how many rounds of it."""

    on: date
    mix: str
    scoops: Mapping[str, int] = field(hash=False)
    rounds: int
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedingDone:
    """Scoops of a mix given to a bed, or of one bag where there is no recipe."""

    on: date
    bed: str
    of: str
    scoops: Fraction
    recipe: Mapping[str, int] | None = field(default=None, hash=False)
    note: str = ""


def batch_made(garden: Garden, done: BatchDone) -> Made:
    """The diary's line for a batch: what was taken from each bag, by weight.

    Raises:
        Refusal: it names a bag the garden has not, or not a single scoop was taken.
    """
    mix = _stirred(garden, done.scoops)
    taken = tuple(
        Taken(
            bag=part.bag.name,
            scoops=int(part.scoops) * done.rounds,
            mass_kg=part.scoops * done.rounds * part.bag.scoop_kg(garden.tools.scoop_l),
        )
        for part in mix.parts
    )
    return Made(on=done.on, mix=done.mix, rounds=done.rounds, taken=taken, note=done.note)


def bed_fed(garden: Garden, done: FeedingDone) -> Fed:
    """The diary's line for a feeding: its weight, what it held, and its cost now and at list price.

    Raises:
        Refusal: it names a bed or a bag the garden has not.
    """
    if all(bed.name != done.bed for bed in garden.beds):
        raise _unknown("bed", done.bed)
    if done.recipe is None:
        food = _bag(garden, done.of)
        price, list_price = food.price_per_kg, _list_price_per_kg(food)
    else:
        mix = _stirred(garden, done.recipe)
        food, price = as_bag(mix, key=done.of, name=done.of), mix.cost_per_kg
        list_price = _mix_list_price_per_kg(mix, garden.tools.scoop_l)
    mass_kg = done.scoops * food.scoop_kg(garden.tools.scoop_l)
    return Fed(
        on=done.on,
        bed=done.bed,
        of=done.of,
        straight=done.recipe is None,
        scoops=done.scoops,
        mass_kg=mass_kg,
        holds=contents(food),
        cost=None if price is None else mass_kg * price,
        list_cost=None if list_price is None else mass_kg * list_price,
        note=done.note,
    )


def _stirred(garden: Garden, scoops: Mapping[str, int]) -> Mix:
    parts = [Part(bag=_bag(garden, name), scoops=count) for name, count in scoops.items()]
    if not any(part.scoops > 0 for part in parts):
        fault = Fault(place="scoops", read="", sentence="There is not a scoop in it.")
        raise Refusal(fault)
    return stir(parts, garden.tools.scoop_l)


def _bag(garden: Garden, name: str) -> Bag:
    found = next((bag for bag in garden.bags if bag.name == name), None)
    if found is None:
        raise _unknown("bag", name)
    return found


def _list_price_per_kg(bag: Bag) -> Fraction | None:
    if bag.list_price is None or not bag.bag_kg:
        return None
    return bag.list_price / bag.bag_kg


def _mix_list_price_per_kg(mix: Mix, scoop_l: Fraction) -> Fraction | None:
    """Price of a mix if every bag had been bought at list price [money per kg]."""
    total = NONE
    for part in mix.parts:
        price = _list_price_per_kg(part.bag)
        if price is None:
            return None
        total += price * part.scoops * part.bag.scoop_kg(scoop_l)
    return total / mix.mass_kg


def _unknown(kind: str, name: str) -> Refusal:
    sentence = f"No {kind} of the garden has this name."
    return Refusal(
        Fault(place=kind, read=name, sentence=sentence, remedy="Choose one of the list.")
    )
