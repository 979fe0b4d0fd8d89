"""Putting a garden into the store: only where there is none but the sample."""

from dataclasses import replace

from halfpail.application.garden_entry import BagEntry, BedEntry, GardenEntry
from halfpail.application.gather_garden import gather_garden
from halfpail.application.kept import MixEntry
from halfpail.application.store_trouble import NoStore
from halfpail.application.whole_garden import WholeGarden, without_text
from halfpail.domain.garden import Preferences, Tools
from halfpail.domain.stock import Bag
from halfpail.web.forms.first import Asked
from halfpail.web.home import GardenRequest

NAME = "My garden"
GROUND = "Ground to feed"
MIX = "First mix"


def has_room(request: GardenRequest) -> bool:
    """Whether there is a store, and nothing in it but the sample."""
    return request.services.store is not None and not (request.home and not request.home.is_sample)


def start_with(
    request: GardenRequest, entry: GardenEntry, *, is_sample: bool = False
) -> int | None:
    """The key of the new garden; None where one's own stands there already.

    Raises:
        StoreTrouble: it cannot be kept.
    """
    store, home = request.services.store, request.home
    if store is None:
        raise NoStore
    if not has_room(request):
        return None
    key = store.put_in(entry, is_sample=is_sample)
    if home:
        home.put_aside()
    return key


def replace_with(request: GardenRequest, whole: WholeGarden) -> None:
    """Put a garden in the place of the present one, which goes to the bin; once, if sent twice.

    Raises:
        StoreTrouble: it cannot be kept.
    """
    store, home = request.services.store, request.home
    if store is None:
        raise NoStore
    new = replace(whole, garden=without_text(whole.garden))
    if home and gather_garden(home.kept.value, home.shelf) == new:
        return
    store.put_in_whole(new)
    if home:
        home.put_aside()


def keep_answer(request: GardenRequest, asked: Asked) -> bool:
    """Keep the bags, the ground and the mix of a first answer; whether there was room for it."""
    key = start_with(request, _garden_of(asked))
    if key is None or request.services.store is None:
        return False
    scoops = {part.bag.name: int(part.scoops) for part in asked.question.parts}
    request.services.store.shelf(key).mixes.add(MixEntry(name=MIX, scoops=scoops))
    return True


def _garden_of(asked: Asked) -> GardenEntry:
    question = asked.question
    bags = (*(part.bag for part in question.parts), *question.others)
    return GardenEntry(
        name=NAME,
        bags=tuple(_bag_entry(bag) for bag in bags),
        beds=(
            BedEntry(
                name=GROUND,
                place="",
                area_m2=question.area_m2,
                history=question.ground.history,
                compost_m_per_year=question.ground.compost_m_per_year,
                compost_years=question.ground.compost_years,
            ),
        ),
        tools=Tools(scoop_l=question.scoop_l, pail_l=question.pail_l),
        preferences=Preferences(
            units=question.system,
            currency=question.currency,
            ceiling_per_kg=question.ceiling_per_kg,
        ),
    )


def _bag_entry(bag: Bag) -> BagEntry:
    return BagEntry(
        name=bag.name, place="", label=bag.label.text, bag_kg=bag.bag_kg, price=bag.price
    )
