"""What every bag is worth to the garden as it stands: long work, kept until it is done anew.

Weighed with one mix, as on the command line: more mixes take much longer.
"""

from dataclasses import dataclass, replace

from halfpail.application.garden_entry import GardenEntry
from halfpail.application.kept import Job, JobState
from halfpail.application.open_garden import open_garden
from halfpail.application.ports import SeasonEffort
from halfpail.application.weigh_worth import WorthAnswer, weigh_worth
from halfpail.domain.season import Unmet
from halfpail.web.home import Home
from halfpail.web.run_jobs import AT_WORK
from halfpail.web.season_text import read_text
from halfpail.web.until_stopped import until_stopped
from halfpail.wiring import services

WEIGHING = "worth of the bags of a garden"
Versions = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighingAsked:
    """The garden to weigh for, which version of what it was made from, and the weighing before."""

    garden: int
    entry: GardenEntry
    versions: Versions
    before: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighingFound:
    """What each bag is worth; nothing where there is no plan, and then why not."""

    worth: WorthAnswer | None = None
    unmet: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LastWorth:
    """The last worth there is, and whether bags, beds or settings have changed since."""

    found: WeighingFound
    is_old: bool


def weigh_for_garden(question: str, effort: SeasonEffort) -> str:
    """What was found, as text; nothing where it was stopped, since half of it misleads.

    Raises:
        Refusal: the garden cannot be opened.
    """
    garden = open_garden(services().from_text(WeighingAsked, question).entry).garden
    garden = replace(garden, preferences=replace(garden.preferences, mixes=1))

    bench = services()
    worth = until_stopped(
        effort, lambda on_bag: weigh_worth(garden, bench.engine, on_bag=on_bag, each=bench.each)
    )
    if worth is None:
        return ""
    if isinstance(worth, Unmet):
        return services().to_text(WeighingFound(unmet=worth.sentence))
    return services().to_text(WeighingFound(worth=worth))


def versions_now(home: Home) -> Versions:
    """The versions of all that the worth of a bag hangs on."""
    drawers = (home.shelf.bags.all(), home.shelf.beds.all())
    kept = tuple((one.key, one.version) for drawer in drawers for one in drawer)
    return (*kept, (home.kept.key, home.kept.version))


def latest_weighing(home: Home) -> Job | None:
    """The garden's newest weighing, done or not."""
    job = home.store.jobs.latest(WEIGHING)
    return job if job and _asked(job).garden == home.kept.key else None


def ask_to_weigh(home: Home, token: str) -> Job:
    """A new weighing of the garden as it stands, unless one is at work already."""
    latest = latest_weighing(home)
    if latest and latest.state in AT_WORK:
        return latest
    asked = WeighingAsked(
        garden=home.kept.key,
        entry=home.shelf.garden(),
        versions=versions_now(home),
        before=_last_done(home, latest),
    )
    return home.store.jobs.add(WEIGHING, services().to_text(asked), token)


def last_worth(home: Home) -> LastWorth | None:
    """What was found last; while it is worked out anew, or that failed, what was found before."""
    key = _last_done(home, latest_weighing(home))
    if key is None:
        return None
    job = home.store.jobs.get(key)
    found = read_text(WeighingFound, job.result)
    return LastWorth(found=found, is_old=_asked(job).versions != versions_now(home))


def _last_done(home: Home, job: Job | None) -> int | None:
    if job is None:
        return None
    return job.key if job.state is JobState.DONE else _asked(job).before


def _asked(job: Job) -> WeighingAsked:
    return read_text(WeighingAsked, job.question)
