"""A mix or a plan to hand on: what another gardener needs to use it, and nothing of who made it."""

from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from halfpail.application.garden_entry import BagEntry, GardenEntry
from halfpail.application.kept import MixEntry, SeasonEntry
from halfpail.application.store_trouble import Missing
from halfpail.domain.season import SeasonPlan

SHARED_GARDEN = "Shared plan"


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedMix:
    """A mix with the labels of its bags, and what one level scoop holds [L].

    What was paid, where, and what lies in the shed stay at home, and so does the note.
    """

    mix: MixEntry
    bags: tuple[BagEntry, ...]
    scoop_l: Fraction
    elemental_labels: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedPlan:
    """A plan with the garden it was made for, nameless; the notes stay at home."""

    name: str
    made_on: date
    plan: SeasonPlan
    garden: GardenEntry


def share_mix(mix: MixEntry, garden: GardenEntry) -> SharedMix:
    """A kept mix to hand on.

    Raises:
        Missing: a bag of it is not in the garden any more.
    """
    known = {bag.name: bag for bag in garden.bags}
    gone = [name for name in mix.scoops if name not in known]
    if gone:
        raise Missing(place="bag", read=gone[0])
    return SharedMix(
        mix=replace(mix, note=""),
        bags=tuple(_only_its_label(known[name]) for name in mix.scoops),
        scoop_l=garden.tools.scoop_l,
        elemental_labels=garden.elemental_labels,
    )


def share_plan(season: SeasonEntry) -> SharedPlan:
    """A kept plan to hand on.

    Bags keep their prices and beds their tests, since the plan was worked out from them; only
    names of the garden and notes are left out.
    """
    garden = replace(season.garden, name=SHARED_GARDEN, faults=(), lines={})
    return SharedPlan(name=season.name, made_on=season.made_on, plan=season.plan, garden=garden)


def _only_its_label(bag: BagEntry) -> BagEntry:
    return BagEntry(
        name=bag.name,
        place="",
        label=bag.label,
        bag_kg=bag.bag_kg,
        scoop_weighs_kg=bag.scoop_weighs_kg,
        treatment=bag.treatment,
        typed={key: text for key, text in bag.typed.items() if key in ("weight", "scoop_weighs")},
    )
