"""Everything that lies on a shelf, gathered into one value."""

from halfpail.application.kept import GardenSettings
from halfpail.application.shelf_ports import Shelf
from halfpail.application.whole_garden import WholeGarden, without_text


def gather_garden(settings: GardenSettings, shelf: Shelf) -> WholeGarden:
    """Everything that lies on a shelf.

    Raises:
        StoreTrouble: the store cannot be read.
    """
    garden = shelf.garden()
    mixes = tuple(kept.value for kept in shelf.mixes.all())
    here = {bag.name for bag in garden.bags}
    wanted = {name for mix in mixes for name in mix.scoops} - here
    binned = {kept.value.name: kept.value for kept in reversed(shelf.bags.bin())}
    return WholeGarden(
        garden=without_text(garden),
        answers=settings.answers,
        is_sample=settings.is_sample,
        put_away=tuple(binned[name] for name in sorted(wanted & set(binned))),
        mixes=mixes,
        diary=tuple(kept.value for kept in shelf.diary.all()),
        seasons=tuple(kept.value for kept in shelf.seasons.all()),
    )
