"""A mix or a plan from another gardener, fitted into one's own garden before it is kept."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from halfpail.application.fill_bag import fill_bag
from halfpail.application.garden_entry import BagEntry, GardenEntry
from halfpail.application.kept import MixEntry, SeasonEntry
from halfpail.application.shared_pieces import SharedMix, SharedPlan
from halfpail.domain.mix import Mix, Part, stir

MOST_NAME = 60
HERE, NEW, OTHER = "in your garden", "new to your garden", "yours has another label"
_ELEMENTS = (
    "Its labels state P and K themselves and yours P2O5 and K2O, or the other way round, so its "
    "bags would be misread in your garden."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedBag:
    """One bag of a mix: its name there, its scoops, its name in one's own garden, and why so."""

    name: str
    scoops: int
    here: str
    how: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedMix:
    """A mix as it would be kept, the bags that come with it, and why it cannot be, if so."""

    mix: MixEntry
    bags: tuple[FittedBag, ...]
    new_bags: tuple[BagEntry, ...]
    why_not: str = ""


def mix_of(shared: SharedMix) -> Mix:
    """The mix stirred, by the scoop of who made it.

    Raises:
        Refusal: a label cannot be read.
    """
    bags = {
        bag.name: fill_bag(bag, shared.scoop_l, shared.elemental_labels)[0] for bag in shared.bags
    }
    parts = [Part(bag=bags[name], scoops=count) for name, count in shared.mix.scoops.items()]
    return stir(parts, shared.scoop_l)


def fit_mix(shared: SharedMix, garden: GardenEntry, taken: Collection[str]) -> FittedMix:
    """The mix with bags of the garden where they have the same label; `taken` are its mixes.

    A bag whose name stands for another label in the garden comes under a name of its own.
    """
    own = {same_name(bag.name): bag for bag in garden.bags}
    names = {bag.name for bag in garden.bags}
    fitted: list[FittedBag] = []
    new: list[BagEntry] = []
    for bag in shared.bags:
        mine = own.get(same_name(bag.name))
        scoops = shared.mix.scoops[bag.name]
        if mine is not None and _same_text(mine.label, bag.label):
            fitted.append(FittedBag(name=bag.name, scoops=scoops, here=mine.name, how=HERE))
            continue
        here = free_name(bag.name, names)
        names.add(here)
        how = NEW if mine is None else OTHER
        fitted.append(FittedBag(name=bag.name, scoops=scoops, here=here, how=how))
        new.append(_by_own_scoop(replace(bag, name=here), shared.scoop_l, garden.tools.scoop_l))
    return FittedMix(
        mix=replace(
            shared.mix,
            name=free_name(shared.mix.name, taken),
            scoops={one.here: one.scoops for one in fitted},
        ),
        bags=tuple(fitted),
        new_bags=tuple(new),
        why_not="" if shared.elemental_labels == garden.elemental_labels else _ELEMENTS,
    )


def fit_plan(shared: SharedPlan, taken: Collection[str]) -> SeasonEntry:
    """The plan as it would be kept, with the garden it was made for; it is not followed."""
    return SeasonEntry(
        name=free_name(shared.name, taken),
        made_on=shared.made_on,
        plan=shared.plan,
        garden=shared.garden,
    )


def free_name(name: str, taken: Iterable[str]) -> str:
    """A name that is not taken yet: the same, or with a number behind it.

    >>> free_name("Pail", ["pail", "Pail (2)"])
    'Pail (3)'
    """
    known = {same_name(one) for one in taken}
    found, number = name, 1
    while same_name(found) in known:
        number += 1
        found = f"{name[: MOST_NAME - 6]} ({number})"
    return found


def same_name(name: str) -> str:
    """Names that differ only in case and spaces are the same name."""
    return " ".join(name.split()).casefold()


def _same_text(one: str, other: str) -> bool:
    return one.split() == other.split()


def _by_own_scoop(bag: BagEntry, their_l: Fraction, own_l: Fraction) -> BagEntry:
    """The bag with the weight of one's own level scoop, where theirs was weighed."""
    if bag.scoop_weighs_kg is None or their_l == own_l:
        return bag
    typed = {key: words for key, words in bag.typed.items() if key != "scoop_weighs"}
    return replace(bag, scoop_weighs_kg=bag.scoop_weighs_kg * own_l / their_l, typed=typed)
