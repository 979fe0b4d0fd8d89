"""Backups: made, taken along, brought along and restored."""

from django.contrib import messages
from django.http import Http404, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from halfpail.application.kept import StoreFile
from halfpail.application.shelf_ports import Backups
from halfpail.application.store_trouble import NoStore, StoreTrouble
from halfpail.web.downloads import download
from halfpail.web.forms.backup import BackupForm
from halfpail.web.forms.fields import said
from halfpail.web.home import GardenRequest

SEE_OTHER, UNPROCESSABLE = 303, 422


@require_POST
def back_up(request: GardenRequest) -> HttpResponse:
    """Copy everything that is kept into one file."""
    made = _backups(request).make()
    messages.success(request, f"Everything is copied into {made.path.name}.")
    return _back()


@require_GET
def take_along(request: GardenRequest, name: str) -> HttpResponse:
    """A backup as a file, to be kept on another machine or a stick."""
    found = _named(request, name)
    if found is None:
        raise Http404
    return download(found.path.read_bytes(), name)


def bring(request: GardenRequest) -> HttpResponse:
    """Put a backup from elsewhere among the others; where there is no garden yet, restore it."""
    if request.method != "POST":
        return _asked(request, BackupForm())
    form = BackupForm(request.POST, request.FILES)
    if not form.is_valid():
        return _asked(request, form)
    try:
        found = _backups(request).bring(form.cleaned_data["backup"])
    except StoreTrouble as trouble:
        form.add_error("backup", said(trouble.faults[0]))
        return _asked(request, form)
    if request.home is None:
        _put_in_place(request, found)
        messages.success(request, "The backup is restored.")
    else:
        messages.success(request, "It is among the backups now: look at what it holds, restore it.")
    return _back()


@require_POST
def restore(request: GardenRequest) -> HttpResponse:
    """Put a backup in the place of what is kept now, which is backed up first."""
    name = request.POST.get("name", "")
    chosen = _named(request, name)
    if chosen is None:
        raise NoStore(place=name, remedy="Choose one of the backups on the page.")
    _put_in_place(request, chosen)
    messages.success(request, f"{name} is restored; what was here before is among the backups.")
    return _back()


def _put_in_place(request: GardenRequest, backup: StoreFile) -> None:
    _backups(request).restore(backup.path)
    request.services.open_store(request.services.folder)


def _named(request: GardenRequest, name: str) -> StoreFile | None:
    """One of the backups there are: no other file can be named."""
    return next((one for one in _backups(request).all() if one.path.name == name), None)


def _backups(request: GardenRequest) -> Backups:
    return request.services.backups(request.services.folder)


def _back() -> HttpResponse:
    return HttpResponseRedirect(f"{reverse('settings')}#backups", status=SEE_OTHER)


def _asked(request: GardenRequest, form: BackupForm) -> HttpResponse:
    status = UNPROCESSABLE if form.faulty else 200
    return render(request, "halfpail/bring_backup.html", {"form": form}, status=status)
