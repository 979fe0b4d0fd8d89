"""Plans that were kept: one of them, two side by side, and which is followed."""

from django.contrib import messages
from django.http import HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST

from halfpail.application.compare_mixes import way_of
from halfpail.application.kept import Kept, SeasonEntry
from halfpail.application.store_trouble import Missing, NameTaken
from halfpail.application.word_ways import ways_table
from halfpail.web import plans
from halfpail.web.forms.fields import said
from halfpail.web.home import GardenRequest, at_home
from halfpail.web.pages.kept_season import KeptSeasonPage, TwoPlans, bags_table
from halfpail.web.pages.season import SeasonSheet, Shown, season_sheet
from halfpail.web.run_jobs import AT_WORK
from halfpail.web.season_text import DatesFound
from halfpail.web.told_season import ToldSeason, explained_season, told_season
from halfpail.web.views.old_plan import while_it_does

SEE_OTHER = 303


@at_home
@while_it_does
def kept(request: GardenRequest, key: int) -> HttpResponse:
    """One plan, told as it was made, with the dates once they are worked out."""
    assert request.home
    one = request.home.shelf.seasons.get(key)
    job = plans.dates_job(request, request.home, one)
    sheet = _sheet(request, one, plans.dates_of(job))
    others = [two for two in request.home.shelf.seasons.all() if two.key != key]
    waiting = job is not None and job.state in AT_WORK
    page = KeptSeasonPage(kept=one, sheet=sheet, others=tuple(others), waiting=waiting)
    return render(request, "halfpail/kept_season.html", {"page": page})


@at_home
@while_it_does
def compare(request: GardenRequest) -> HttpResponse:
    """Two plans side by side."""
    assert request.home
    chosen = [_asked(request, name) for name in ("one", "other")]
    told = [_told(request, one) for one in chosen]
    ways = tuple(
        way_of(one.value.name, len(two.answer.mixes), two.answer)
        for one, two in zip(chosen, told, strict=True)
    )
    look = request.look
    names = tuple(one.value.name for one in chosen)
    page = TwoPlans(
        names=names,
        ways=ways_table(ways, look.currency, look.system),
        bags=bags_table(names, [two.answer for two in told]),
    )
    return render(request, "halfpail/two_plans.html", {"page": page})


@require_POST
@at_home
def follow(request: GardenRequest, key: int) -> HttpResponse:
    """Follow this plan from now on."""
    assert request.home
    plans.follow(request.home, key)
    messages.success(request, "This is the plan you follow now.")
    return HttpResponseRedirect(reverse("kept season", args=[key]), status=SEE_OTHER)


@require_POST
@at_home
def remove(request: GardenRequest, key: int) -> HttpResponse:
    """Move a plan to the bin."""
    assert request.home
    seasons = request.home.shelf.seasons
    seasons.remove(key, seasons.get(key).version)
    messages.success(request, "The plan is in the bin; you can put it back from there.")
    return HttpResponseRedirect(f"{reverse('season')}#bin", status=SEE_OTHER)


@require_POST
@at_home
def put_back(request: GardenRequest, key: int) -> HttpResponse:
    """Take a plan out of the bin."""
    assert request.home
    try:
        request.home.shelf.seasons.put_back(key)
    except NameTaken as taken:
        messages.warning(request, said(taken.faults[0]))
    else:
        messages.success(request, "The plan is back.")
    return HttpResponseRedirect(f"{reverse('season')}#kept", status=SEE_OTHER)


def _asked(request: GardenRequest, name: str) -> Kept[SeasonEntry]:
    """The plan an address names; `Missing` where it names none."""
    assert request.home
    text = request.GET.get(name, "")
    if not (text.isascii() and text.isdigit() and len(text) < 9):
        raise Missing
    return request.home.shelf.seasons.get(int(text))


def _told(request: GardenRequest, kept: Kept[SeasonEntry]) -> ToldSeason:
    return told_season(kept.value.garden, kept.value.plan, request.look.system)


def _sheet(
    request: GardenRequest, kept: Kept[SeasonEntry], dates: DatesFound | None
) -> SeasonSheet:
    garden, plan, system = kept.value.garden, kept.value.plan, request.look.system
    return season_sheet(
        Shown(
            told=_told(request, kept),
            look=request.look,
            bed=request.GET.get("bed", ""),
            why=explained_season(garden, plan, system) if "why" in request.GET else None,
            dates=dates,
        )
    )
