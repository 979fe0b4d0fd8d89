"""The bags of the garden: a list in any order, and a page for each."""

from typing import Any

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST

from halfpail.application.garden_entry import BagEntry
from halfpail.reference.materials import materials
from halfpail.web.forms.bag_entry import BagEntryForm
from halfpail.web.home import GardenRequest, at_home
from halfpail.web.pages.bag import bag_page, label_of_material
from halfpail.web.pages.bags import bags_page
from halfpail.web.views import keeping
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
    page = bags_page(request.home, request.look, request.GET.get("by", ""))
    return render(request, "halfpail/bags.html", {"page": page})


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
