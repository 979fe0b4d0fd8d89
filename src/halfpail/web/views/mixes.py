"""The chalked sum: scoops in the address, every number of the mix on the page; mixes kept."""

from django.contrib import messages
from django.http import HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST

from halfpail.application.store_trouble import NameTaken, Unwritable
from halfpail.web.find_bench import bench_of, garden_bench
from halfpail.web.forms.fields import said
from halfpail.web.forms.kept_mix import KeepMixForm
from halfpail.web.forms.mix import MixForm
from halfpail.web.home import GardenRequest, at_home
from halfpail.web.pages.kept_mixes import KeptMixes, kept_mixes
from halfpail.web.pages.mixes import mix_page

SEE_OTHER, UNPROCESSABLE, UNAVAILABLE = 303, 422, 503


def chalked_sum(request: GardenRequest) -> HttpResponse:
    """The sum of the scoops, and what one scoop more or less would do."""
    bench = bench_of(request)
    if bench is None:
        return HttpResponseRedirect(f"{reverse('first')}?{request.GET.urlencode()}")
    keeping = None
    if request.home and bench.kept and not request.htmx:
        keeping = kept_mixes(request.home, bench, request.look, KeepMixForm(None))
    elif bench.kept:
        keeping = KeptMixes(form=KeepMixForm(None))
    return _shown(request, MixForm(request.GET, bench, request.look), keeping)


@at_home
def keep(request: GardenRequest) -> HttpResponse:
    """Keep the mix under a name; a form that came back is the page of the sum."""
    assert request.home
    if request.method != "POST":
        return HttpResponseRedirect(reverse("mixes"))
    bench = garden_bench(request.home)
    form, asked = MixForm(request.POST, bench, request.look), KeepMixForm(request.POST)
    status = None
    try:
        if kept := _kept(request, form, asked):
            return HttpResponseRedirect(kept, status=SEE_OTHER)
    except Unwritable as trouble:
        asked.add_error("name", said(trouble.faults[0]))
        status = UNAVAILABLE
    return _shown(request, form, kept_mixes(request.home, bench, request.look, asked), status)


@require_POST
@at_home
def remove(request: GardenRequest, key: int) -> HttpResponse:
    """Move a mix to the bin."""
    assert request.home
    kept = request.home.shelf.mixes.get(key)
    request.home.shelf.mixes.remove(key, kept.version)
    messages.success(request, f"{kept.value.name} is in the bin.")
    return HttpResponseRedirect(reverse("mixes"), status=SEE_OTHER)


@require_POST
@at_home
def put_back(request: GardenRequest, key: int) -> HttpResponse:
    """Take a mix out of the bin."""
    assert request.home
    try:
        kept = request.home.shelf.mixes.put_back(key)
    except NameTaken as taken:
        messages.warning(request, said(taken.faults[0]))
    else:
        messages.success(request, f"{kept.value.name} is back.")
    return HttpResponseRedirect(reverse("mixes"), status=SEE_OTHER)


def _kept(request: GardenRequest, form: MixForm, asked: KeepMixForm) -> str:
    """The address of the mix once it is kept; nothing where it cannot be."""
    question = form.question()
    if not asked.is_valid() or request.home is None:
        return ""
    if question is None:
        asked.add_error("name", "Give a bag a scoop first; then the mix can be kept.")
        return ""
    try:
        entry = asked.entry(question.parts)
        request.home.shelf.mixes.add(entry, asked.cleaned_data["token"])
    except NameTaken as taken:
        asked.add_error("name", said(taken.faults[0]))
        return ""
    messages.success(request, f"{entry.name} is kept.")
    return form.bench.mix_address(question.parts)


def _shown(
    request: GardenRequest, form: MixForm, keeping: KeptMixes | None, status: int | None = None
) -> HttpResponse:
    page = mix_page(form, keeping)
    status = status or (UNPROCESSABLE if page.faulty and not request.htmx else 200)
    return render(request, "halfpail/mixes.html", {"page": page}, status=status)
