"""Files opened: a garden, a mix or a plan is looked at, and kept once one says so."""

from django.contrib import messages
from django.http import HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST

from halfpail.application.fit_shared import fit_plan
from halfpail.application.shared_pieces import SharedMix
from halfpail.application.whole_garden import Piece, WholeGarden
from halfpail.findings import Refusal
from halfpail.web.forms.garden_file import ConfirmForm, UploadForm
from halfpail.web.held_file import held_under, hold
from halfpail.web.home import GardenRequest, Home
from halfpail.web.pages.garden_file import FilePage, fitted, found_piece, read_piece
from halfpail.web.start_garden import replace_with

SEE_OTHER, UNPROCESSABLE = 303, 422
GONE = "That file is no longer here; choose it again."


def bring_in(request: GardenRequest) -> HttpResponse:
    """Choose a file; it is read and told, and nothing is kept yet."""
    if request.method != "POST":
        return _shown(request, FilePage(form=UploadForm()))
    form = UploadForm(request.POST, request.FILES)
    if not form.is_valid():
        return _shown(request, FilePage(form=form), UNPROCESSABLE)
    text = form.cleaned_data["file"]
    try:
        found = found_piece(request, read_piece(request.services, text))
    except Refusal as refusal:
        return _shown(request, FilePage(form=form, faults=refusal.faults), UNPROCESSABLE)
    token = hold(request.services.store, text) if found.keep else ""
    return _shown(request, FilePage(form=form, token=token, found=found))


@require_POST
def confirm(request: GardenRequest) -> HttpResponse:
    """Keep what is in the file that was looked at; once, if sent twice."""
    form = ConfirmForm(request.POST)
    token = form.cleaned_data["token"] if form.is_valid() else ""
    text = held_under(request.services.store, token)
    try:
        piece = read_piece(request.services, text) if text else None
    except Refusal:
        piece = None
    address = _kept(request, piece, token) if piece else ""
    if not address:
        messages.warning(request, GONE)
        address = reverse("import")
    return HttpResponseRedirect(address, status=SEE_OTHER)


def _kept(request: GardenRequest, piece: Piece, token: str) -> str:
    """Where what was kept can be seen; nowhere where it cannot be kept."""
    if isinstance(piece, WholeGarden):
        replace_with(request, piece)
        messages.success(request, f"{piece.garden.name} is your garden now.")
        return reverse("bags")
    if request.home is None:
        return ""
    if isinstance(piece, SharedMix):
        return _kept_mix(request, request.home, piece, token)
    taken = [kept.value.name for kept in request.home.shelf.seasons.all()]
    season = request.home.shelf.seasons.add(fit_plan(piece, taken), token)
    messages.success(request, f"{season.value.name} is kept beside your own plans.")
    return reverse("kept season", args=[season.key])


def _kept_mix(request: GardenRequest, home: Home, shared: SharedMix, token: str) -> str:
    fit = fitted(home, shared)
    if fit.why_not:
        return ""
    kept = home.shelf.keep_mix(fit.mix, fit.new_bags, token)
    messages.success(request, f"{kept.value.name} is kept.")
    return reverse("mixes")


def _shown(request: GardenRequest, page: FilePage, status: int = 200) -> HttpResponse:
    return render(request, "halfpail/import.html", {"page": page}, status=status)
