"""Paper: everything that can be printed of the kept plans and mixes, as PDF and calendar."""

from collections.abc import Mapping
from dataclasses import replace

from django.http import Http404, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from halfpail.application.kept import Kept, MixEntry, SeasonEntry
from halfpail.application.page import Page
from halfpail.application.print_season import PrintedMix, SeasonQuestion, planned_mixes
from halfpail.application.season_on_paper import frost_of
from halfpail.application.write_calendar import calendar_entries
from halfpail.findings import Refusal
from halfpail.web import plans
from halfpail.web.clock import now
from halfpail.web.downloads import download
from halfpail.web.find_bench import garden_bench
from halfpail.web.forms.fields import said
from halfpail.web.forms.paper import MixPaperForm, PaperForm
from halfpail.web.home import GardenRequest, at_home
from halfpail.web.pages.paper import (
    MixPaperPage,
    PaperPage,
    PlanPaperPage,
    mix_documents,
    plan_documents,
    shop_card_document,
    weighing_of,
)
from halfpail.web.paper_of_home import (
    FoundSoFar,
    mix_words,
    moment,
    printed_mix,
    season_question,
    season_words,
)
from halfpail.web.run_jobs import AT_WORK
from halfpail.web.shop_work import ask_to_weigh, shop_found, shop_job, weighed_already
from halfpail.web.told_season import ToldSeason, told_season
from halfpail.web.views.old_plan import while_it_does

SEE_OTHER, UNPROCESSABLE = 303, 422


@require_safe
@at_home
def listed(request: GardenRequest) -> HttpResponse:
    """The plans and mixes that can be printed."""
    assert request.home
    bags = {bag.name for bag in garden_bench(request.home).bags}
    mixes = (one for one in request.home.shelf.mixes.all() if set(one.value.scoops) <= bags)
    seasons = sorted(request.home.shelf.seasons.all(), key=lambda one: not one.value.chosen)
    page = PaperPage(plans=tuple(seasons), mixes=tuple(mixes))
    return render(request, "halfpail/paper.html", {"page": page})


@require_safe
@at_home
def mix(request: GardenRequest, key: int) -> HttpResponse:
    """How the documents of a kept mix should be, and the buttons that print them."""
    kept, one = _mix(request, key)
    form = MixPaperForm(request.GET, request.look, one.rounds)
    return _mix_page(request, kept, form)


@require_safe
@at_home
def mix_document(request: GardenRequest, key: int, name: str) -> HttpResponse:
    """One document of a kept mix."""
    kept, one = _mix(request, key)
    form = MixPaperForm(request.GET, request.look, one.rounds)
    if not form.is_valid():
        return _mix_page(request, kept, form)
    try:
        return _printed(request, mix_words(one, form, request, key), name, form)
    except Refusal as refusal:
        return _mix_page(request, kept, form, refusal)


@require_safe
@at_home
@while_it_does
def plan(request: GardenRequest, key: int) -> HttpResponse:
    """How the documents of a kept plan should be, and the buttons that print them."""
    return _plan_page(request, _plan(request, key), PaperForm(request.GET, request.look))


@require_safe
@at_home
@while_it_does
def plan_document(request: GardenRequest, key: int, name: str) -> HttpResponse:
    """One document of a kept plan; while its dates are worked out the page says so."""
    kept, form = _plan(request, key), PaperForm(request.GET, request.look)
    found, waiting = _found(request, kept)
    if not form.is_valid() or waiting:
        return _plan_page(request, kept, form)
    words = season_words(_question(request, kept, found), form, request, key)
    try:
        return _printed(request, words, name, form)
    except Refusal as refusal:
        return _plan_page(request, kept, form, refusal)


@require_safe
@at_home
@while_it_does
def calendar(request: GardenRequest, key: int) -> HttpResponse:
    """The days of a kept plan as a calendar file.

    Two plans of a season tell of the same tasks: the one fetched after a change has the higher
    number, and of two fetched without one the later moment counts (RFC 5546, 2.1.5).
    """
    assert request.home
    kept = _plan(request, key)
    found, waiting = _found(request, kept)
    frost = frost_of(_told(request, kept).opened)
    if waiting or frost is None:
        return HttpResponseRedirect(reverse("plan paper", args=[key]), status=SEE_OTHER)
    garden, tasks = kept.value.garden.name, _question(request, kept, found).tasks
    entries = calendar_entries(garden, frost.first.year, tasks, plans.changes(request.home))
    return download(request.services.calendar.write(garden, entries, now()), "season.ics")


@require_POST
@at_home
def weigh(request: GardenRequest, key: int) -> HttpResponse:
    """Begin to weigh the bags of a kept plan, or try again where that failed or was stopped."""
    assert request.home
    job = ask_to_weigh(request.home.store, _plan(request, key))
    workshop = plans.workshop(request, request.home)
    workshop.try_again(job.key)
    workshop.look_after(request.home.store.jobs.get(job.key))
    return _to_weighing(key)


