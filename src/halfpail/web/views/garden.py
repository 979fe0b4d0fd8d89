"""Where a garden begins: the sample, an empty one, or the first answer kept."""

from django.contrib import messages
from django.http import HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST

from halfpail.application.garden_entry import GardenEntry
from halfpail.domain.garden import Preferences
from halfpail.web.bench import USUAL_TOOLS
from halfpail.web.forms.first import FirstForm
from halfpail.web.home import GardenRequest
from halfpail.web.start_garden import keep_answer, start_with

SEE_OTHER = 303
NAME = "My garden"


def begin(request: GardenRequest) -> HttpResponse:
    """The sample garden or an empty one."""
    if request.home:
        return HttpResponseRedirect(reverse("settings"))
    return render(request, "halfpail/garden.html")


@require_POST
def start(request: GardenRequest) -> HttpResponse:
    """Put the garden that was chosen into the store, unless there is one already."""
    if request.POST.get("with") == "sample":
        start_with(request, request.services.read_sample_garden(), is_sample=True)
    else:
        liked = Preferences(units=request.look.system, currency=request.look.currency)
        empty = GardenEntry(name=NAME, bags=(), beds=(), tools=USUAL_TOOLS, preferences=liked)
        start_with(request, empty)
    return HttpResponseRedirect(reverse("bags"), status=SEE_OTHER)


@require_POST
def keep_first(request: GardenRequest) -> HttpResponse:
    """Keep the bags, the ground and the mix of a first answer as the start of a garden."""
    form = FirstForm(request.POST, request.look)
    asked = form.asked()
    if asked is None:
        return HttpResponseRedirect(f"{reverse('first')}?{form.query}", status=SEE_OTHER)
    if keep_answer(request, asked):
        messages.success(request, "This is the start of your garden; add to it when you like.")
    return HttpResponseRedirect(reverse("bags"), status=SEE_OTHER)


@require_POST
def remove_sample(request: GardenRequest) -> HttpResponse:
    """Take the sample garden away; one's own is never touched."""
    if request.home and request.home.is_sample:
        request.home.put_aside()
        messages.success(request, "The sample garden is gone.")
    return HttpResponseRedirect(reverse("garden"), status=SEE_OTHER)
