"""What to do next: what is left of the plan that is followed, day by day."""

from collections.abc import Sequence
from fractions import Fraction

from django.http import HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST

from halfpail.application.kept import Job, JobState, Kept, SeasonEntry
from halfpail.application.list_next import DoneSoFar, done_so_far, list_next
from halfpail.application.list_tending import left_to_tend
from halfpail.application.tell_season import mix_name
from halfpail.domain.diary import Event
from halfpail.findings import loudest_first
from halfpail.web import plans
from halfpail.web.clock import today
from halfpail.web.home import GardenRequest, Home, at_home
from halfpail.web.pages.to_do import NextPage, Told, buy_words, rows_of, short_words
from halfpail.web.recipes import diary_name
from halfpail.web.run_jobs import AT_WORK
from halfpail.web.told_season import ToldSeason, told_season
from halfpail.web.told_tending import told_tending
from halfpail.web.views.old_plan import while_it_does

SEE_OTHER = 303
NO_FROST = "There are no dates, since the frost dates are not known: tell them in the settings."
STEPS = (
    ("bags", "Add the bags that are on offer and those in the shed"),
    ("beds", "Add your beds with their size and crop"),
    ("season", "Plan the season, and keep the plan you like"),
)


@at_home
@while_it_does
def upcoming(request: GardenRequest) -> HttpResponse:
    """The dated list; without a plan the steps towards one."""
    assert request.home
    plan = plans.followed(request.home)
    page = NextPage(first_steps=STEPS) if plan is None else _page(request, request.home, plan)
    return render(request, "halfpail/to_do.html", {"page": page})


@require_POST
@at_home
def date_again(request: GardenRequest) -> HttpResponse:
    """Work out the dates of the plan once more, where that failed."""
    assert request.home
    plan = plans.followed(request.home)
    job = plans.dates_job(request, request.home, plan) if plan else None
    if job:
        plans.workshop(request, request.home).try_again(job.key)
    return HttpResponseRedirect(reverse("next"), status=SEE_OTHER)


def _page(request: GardenRequest, home: Home, plan: Kept[SeasonEntry]) -> NextPage:
    system = request.look.system
    told = told_season(plan.value.garden, plan.value.plan, system)
    job = plans.dates_job(request, home, plan)
    dates = plans.dates_of(job)
    events = [one.value for one in home.shelf.diary.all(plan.value.made_on)]
    done = _done(events, plan, told)
    answer = list_next(told.answer, dates.feeds if dates else None, done, _shed(home))
    tending = told_tending(plan.value.garden, plan.value.plan, system)
    left = left_to_tend(tending.tasks, plan.value.made_on, events)
    this_week, later = rows_of(
        answer, left, Told(today=today(), plan=plan.value.name, system=system)
    )
    dated = dates.notices if dates else ()
    return NextPage(
        plan=plan.value.name,
        plan_key=plan.key,
        this_week=this_week,
        later=later,
        buy=buy_words(answer),
        short=tuple(short_words(answer, system)),
        notices=loudest_first((*dated, *told.answer.notices, *tending.notices)),
        waiting=job is not None and job.state in AT_WORK,
        undated=_undated(plan, job),
        may_retry=job is not None and job.state is JobState.FAILED,
    )


def _done(events: Sequence[Event], plan: Kept[SeasonEntry], told: ToldSeason) -> DoneSoFar:
    """What the diary says was done of this plan since it was made."""
    names = [mix_name(number) for number in range(len(told.answer.mixes))]
    return done_so_far(events, {diary_name(name, plan.value.name): name for name in names})


def _shed(home: Home) -> dict[str, Fraction]:
    return {one.value.name: one.value.shed_kg for one in home.shelf.bags.all()}


def _undated(plan: Kept[SeasonEntry], job: Job | None) -> str:
    if plan.value.garden.climate is None:
        return NO_FROST
    return job.result if job and job.state is JobState.FAILED else ""
