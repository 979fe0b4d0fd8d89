"""Which bench a request works on: bags typed in its address, the garden's, or the sample's."""

from functools import cache

from halfpail.application.gather_bags import gather_told
from halfpail.application.open_garden import open_garden
from halfpail.findings import Refusal
from halfpail.web.at_hand import filled_bag
from halfpail.web.bench import USUAL_TOOLS, Bench
from halfpail.web.forms.first import FirstForm
from halfpail.web.home import GardenRequest, Home
from halfpail.wiring import services


def bench_of(request: GardenRequest) -> Bench | None:
    """The bench a request works on; None where the bags in its address cannot be read."""
    form = FirstForm(request.GET, request.look)
    if form.bags_typed:
        return _typed_bench(form)
    return garden_bench(request.home) if request.home else sample_bench()


def garden_bench(home: Home) -> Bench:
    """The bags of a garden that may go into a pail; those whose label cannot be read stay out."""
    about = home.about
    filled = [filled_bag(kept.value, about) for kept in home.shelf.bags.all()]
    return Bench(
        bags=tuple(one.bag for one in filled if one and not one.bag.avoid),
        tools=about.tools,
        preferences=about.preferences,
        notices=tuple(notice for one in filled if one for notice in one.notices),
        invented=home.is_sample,
        kept=True,
    )


@cache
def sample_bench() -> Bench:
    """The bags of the sample garden that may go into a pail."""
    opened = open_garden(services().read_sample_garden())
    garden = opened.garden
    return Bench(
        bags=tuple(bag for bag in garden.bags if not bag.avoid),
        tools=garden.tools,
        preferences=garden.preferences,
        notices=opened.notices,
        invented=True,
    )


def _typed_bench(form: FirstForm) -> Bench | None:
    rows = [row for row in form.bags if not row.blank]
    if not all([row.is_valid() for row in rows]):
        return None
    try:
        gathered = gather_told([row.line() for row in rows], USUAL_TOOLS.scoop_l)
    except Refusal:
        return None
    return Bench(
        bags=(*(part.bag for part in gathered.parts), *gathered.others),
        parts=gathered.parts,
        notices=gathered.notices,
        carried=form.bags_typed,
    )
