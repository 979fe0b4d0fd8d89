"""The season: a wish for a plan, the plan as it arrives, and what becomes of it."""

from dataclasses import replace

from django.contrib import messages
from django.http import HttpResponse, HttpResponseRedirect, QueryDict
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST

from halfpail.application.kept import Job
from halfpail.application.store_trouble import Missing, NameTaken, Unwritable
from halfpail.web import plans
from halfpail.web.can_plan import why_not
from halfpail.web.forms.fields import said
from halfpail.web.forms.season import KeepForm, SeasonForm
from halfpail.web.home import GardenRequest, Home, at_home
from halfpail.web.pages.other_seasons import instead, news_of, others_sheet, others_to_keep
from halfpail.web.pages.season import (
    SeasonPage,
    SeasonSheet,
    Shown,
    WaysSheet,
    found_of,
    job_sheet,
    kept_rows,
    season_sheet,
    ways_sheet,
)
from halfpail.web.season_text import SEASON, SeasonAsked, SeasonFound, read_text
from halfpail.web.told_season import NoLonger, ToldSeason, explained_season, told_season

SEE_OTHER, UNPROCESSABLE, UNAVAILABLE = 303, 422, 503


@at_home
def season(request: GardenRequest) -> HttpResponse:
    """The wish, the plan that is being worked out or was, and the plans that were kept."""
    return _shown(request)


@require_POST
@at_home
def plan(request: GardenRequest) -> HttpResponse:
    """Begin to plan, in a process of its own; the page is back at once."""
    assert request.home
    form = _form(request, None, request.POST)
    if not form.is_valid():
        return _shown(request, form)
    reasons = why_not(request.home)
    if reasons:
        return _shown(request, form, why_not=reasons)
    try:
        job = plans.ask_for_plan(request.home, form.wish(), form.cleaned_data["token"])
    except Unwritable as trouble:
        form.add_error("mixes", said(trouble.faults[0]))
        return _shown(request, form, status=UNAVAILABLE)
    plans.looked_after(request, request.home, job)
    return _back()


@require_POST
@at_home
def stop(request: GardenRequest, key: int) -> HttpResponse:
    """Ask a plan to end with the best it has."""
    assert request.home
    plans.workshop(request, request.home).stop(_job(request.home, key).key)
    return _back()


@require_POST
@at_home
def again(request: GardenRequest, key: int) -> HttpResponse:
    """Try a failed or stopped plan once more."""
    assert request.home
    plans.workshop(request, request.home).try_again(_job(request.home, key).key)
    return _back()


@require_POST
@at_home
def keep(request: GardenRequest, key: int) -> HttpResponse:
    """Keep the plan of a job under a name, and follow it."""
    assert request.home
    job = _job(request.home, key)
    found = found_of(job)
    if found is None:
        raise Missing
    form = KeepForm(request.POST, others=others_to_keep(found))
    if not form.is_valid():
        return _shown(request, keep=form)
    found = instead(found, form.which)
    asked, name = read_text(SeasonAsked, job.question), form.cleaned_data["name"]
    try:
        kept = plans.keep_plan(request.home, asked, name, found)
    except NameTaken as taken:
        form.add_error("name", said(taken.faults[0]))
        return _shown(request, keep=form)
    except Unwritable as trouble:
        form.add_error("name", said(trouble.faults[0]))
        return _shown(request, keep=form, status=UNAVAILABLE)
    messages.success(request, f"{name} is kept; it is the plan you follow now.")
    return HttpResponseRedirect(reverse("kept season", args=[kept]), status=SEE_OTHER)


def _back() -> HttpResponse:
    return HttpResponseRedirect(f"{reverse('season')}#job", status=SEE_OTHER)


def _job(home: Home, key: int) -> Job:
    """A plan of this garden."""
    job = home.store.jobs.get(key)
    if job.kind != SEASON or read_text(SeasonAsked, job.question).garden != home.kept.key:
        raise Missing
    return job


def _form(request: GardenRequest, job: Job | None, sent: QueryDict | None = None) -> SeasonForm:
    """The wish as sent, or else as it was for the last plan."""
    home = request.home
    assert home
    followed = plans.followed(home)
    return SeasonForm(
        sent,
        plans.last_wish(home, job),
        request.look.currency,
        followed.value.name if followed else "",
    )


def _shown(
    request: GardenRequest,
    form: SeasonForm | None = None,
    keep: KeepForm | None = None,
    why_not: tuple[str, ...] = (),
    status: int | None = None,
) -> HttpResponse:
    home = request.home
    assert home
    job = plans.newest_job(request, home)
    found = _that_does(request, job)
    form = form or _form(request, job)
    names = others_to_keep(found) if found else ()
    page = SeasonPage(
        form=form,
        keep=keep or KeepForm(None, f"Season {plans.season_year(home)}", names),
        job=job_sheet(job, request.look.currency) if job else None,
        sheet=_sheet(request, job, found) if job and found else None,
        unmet=found.unmet if found else (),
        help=found.help if found else (),
        news=news_of(found, request.look) if found else (),
        ways=_ways(request, found),
        others=others_sheet(found, request.look) if found else None,
        kept=kept_rows(home.shelf.seasons.all()),
        bin=home.shelf.seasons.bin(),
        why_not=why_not,
    )
    refused = form.faulty or why_not or (keep and keep.faulty)
    status = status or (UNPROCESSABLE if refused else 200)
    return render(request, "halfpail/season.html", {"page": page}, status=status)


def _that_does(request: GardenRequest, job: Job | None) -> SeasonFound | None:
    """What a job found; where its plan breaks a limit of today, why there is none."""
    found = found_of(job)
    if job is None or found is None:
        return None
    try:
        _told(request, job, found)
    except NoLonger as broken:
        return replace(found, plan=None, unmet=tuple(one.sentence for one in broken.faults))
    return found


def _ways(request: GardenRequest, found: SeasonFound | None) -> WaysSheet | None:
    if found is None or found.comparison is None:
        return None
    return ways_sheet(found.comparison, request.look)


def _told(request: GardenRequest, job: Job, found: SeasonFound) -> ToldSeason | None:
    """The plan of a job, told once; None where there is none."""
    if found.plan is None:
        return None
    entry = plans.garden_for(read_text(SeasonAsked, job.question), found.mixes)
    return told_season(entry, found.plan, request.look.system)


def _sheet(request: GardenRequest, job: Job, found: SeasonFound) -> SeasonSheet | None:
    told = _told(request, job, found)
    if told is None or found.plan is None:
        return None
    entry = plans.garden_for(read_text(SeasonAsked, job.question), found.mixes)
    asked_why = "why" in request.GET
    system = request.look.system
    return season_sheet(
        Shown(
            told=told,
            look=request.look,
            bed=request.GET.get("bed", ""),
            why=explained_season(entry, found.plan, system) if asked_why else None,
            dates=found.dates,
        )
    )
