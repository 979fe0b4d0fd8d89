"""What a bed got already this season, taken off what it still needs."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction

from halfpail.application.fill_bag import fill_bag
from halfpail.application.garden_entry import BagEntry, BedEntry, GivenEntry
from halfpail.application.pose_season import contents
from halfpail.application.tell_season import COUNTED
from halfpail.domain.bed import GivenFood, NeedRange
from halfpail.domain.stock import Bag
from halfpail.findings import Fault, Refusal

NONE = Fraction(0)
# The weight of a scoop plays no part where the food was weighed.
_SCOOP_L = Fraction(1)


def given_foods(entry: BedEntry, bags: Sequence[Bag]) -> tuple[GivenFood, ...]:
    """What a bed got, each as a bag of the garden or as its label was read.

    Raises:
        Refusal: one is neither a bag of the garden nor a label.
    """
    return tuple(
        GivenFood(
            food=_food(given, bags), rate_kg_per_m2=given.mass_kg / entry.area_m2, on=given.on
        )
        for given in entry.given
    )


def still_needed(needs: Iterable[NeedRange], given: Sequence[GivenFood]) -> tuple[NeedRange, ...]:
    """The ranges with what was given taken off [kg/m²], none below nought.

    The least is lessened by the low figure, the aim by the typical one, the most and the stop by
    the high one; for P2O5 the last is all of it.
    """
    return tuple(_less(need, given) for need in needs)


def _less(need: NeedRange, given: Sequence[GivenFood]) -> NeedRange:
    low, typical, high = (
        sum((one.rate_kg_per_m2 * contents(one.food)[what] for one in given), NONE)
        for what in COUNTED[need.nutrient]
    )
    most = max(NONE, need.most - high)
    aim = min(max(NONE, need.aim - typical), most)
    return replace(
        need,
        least=min(max(NONE, need.least - low), aim),
        aim=aim,
        most=most,
        cap=max(NONE, need.cap - high),
    )


def _food(given: GivenEntry, bags: Sequence[Bag]) -> Bag:
    named = {" ".join(bag.name.split()).casefold(): bag for bag in bags}
    found = named.get(" ".join(given.of.split()).casefold())
    if found is not None:
        return found
    if not any(letter.isdigit() for letter in given.of):
        raise Refusal(
            Fault(
                place=f"{given.place}.of",
                read=given.of,
                sentence="No bag of this garden has this name, and it is no label.",
                remedy="Write a bag's name, or a label such as 4-4-4.",
            )
        )
    label = BagEntry(name=given.of, place=f"{given.place}.of", label=given.of)
    return fill_bag(label, _SCOOP_L)[0]
