"""The settings of the garden, its backups, and gardens that were put aside."""

from django.contrib import messages
from django.http import HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.views.decorators.http import require_POST

from halfpail.application.kept import GardenSettings
from halfpail.application.store_trouble import NoStore
from halfpail.web.forms.garden_settings import SettingsForm
from halfpail.web.home import GardenRequest, at_home
from halfpail.web.pages.settings import settings_page
from halfpail.web.views import keeping
from halfpail.web.words import garden_words

SEE_OTHER = keeping.SEE_OTHER
SETTINGS: keeping.Kind[GardenSettings] = keeping.Kind(
    name="setting",
    label=lambda one: one.about.name,
    drawer=lambda home: home.store.gardens,
    form=SettingsForm,
    words=lambda request, one: garden_words(request.services, one.about),
    page=settings_page,
)


@at_home
def change(request: GardenRequest, key: int | None = None) -> HttpResponse:
    """The settings; once they are saved the garden's units hold again."""
    assert request.home
    response = keeping.change(request, SETTINGS, request.home.kept.key)
    if response.status_code == SEE_OTHER:
        response.delete_cookie("units")
    return response


@require_POST
@at_home
def forget(request: GardenRequest, key: int) -> HttpResponse:
    """Give up what was typed."""
    return keeping.forget(request, SETTINGS, key)


@require_POST
def put_back(request: GardenRequest, key: int) -> HttpResponse:
    """Take a garden out of the bin; the present one goes there."""
    store = request.services.store
    if store is None:
        raise NoStore
    store.gardens.put_back(key)
    if request.home and request.home.kept.key != key:
        request.home.put_aside()
    messages.success(request, "The earlier garden is back; the other one lies in the bin.")
    return HttpResponseRedirect(reverse("settings"), status=SEE_OTHER)
