"""The beds of the garden: a list, and a page for each with what it should get."""

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST

from halfpail.application.garden_entry import BedEntry
from halfpail.web.forms.bed_entry import BedEntryForm
from halfpail.web.home import GardenRequest, at_home
from halfpail.web.pages.bed import bed_page
from halfpail.web.pages.beds import beds_page
from halfpail.web.views import keeping
from halfpail.web.words import bed_words

BEDS: keeping.Kind[BedEntry] = keeping.Kind(
    name="bed",
    label=lambda bed: bed.name,
    drawer=lambda home: home.shelf.beds,
    form=BedEntryForm,
    words=lambda request, bed: bed_words(request.services, request.home, bed),
    page=bed_page,
)


@at_home
def listed(request: GardenRequest) -> HttpResponse:
    """Every bed with what it should get, and those in the bin."""
    assert request.home
    page = beds_page(request.home, request.look)
    return render(request, "halfpail/beds.html", {"page": page})


@at_home
def new(request: GardenRequest) -> HttpResponse:
    """A bed by its size and its crops."""
    return keeping.add(request, BEDS)


@at_home
def change(request: GardenRequest, key: int) -> HttpResponse:
    """One bed."""
    return keeping.change(request, BEDS, key)


@require_POST
@at_home
def remove(request: GardenRequest, key: int) -> HttpResponse:
    """Move a bed to the bin."""
    return keeping.remove(request, BEDS, key)


@require_POST
@at_home
def put_back(request: GardenRequest, key: int) -> HttpResponse:
    """Take a bed out of the bin."""
    return keeping.put_back(request, BEDS, key)


@require_POST
@at_home
def forget(request: GardenRequest, key: int | None = None) -> HttpResponse:
    """Give up what was typed of a bed."""
    return keeping.forget(request, BEDS, key)
