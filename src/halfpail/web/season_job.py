"""Planning a season, dating a plan, weighing bags: in a process that keeps its row up to date.

Run as `python -m halfpail.web.season_job FOLDER JOB`. The process may be stopped, and then keeps
the best plan so far, or killed, and then leaves the store as it was.
"""

import os
import sys
import threading
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import replace
from pathlib import Path
from time import monotonic

from halfpail.application.date_season import date_season
from halfpail.application.kept import JobState
from halfpail.application.mend_season import Bench
from halfpail.application.open_garden import OpenedGarden, open_garden
from halfpail.application.plan_as_asked import Asked, SeasonParts, plan_as_asked
from halfpail.application.plan_season import GOOD_ENOUGH, tell, with_mixes
from halfpail.application.ports import SeasonEffort, SeasonProgress
from halfpail.application.season_answer import SeasonAnswer
from halfpail.application.season_in_the_way import SeasonWords
from halfpail.application.shelf_ports import Store
from halfpail.application.store_trouble import StoreTrouble
from halfpail.application.word_choices import sizes_words
from halfpail.domain.season import Unmet
from halfpail.findings import Refusal
from halfpail.web.forms.fields import said
from halfpail.web.season_text import (
    DATES,
    SEASON,
    BedCurve,
    DatesAsked,
    DatesFound,
    FewSizes,
    OldPlan,
    SeasonAsked,
    SeasonFound,
)
from halfpail.web.shop_work import SHOP, find_for_shop
from halfpail.web.weigh_bags import WEIGHING, weigh_for_garden
from halfpail.wiring import services

# Our defaults, not published: what one plan may take of this machine.
MOST_MEMORY_BYTES = 3 * 2**30
MOST_SECONDS = 120.0
BEAT_SECONDS = 0.5
TOO_LARGE = "This plan needed more memory than it may have. Ask for fewer mixes, or fewer beds."
BROKEN = "Something in the planning broke. This is a bug in Halfpail; the terminal shows where."


def work(store: Store, key: int) -> None:
    """Take a waiting job, do it, and close it; nothing where another process has it."""
    job = store.jobs.begin(key, os.getpid())
    if job is None:
        return
    state, result = JobState.FAILED, BROKEN
    try:
        with _beating(store, key) as effort:
            result = ANSWERS[job.kind](job.question, effort)
            stopped = effort.should_stop is not None and effort.should_stop()
            state = JobState.STOPPED if stopped else JobState.DONE
    except Refusal as refusal:
        result = " ".join(said(fault) for fault in refusal.faults)
    except MemoryError:
        result = TOO_LARGE
    finally:
        store.jobs.end(key, os.getpid(), state, result)


def find_season(question: str, effort: SeasonEffort) -> str:
    """The plan that was asked for, beside other numbers of mixes where that is to be found.

    Raises:
        Refusal: the garden cannot be planned for as it is.
    """
    asked = services().from_text(SeasonAsked, question)
    opened = open_garden(asked.entry)
    liked = opened.garden.preferences
    bench = Bench(
        engine=services().engine,
        solver=services().solver,
        words=SeasonWords(units=liked.units, currency=liked.currency),
        effort=effort,
    )
    wished = Asked(
        old=asked.old, unless_saves=asked.unless_saves, cups=asked.cups, others=asked.others
    )
    parts = plan_as_asked(opened.garden, wished, bench)
    return services().to_text(_found(asked, opened, parts))


def date_plan(question: str, effort: SeasonEffort) -> str:
    """The dates of a kept plan."""
    asked = services().from_text(DatesAsked, question)
    opened = open_garden(asked.entry)
    answer = tell(with_mixes(opened.garden, asked.entry.preferences.mixes or 1), asked.plan)
    return services().to_text(_dated(opened, answer, asked))


ANSWERS: Mapping[str, Callable[[str, SeasonEffort], str]] = {
    SEASON: find_season,
    DATES: date_plan,
    SHOP: find_for_shop,
    WEIGHING: weigh_for_garden,
}


def _found(asked: SeasonAsked, opened: OpenedGarden, parts: SeasonParts) -> SeasonFound:
    season, mending = parts.season, parts.mending
    if isinstance(season, Unmet):
        gives = (f"{give.limit.plot}, {give.limit.because}: {give.reason}" for give in season.gives)
        tried = tuple(one.sentence for one in mending.repairs) if mending else ()
        return SeasonFound(
            unmet=(season.sentence, *gives),
            help=(*(mending.hints if mending else ()), *tried),
            comparison=parts.comparison,
        )
    return SeasonFound(
        plan=season.plan,
        mixes=opened.garden.preferences.mixes or max(1, len(season.plan.stirs)),
        comparison=parts.comparison,
        dates=_dated(opened, season, asked),
        old=_old(parts),
        few=_few(parts),
        others=parts.others,
    )


def _old(parts: SeasonParts) -> OldPlan | None:
    if parts.kept is None:
        return None
    return OldPlan(
        kept=parts.kept.kept,
        saved_money=parts.kept.saved_money,
        saves_enough_money=parts.kept.saves_enough_money,
        because=parts.kept.because,
    )


def _few(parts: SeasonParts) -> FewSizes | None:
    if parts.grouped is None:
        return FewSizes() if parts.cups_refused else None
    return FewSizes(sizes=sizes_words(parts.grouped), worse_money=parts.grouped.worse_money)


def _dated(
    opened: OpenedGarden, answer: SeasonAnswer, asked: SeasonAsked | DatesAsked
) -> DatesFound | None:
    dates = date_season(opened, answer, asked.start)
    if dates is None:
        return None
    curves = tuple(BedCurve(bed=bed.name, weeks=bed.weeks) for bed in dates.beds)
    return DatesFound(feeds=dates.feeds, notices=dates.notices, curves=curves)


@contextmanager
def _beating(store: Store, key: int) -> Iterator[SeasonEffort]:
    """An effort whose news are written down twice a second, and which hears a wish to stop."""
    stop, over = threading.Event(), threading.Event()
    news = [SeasonProgress(value=None, bound=None, seconds=0.0)]
    began = monotonic()

    def beat() -> None:
        while not over.wait(BEAT_SECONDS):
            now = replace(news[0], seconds=monotonic() - began)
            # News that cannot be written now are told next time.
            with suppress(StoreTrouble):
                if not store.jobs.report(key, os.getpid(), services().to_text(now)):
                    stop.set()

    def tell_news(latest: SeasonProgress) -> None:
        news[0] = latest

    beating = threading.Thread(target=beat, daemon=True)
    beating.start()
    try:
        yield replace(
            GOOD_ENOUGH, seconds=MOST_SECONDS, on_progress=tell_news, should_stop=stop.is_set
        )
    finally:
        over.set()
        beating.join()


def limit_memory() -> None:
    """Let this process have so much memory and no more, where the machine can hold it to that."""
    if sys.platform != "win32":
        import resource

        _, hard = resource.getrlimit(resource.RLIMIT_AS)
        most = MOST_MEMORY_BYTES if hard < 0 else min(MOST_MEMORY_BYTES, hard)
        resource.setrlimit(resource.RLIMIT_AS, (most, hard))


def main(folder: str, key: str) -> None:
    """Do one job of the store in a folder."""
    limit_memory()
    work(services().open_store(Path(folder)), int(key))


if __name__ == "__main__":
    main(*sys.argv[1:])
