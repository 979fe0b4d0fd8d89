"""What bags are worth to the garden of a kept plan: long work for buying list and shop card."""

from dataclasses import dataclass, replace

from halfpail.application.garden_entry import GardenEntry
from halfpail.application.kept import Job, JobState, Kept, SeasonEntry
from halfpail.application.open_garden import open_garden
from halfpail.application.ports import SeasonEffort
from halfpail.application.shelf_ports import Store
from halfpail.application.weigh_for_shop import NOT_WEIGHED, ForTheShop, weigh_for_shop
from halfpail.application.weigh_worth import WorthAnswer
from halfpail.application.whole_garden import without_text
from halfpail.web.home import Home
from halfpail.web.season_text import read_text
from halfpail.web.until_stopped import until_stopped
from halfpail.web.weigh_bags import last_worth
from halfpail.wiring import services

SHOP = "worth of bags"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopAsked:
    """The garden whose bags are to be weighed."""

    entry: GardenEntry


def find_for_shop(question: str, effort: SeasonEffort) -> str:
    """What was found, as text; nothing where it was stopped, since half of it is of no use.

    Raises:
        Refusal: the garden cannot be opened.
    """
    asked = services().from_text(ShopAsked, question)
    garden = open_garden(asked.entry).garden

    bench = services()
    found = until_stopped(
        effort,
        lambda on_bag: weigh_for_shop(garden, bench.engine, bench.solver, on_bag, bench.each),
    )
    return "" if found is None else services().to_text(found)


def shop_job(store: Store, kept: Kept[SeasonEntry]) -> Job | None:
    """The weighing for a kept plan; None where it never began."""
    return store.jobs.sent_as(_token(kept))


def ask_to_weigh(store: Store, kept: Kept[SeasonEntry]) -> Job:
    """The weighing for a kept plan, which waits to be begun where there was none."""
    asked = services().to_text(ShopAsked(entry=kept.value.garden))
    return shop_job(store, kept) or store.jobs.add(SHOP, asked, _token(kept))


def shop_found(job: Job | None) -> ForTheShop:
    """What a weighing found."""
    if job is None or job.state is not JobState.DONE:
        return NOT_WEIGHED
    return read_text(ForTheShop, job.result)


def weighed_already(home: Home, kept: Kept[SeasonEntry]) -> WorthAnswer | None:
    """What the page of bags found, where the garden is still as it was planned for."""
    last = last_worth(home)
    if last is None or last.is_old:
        return None
    now, then = home.shelf.garden(), kept.value.garden
    liked = replace(now.preferences, mixes=then.preferences.mixes)
    same = without_text(replace(now, preferences=liked)) == without_text(then)
    return last.found.worth if same else None


def _token(kept: Kept[SeasonEntry]) -> str:
    return f"worth for season {kept.key}"
