"""The plans of a garden: the one being worked out, those kept, and the one that is followed."""

from dataclasses import replace
from datetime import date

from halfpail.application.count_given import with_given
from halfpail.application.garden_entry import GardenEntry
from halfpail.application.kept import Job, JobState, Kept, SeasonEntry
from halfpail.application.store_trouble import Missing
from halfpail.web.clock import today
from halfpail.web.home import GardenRequest, Home
from halfpail.web.run_jobs import AT_WORK, Workshop
from halfpail.web.season_text import (
    DATES,
    SEASON,
    DatesAsked,
    DatesFound,
    SeasonAsked,
    SeasonFound,
    SeasonWish,
    read_text,
)
from halfpail.wiring import services


def newest_job(request: GardenRequest, home: Home) -> Job | None:
    """The garden's newest plan at work or worked out, looked after."""
    job = home.store.jobs.latest(SEASON)
    if job is None or read_text(SeasonAsked, job.question).garden != home.kept.key:
        return None
    return looked_after(request, home, job)


def looked_after(request: GardenRequest, home: Home, job: Job) -> Job:
    """A job as it stands now; where nothing can be written it is only looked at."""
    if job.state not in AT_WORK or home.store.read_only:
        return job
    return workshop(request, home).look_after(job)


def workshop(request: GardenRequest, home: Home) -> Workshop:
    """Where the long work of a garden is done."""
    assert request.services.folder
    return Workshop(store=home.store, folder=request.services.folder)


def ask_for_plan(home: Home, wish: SeasonWish, token: str) -> Job:
    """A new job that plans the garden as it stands, unless one is at work already."""
    before = home.store.jobs.latest(SEASON)
    if before and before.state in AT_WORK:
        return before
    entry, start = home.shelf.garden(), None
    if wish.from_today:
        start = today()
        since = date(start.year, 1, 1)
        events = [one.value for one in home.shelf.diary.all(since)]
        entry = with_given(entry, events, since)
    liked = replace(entry.preferences, mixes=wish.mixes, budget=wish.budget)
    old = followed(home) if wish.keep_old else None
    asked = SeasonAsked(
        garden=home.kept.key,
        entry=replace(entry, preferences=liked),
        start=start,
        old=old.value.plan if old else None,
        unless_saves=wish.unless_saves,
        cups=wish.cups,
        others=wish.others,
    )
    return home.store.jobs.add(SEASON, services().to_text(asked), token)


def last_wish(home: Home, job: Job | None) -> SeasonWish:
    """What was wished of the plan before; for the first one the garden's own budget."""
    if job is None:
        return SeasonWish(mixes=None, budget=home.about.preferences.budget)
    return read_text(SeasonAsked, job.question).wish


def season_year(home: Home) -> int:
    """The year of the garden's next season: that of its last frost, or else this one."""
    climate = home.about.climate
    return climate.frost.last.year if climate and climate.frost else today().year


def followed(home: Home) -> Kept[SeasonEntry] | None:
    """The plan that is followed: the one marked, or else the newest."""
    kept = home.shelf.seasons.all()
    return next((one for one in kept if one.value.chosen), kept[-1] if kept else None)


def garden_for(asked: SeasonAsked, mixes: int) -> GardenEntry:
    """The garden a plan was made for, with the number of mixes it was found for."""
    return replace(asked.entry, preferences=replace(asked.entry.preferences, mixes=mixes))


def keep_plan(home: Home, asked: SeasonAsked, name: str, found: SeasonFound) -> int:
    """Keep what was found under a name and follow it; the key it is kept under.

    Raises:
        Missing: no plan was found.
        NameTaken: another plan has this name.
    """
    if found.plan is None:
        raise Missing
    garden = garden_for(asked, found.mixes)
    entry = SeasonEntry(name=name, made_on=today(), plan=found.plan, garden=garden)
    key = home.shelf.seasons.add(entry).key
    follow(home, key)
    return key


def follow(home: Home, key: int) -> None:
    """Follow this plan and no other."""
    home.shelf.seasons.get(key)
    for one in home.shelf.seasons.all():
        chosen = one.key == key
        if one.value.chosen != chosen:
            home.shelf.seasons.change(one.key, one.version, replace(one.value, chosen=chosen))


def dates_job(request: GardenRequest, home: Home, kept: Kept[SeasonEntry]) -> Job | None:
    """The work of dating a kept plan, begun if it never was; None where there is no climate."""
    if kept.value.garden.climate is None:
        return None
    token = _dates_token(kept)
    job = home.store.jobs.sent_as(token)
    if job is None and not home.store.read_only:
        asked = DatesAsked(entry=kept.value.garden, plan=kept.value.plan)
        job = home.store.jobs.add(DATES, services().to_text(asked), token)
    return looked_after(request, home, job) if job else None


def changes(home: Home) -> int:
    """How often the plans of a garden were kept, followed, put away or dated; it only grows."""
    seasons = home.shelf.seasons
    kept = (*seasons.all(), *seasons.bin())
    dated = [home.store.jobs.sent_as(_dates_token(one)) for one in kept]
    return sum(one.version for one in kept) + sum(job.attempt for job in dated if job)


def _dates_token(kept: Kept[SeasonEntry]) -> str:
    return f"dates of season {kept.key}"


def dates_of(job: Job | None) -> DatesFound | None:
    """The dates a job found."""
    if job is None or job.state is not JobState.DONE:
        return None
    return read_text(DatesFound, job.result)
