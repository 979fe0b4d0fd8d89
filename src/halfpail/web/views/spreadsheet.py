"""Bags, beds, soil tests and diary from a spreadsheet: read, told back, kept, taken back."""

from typing import Any

from django.contrib import messages
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST

from halfpail.application.fill_tables import units_of
from halfpail.application.make_template import make_template
from halfpail.application.store_trouble import Conflict, Missing, NameTaken
from halfpail.findings import Refusal
from halfpail.web.clock import today
from halfpail.web.forms.spreadsheet import MOST_BYTES, SpreadsheetForm, chosen
from halfpail.web.held_import import choose, held_under, hold, let_go, looked_at, print_of
from halfpail.web.home import GardenRequest, Home, at_home
from halfpail.web.pages.spreadsheet import ChoosePage, KeptPage, rows_page

SEE_OTHER, CONFLICT, UNPROCESSABLE = 303, 409, 422
MOST_LATELY = 5
KEEP = "keep"
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
GONE = "That spreadsheet is no longer here; choose the file again."
CHANGED = "The garden or your choices changed since you looked. Look once more, then keep it."


@at_home
def bring(request: GardenRequest) -> HttpResponse:
    """Choose a file; it is read and told back, and nothing is kept yet."""
    assert request.home
    if request.method != "POST":
        lately = request.home.shelf.imports.latest()
        page = ChoosePage(form=SpreadsheetForm(), lately=lately[:MOST_LATELY])
        return _asked(request, page)
    form = SpreadsheetForm(request.POST, request.FILES)
    if not form.is_valid():
        return _asked(request, ChoosePage(form=form), UNPROCESSABLE)
    file: UploadedFile[Any] = form.cleaned_data["file"]
    name = file.name or ""
    try:
        book = request.services.sheets.read(file.read(MOST_BYTES + 1), name)
    except Refusal as refusal:
        return _asked(request, ChoosePage(form=form, faults=refusal.faults), UNPROCESSABLE)
    held = hold(request.home, name, book)
    return HttpResponseRedirect(reverse("spreadsheet rows", args=[held.token]), status=SEE_OTHER)


@at_home
def template(request: GardenRequest, ending: str) -> HttpResponse:
    """An empty spreadsheet to fill in, with the units of the garden in its heads."""
    writer, kind = {
        "xlsx": (request.services.spreadsheets, XLSX),
        "zip": (request.services.csv_zips, "application/zip"),
    }[ending]
    book = make_template(units_of(_home(request).about), today())
    response = HttpResponse(writer.write(book), content_type=kind)
    response["Content-Disposition"] = f'attachment; filename="to-fill-in.{ending}"'
    return response


@at_home
def rows(request: GardenRequest, token: str) -> HttpResponse:
    """A spreadsheet told back, with a choice for each sheet; or what was kept of it."""
    home = _home(request)
    if brought := home.shelf.imports.get(token):
        page = KeptPage(token=token, brought=brought)
        return render(request, "halfpail/spreadsheet_kept.html", {"page": page})
    held = held_under(home, token)
    if held is None:
        return _gone(request)
    if request.method != "POST":
        return _told(request, token)
    choices = chosen(request.POST, held.book.sheets, held.choices)
    changed = choices != held.choices
    held = choose(home, held, choices)
    if KEEP not in request.POST:
        return HttpResponseRedirect(reverse("spreadsheet rows", args=[token]), status=SEE_OTHER)
    changes = looked_at(request, held).changes
    if changed or print_of(changes) != request.POST.get("seen") or not changes.count:
        messages.warning(request, CHANGED)
        return _told(request, token, CONFLICT)
    try:
        home.shelf.imports.bring(changes, token, held.file)
    except (Conflict, NameTaken, Missing):
        messages.warning(request, CHANGED)
        return _told(request, token, CONFLICT)
    let_go(home, token)
    return HttpResponseRedirect(reverse("spreadsheet rows", args=[token]), status=SEE_OTHER)


@require_POST
@at_home
def take_back(request: GardenRequest, token: str) -> HttpResponse:
    """Put everything back as it was before this spreadsheet."""
    try:
        _home(request).shelf.imports.take_back(token)
    except Missing:
        return _gone(request)
    return HttpResponseRedirect(reverse("spreadsheet rows", args=[token]), status=SEE_OTHER)


@require_POST
@at_home
def give_up(request: GardenRequest, token: str) -> HttpResponse:
    """Forget a spreadsheet that was looked at."""
    let_go(_home(request), token)
    return HttpResponseRedirect(reverse("spreadsheet"), status=SEE_OTHER)


def _told(request: GardenRequest, token: str, status: int = 200) -> HttpResponse:
    held = held_under(_home(request), token)
    if held is None:
        return _gone(request)
    page = rows_page(held, looked_at(request, held))
    return render(request, "halfpail/spreadsheet_rows.html", {"page": page}, status=status)


def _asked(request: GardenRequest, page: ChoosePage, status: int = 200) -> HttpResponse:
    return render(request, "halfpail/spreadsheet.html", {"page": page}, status=status)


def _gone(request: GardenRequest) -> HttpResponse:
    messages.warning(request, GONE)
    return HttpResponseRedirect(reverse("spreadsheet"), status=SEE_OTHER)


def _home(request: GardenRequest) -> Home:
    assert request.home
    return request.home
