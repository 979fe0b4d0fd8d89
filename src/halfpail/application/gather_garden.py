"""Everything that lies on a shelf, gathered into one value; and which garden a command means."""

from halfpail.application.kept import GardenSettings
from halfpail.application.shelf_ports import Shelf, Store
from halfpail.application.store_trouble import NoStore
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


def gather_kept(store: Store) -> WholeGarden:
    """The garden that is kept; of several the one that came last, as on the pages.

    Raises:
        NoStore: there is none yet.
    """
    gardens = store.gardens.all()
    if not gardens:
        raise NoStore(remedy="Start halfpail serve and keep a garden, or name a garden file.")
    return gather_garden(gardens[-1].value, store.shelf(gardens[-1].key))
