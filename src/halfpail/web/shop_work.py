"""What every bag is worth to a kept plan's garden: long work for the buying list and the shop card.

Weighed with one mix, as on the command line: more mixes take much longer.
"""

from dataclasses import dataclass, replace

from halfpail.application.garden_entry import GardenEntry
from halfpail.application.kept import Job, JobState, Kept, SeasonEntry
from halfpail.application.make_shop_card import ShopCard, make_shop_card
from halfpail.application.open_garden import open_garden
from halfpail.application.ports import SeasonEffort
from halfpail.application.shelf_ports import Store
from halfpail.application.weigh_worth import WorthAnswer, weigh_worth
from halfpail.domain.season import Unmet
from halfpail.web.season_text import read_text
from halfpail.wiring import services

SHOP = "worth of bags"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopAsked:
    """The garden whose bags are to be weighed."""

    entry: GardenEntry


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopFound:
    """What each bag is worth and the card for the shop; nothing where there is no plan."""

    worth: WorthAnswer | None = None
    card: ShopCard | None = None


NOT_WEIGHED = ShopFound()


class _Stopped(Exception):
    """Somebody asked this work to stop."""


def weigh_for_shop(question: str, effort: SeasonEffort) -> str:
    """What was found, as text; nothing where it was stopped, since half of it is of no use.

    Raises:
        Refusal: the garden cannot be opened.
    """
    asked = services().from_text(ShopAsked, question)
    garden = open_garden(asked.entry).garden
    garden = replace(garden, preferences=replace(garden.preferences, mixes=1))

    def between_bags(_: str) -> None:
        if effort.should_stop and effort.should_stop():
            raise _Stopped

    engine, each = services().engine, services().each
    try:
        worth = weigh_worth(garden, engine, on_bag=between_bags, each=each)
        card = make_shop_card(garden, engine, services().solver, on_bag=between_bags, each=each)
    except _Stopped:
        return ""
    return services().to_text(
        ShopFound(
            worth=None if isinstance(worth, Unmet) else worth,
            card=None if isinstance(card, Unmet) else card,
        )
    )


def shop_job(store: Store, kept: Kept[SeasonEntry]) -> Job | None:
    """The weighing for a kept plan; None where it never began."""
    return store.jobs.sent_as(_token(kept))


def ask_to_weigh(store: Store, kept: Kept[SeasonEntry]) -> Job:
    """The weighing for a kept plan, which waits to be begun where there was none."""
    asked = services().to_text(ShopAsked(entry=kept.value.garden))
    return shop_job(store, kept) or store.jobs.add(SHOP, asked, _token(kept))


def shop_found(job: Job | None) -> ShopFound:
    """What a weighing found."""
    if job is None or job.state is not JobState.DONE:
        return NOT_WEIGHED
    return read_text(ShopFound, job.result)


def _token(kept: Kept[SeasonEntry]) -> str:
    return f"worth for season {kept.key}"
