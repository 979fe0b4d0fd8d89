"""The diary: what was done, what it adds up to, and taking a line back."""

from collections.abc import Sequence

from django.contrib import messages
from django.http import Http404, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST

from halfpail.application.account_phosphorus import account_phosphorus
from halfpail.application.kept import Kept
from halfpail.application.store_trouble import Missing, Unwritable
from halfpail.domain.diary import Event, bag_moves_kg
from halfpail.web.at_hand import bed_need
from halfpail.web.clock import today
from halfpail.web.diary_garden import bed_of, diary_garden
from halfpail.web.forms.diary import FORMS, Day, EventForm
from halfpail.web.forms.fields import said
from halfpail.web.home import GardenRequest, Home, at_home
from halfpail.web.pages.diary import (
    KINDS,
    AccountSheet,
    DiaryShown,
    WritePage,
    account_sheet,
    diary_page,
)
from halfpail.web.recipes import known_mixes

SEE_OTHER, UNPROCESSABLE, UNAVAILABLE = 303, 422, 503
LONGEST_YEAR = 4
# What an address may fill in.
OFFERED = frozenset({"mix", "rounds", "bed", "of", "scoops", "bag", "note"})


@at_home
def diary(request: GardenRequest) -> HttpResponse:
    """One year of it, with its sums."""
    home, look = request.home, request.look
    assert home
    kept = home.shelf.diary.all()
    shown = DiaryShown(
        look=look,
        year=_year(request),
        this_year=today().year,
        bed=request.GET.get("bed", ""),
        whole="whole" in request.GET,
    )
    garden = diary_garden(home, look.system)
    account = _account(home, kept, shown)
    page = diary_page(garden, kept, home.shelf.diary.undone(), shown, account)
    return render(request, "halfpail/diary.html", {"page": page})


@at_home
def write(request: GardenRequest, kind: str) -> HttpResponse:
    """The form of one kind of event, and what comes of it."""
    assert request.home
    if kind not in FORMS:
        raise Http404
    day = Day(
        garden=diary_garden(request.home, request.look.system),
        mixes=known_mixes(request.home),
        look=request.look,
    )
    title, form_of = FORMS[kind]
    status = 200
    if request.method != "POST":
        form = form_of(
            None, day, {name: request.GET[name] for name in OFFERED & request.GET.keys()}
        )
    else:
        form = form_of(request.POST, day)
        status = UNPROCESSABLE
        if form.is_valid():
            try:
                return _written(request, form)
            except Unwritable as trouble:
                form.add_error("on", said(trouble.faults[0]))
                status = UNAVAILABLE
    page = WritePage(title=title, form=form, kinds=KINDS, kind=kind)
    return render(request, "halfpail/diary_write.html", {"page": page}, status=status)


@require_POST
@at_home
def undo(request: GardenRequest, key: int) -> HttpResponse:
    """Take a line back, and give its stock back."""
    assert request.home
    try:
        request.home.shelf.diary.undo(key)
    except Missing:
        messages.warning(request, "That line is not there, or was taken back already.")
    else:
        messages.success(request, "It is taken back, and the shed is as it was before.")
    return _back()


@require_POST
@at_home
def redo(request: GardenRequest, key: int) -> HttpResponse:
    """Write a line that was taken back down again."""
    assert request.home
    try:
        request.home.shelf.diary.redo(key)
    except Missing:
        messages.warning(request, "That line stands already, or is not there.")
    else:
        messages.success(request, "It is written down again.")
    return _back()


def _back() -> HttpResponse:
    return HttpResponseRedirect(reverse("diary"), status=SEE_OTHER)


def _written(request: GardenRequest, form: EventForm) -> HttpResponse:
    assert request.home and form.event
    short = _short_in_shed(request.home, form.event)
    request.home.shelf.diary.record(form.event, form.cleaned_data["token"])
    messages.success(request, "It is written down.")
    if short:
        names = ", ".join(short)
        messages.warning(request, f"There was not so much in the shed by the book: {names}.")
    return _back()


def _short_in_shed(home: Home, event: Event) -> list[str]:
    """Bags of which more was taken than the shed held."""
    moves = bag_moves_kg(event)
    shed = {one.value.name: one.value.shed_kg for one in home.shelf.bags.all()}
    return [bag for bag, move in moves.items() if bag in shed and shed[bag] + move < 0]


def _year(request: GardenRequest) -> int:
    text = request.GET.get("year", "")
    plain = text.isascii() and text.isdigit() and len(text) <= LONGEST_YEAR
    return int(text) if plain else today().year


def _account(home: Home, kept: Sequence[Kept[Event]], shown: DiaryShown) -> AccountSheet | None:
    """The phosphorus of the bed that is asked for, else of the first."""
    beds = [one.value for one in home.shelf.beds.all()]
    if not beds:
        return None
    entry = next((bed for bed in beds if bed.name == shown.bed), beds[0])
    system = shown.look.system
    need = bed_need(entry, system)
    events = [one.value for one in kept]
    worked = need.worked if need else None
    lines = account_phosphorus(bed_of(entry, system), worked, events)
    return account_sheet(entry.name, lines, system)