@require_POST
@at_home
def stop_weighing(request: GardenRequest, key: int) -> HttpResponse:
    """Stop weighing the bags of a kept plan."""
    assert request.home
    job = shop_job(request.home.store, _plan(request, key))
    if job is not None and job.state in AT_WORK:
        plans.workshop(request, request.home).stop(job.key)
    return _to_weighing(key)


@require_safe
@at_home
def open_mix(request: GardenRequest, key: int) -> HttpResponse:
    """What the code on the card of a kept mix opens: its sum."""
    assert request.home
    _, one = _mix(request, key)
    bench = garden_bench(request.home)
    return HttpResponseRedirect(f"{bench.mix_address(one.mix.parts)}#told")


@require_safe
def open_planned_mix(request: GardenRequest, key: int, number: int) -> HttpResponse:
    """What the code on the card of a planned mix opens: its plan, at this mix."""
    return HttpResponseRedirect(f"{reverse('kept season', args=[key])}#mix-{number}")


def _to_weighing(key: int) -> HttpResponse:
    return HttpResponseRedirect(f"{reverse('plan paper', args=[key])}#weighing", status=SEE_OTHER)


def _printed(
    request: GardenRequest, words: Mapping[str, Page], name: str, form: PaperForm
) -> HttpResponse:
    if name not in words:
        raise Http404
    pdf = request.services.limited_press.print(words[name], form.paper, moment())
    response = HttpResponse(pdf, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{name}.pdf"'
    return response


def _mix(request: GardenRequest, key: int) -> tuple[Kept[MixEntry], PrintedMix]:
    assert request.home
    kept = request.home.shelf.mixes.get(key)
    return kept, printed_mix(kept, garden_bench(request.home), request.look)


def _mix_page(
    request: GardenRequest, kept: Kept[MixEntry], form: MixPaperForm, refusal: Refusal | None = None
) -> HttpResponse:
    page = MixPaperPage(
        kept=kept, form=form, documents=mix_documents(kept.key), refused=_why(refusal)
    )
    return _shown(request, "halfpail/paper_of_mix.html", page)


def _plan(request: GardenRequest, key: int) -> Kept[SeasonEntry]:
    assert request.home
    return request.home.shelf.seasons.get(key)


def _found(request: GardenRequest, kept: Kept[SeasonEntry]) -> tuple[FoundSoFar, bool]:
    """What is known of a plan beside itself, and whether its dates are still being worked out."""
    assert request.home
    dates = plans.dates_job(request, request.home, kept)
    shop = shop_found(shop_job(request.home.store, kept))
    if shop.worth is None:
        shop = replace(shop, worth=weighed_already(request.home, kept))
    waiting = dates is not None and dates.state in AT_WORK
    return FoundSoFar(dates=plans.dates_of(dates), shop=shop), waiting


def _told(request: GardenRequest, kept: Kept[SeasonEntry]) -> ToldSeason:
    return told_season(kept.value.garden, kept.value.plan, request.look.system)


def _question(request: GardenRequest, kept: Kept[SeasonEntry], found: FoundSoFar) -> SeasonQuestion:
    return season_question(_told(request, kept), found)


def _plan_page(
    request: GardenRequest,
    kept: Kept[SeasonEntry],
    form: PaperForm,
    refusal: Refusal | None = None,
) -> HttpResponse:
    assert request.home
    found, waiting = _found(request, kept)
    told = _told(request, kept)
    job = shop_job(request.home.store, kept)
    job = plans.looked_after(request, request.home, job) if job else None
    weighing = weighing_of(job, knows_bags=found.shop.worth is not None)
    dated = frost_of(told.opened) is not None
    names = ["feeding-sheet", "buying-list", "handout-plan", "exercise-plan"]
    names += ["season-list"] if dated else []
    page = PlanPaperPage(
        kept=kept,
        form=form,
        documents=plan_documents(kept.key, planned_mixes(told.garden, told.answer), names),
        weighing=weighing,
        waiting=waiting,
        dated=dated,
        shop_card=shop_card_document(kept.key) if found.shop.card else None,
        refused=_why(refusal),
    )
    return _shown(request, "halfpail/paper_of_plan.html", page)


def _shown(
    request: GardenRequest, template: str, page: MixPaperPage | PlanPaperPage
) -> HttpResponse:
    refused = page.refused or page.form.faulty
    return render(request, template, {"page": page}, status=UNPROCESSABLE if refused else 200)


def _why(refusal: Refusal | None) -> tuple[str, ...]:
    return tuple(said(fault) for fault in refusal.faults) if refusal else ()
