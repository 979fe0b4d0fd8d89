"""The bags of the garden: a list in any order, and a page for each."""

from typing import Any

from django.contrib import messages
from django.http import HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST

from halfpail.application.garden_entry import BagEntry
from halfpail.application.store_trouble import Missing
from halfpail.reference.materials import materials
from halfpail.web import plans
from halfpail.web.can_plan import why_not
from halfpail.web.forms.bag_entry import BagEntryForm
from halfpail.web.home import GardenRequest, at_home
from halfpail.web.pages.bag import bag_page, label_of_material
from halfpail.web.pages.bags import WORTH, BagsPage, bags_page, worth_page
from halfpail.web.pages.bags_worth import weighing_sheet
from halfpail.web.views import keeping
from halfpail.web.weigh_bags import ask_to_weigh, last_worth, latest_weighing
from halfpail.web.words import bag_words

BAGS: keeping.Kind[BagEntry] = keeping.Kind(
    name="bag",
    label=lambda bag: bag.name,
    drawer=lambda home: home.shelf.bags,
    form=BagEntryForm,
    words=lambda request, bag: bag_words(request.services, request.home, bag),
    page=bag_page,
)


@at_home
def listed(request: GardenRequest) -> HttpResponse:
    """Every bag with its prices, in the order asked for, and those in the bin."""
    assert request.home
    by = request.GET.get("by", "")
    page = _by_worth(request) if by == WORTH else bags_page(request.home, request.look, by)
    return render(request, "halfpail/bags.html", {"page": page})


def _by_worth(request: GardenRequest) -> BagsPage:
    home = request.home
    assert home
    job = latest_weighing(home)
    if job:
        job = plans.looked_after(request, home, job)
    last = last_worth(home)
    return worth_page(home, request.look, last, weighing_sheet(job, last))


@require_POST
@at_home
def weigh(request: GardenRequest) -> HttpResponse:
    """Begin to weigh the bags, in a process of its own; the page is back at once."""
    assert request.home
    for line in (faults := why_not(request.home)):
        messages.warning(request, line)
    if faults:
        return _back_to_worth()
    job = ask_to_weigh(request.home, request.POST.get("token", "")[:80])
    plans.looked_after(request, request.home, job)
    return _back_to_worth()


@require_POST
@at_home
def stop_weighing(request: GardenRequest, key: int) -> HttpResponse:
    """Ask the weighing of this garden to end."""
    assert request.home
    job = latest_weighing(request.home)
    if job is None or job.key != key:
        raise Missing
    plans.workshop(request, request.home).stop(key)
    return _back_to_worth()


def _back_to_worth() -> HttpResponse:
    return HttpResponseRedirect(f"{reverse('bags')}?by={WORTH}", status=keeping.SEE_OTHER)


@at_home
def new(request: GardenRequest) -> HttpResponse:
    """A bag by its label, its grade alone, or a material of the table."""
    asked = request.GET.get("material", "")
    chosen = next((one for one in materials() if one.key == asked), None)
    begin: dict[str, Any] | None = None
    if chosen:
        begin = {"name": chosen.name, "label": label_of_material(chosen)}
    return keeping.add(request, BAGS, begin)


@at_home
def change(request: GardenRequest, key: int) -> HttpResponse:
    """One bag."""
    return keeping.change(request, BAGS, key)


@require_POST
@at_home
def remove(request: GardenRequest, key: int) -> HttpResponse:
    """Move a bag to the bin."""
    return keeping.remove(request, BAGS, key)


@require_POST
@at_home
def put_back(request: GardenRequest, key: int) -> HttpResponse:
    """Take a bag out of the bin."""
    return keeping.put_back(request, BAGS, key)


@require_POST
@at_home
def forget(request: GardenRequest, key: int | None = None) -> HttpResponse:
    """Give up what was typed of a bag."""
    return keeping.forget(request, BAGS, key)
