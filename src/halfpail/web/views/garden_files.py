"""The garden as a file: written out whole, and brought in once it was looked at."""

from django.contrib import messages
from django.http import HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST

from halfpail.findings import Refusal
from halfpail.web.forms.garden_file import ConfirmForm, UploadForm
from halfpail.web.home import GardenRequest, at_home
from halfpail.web.pages.garden_file import FilePage, looked_at, sound_garden
from halfpail.web.start_garden import replace_with

SEE_OTHER, UNPROCESSABLE = 303, 422


@at_home
def write(request: GardenRequest) -> HttpResponse:
    """The garden as a garden file to keep or to carry elsewhere."""
    assert request.home
    text = request.services.write_garden(request.home.shelf.garden())
    response = HttpResponse(text, content_type="application/toml; charset=utf-8")
    response["Content-Disposition"] = 'attachment; filename="garden.toml"'
    return response


def bring_in(request: GardenRequest) -> HttpResponse:
    """Choose a file; it is read and told, and nothing is kept yet."""
    if request.method != "POST":
        return render(request, "halfpail/import.html", {"page": FilePage(form=UploadForm())})
    form = UploadForm(request.POST, request.FILES)
    page = looked_at(request.services, form)
    status = 200 if page.is_sound else UNPROCESSABLE
    return render(request, "halfpail/import.html", {"page": page}, status=status)


@require_POST
def confirm(request: GardenRequest) -> HttpResponse:
    """Keep the garden of the file that was looked at; the present one goes to the bin."""
    form = ConfirmForm(request.POST)
    if not form.is_valid():
        return HttpResponseRedirect(reverse("import"), status=SEE_OTHER)
    try:
        entry = sound_garden(request.services, form.cleaned_data["text"])
    except Refusal:
        return HttpResponseRedirect(reverse("import"), status=SEE_OTHER)
    replace_with(request, entry)
    messages.success(request, f"{entry.name} is your garden now.")
    return HttpResponseRedirect(reverse("bags"), status=SEE_OTHER)
