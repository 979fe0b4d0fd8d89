"""The bags by what they are worth to the garden, the most first, and how the weighing stands."""

import secrets
from collections.abc import Iterator
from dataclasses import dataclass

from halfpail.application.kept import Job, JobState
from halfpail.application.weigh_bag import Between
from halfpail.application.weigh_worth import Advice, BagWorth, WorthAnswer
from halfpail.application.word_season import counted
from halfpail.findings import Notice
from halfpail.quantities.showing import show_money, show_price_per_mass
from halfpail.web.look import Look
from halfpail.web.run_jobs import AT_WORK
from halfpail.web.weigh_bags import LastWorth

SAID = {
    JobState.WAITING: "The bags are about to be weighed.",
    JobState.RUNNING: "The bags are being weighed; a dozen take about a minute.",
    JobState.DONE: "",
    JobState.STOPPED: "The weighing was stopped.",
    JobState.FAILED: "The weighing failed.",
}
HEADINGS = ("highest price worth paying", "by weight", "today", "what it does")


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighingSheet:
    """How the weighing stands, in words, and what came of the last one."""

    token: str
    key: int | None
    said: str
    at_work: bool
    stop_asked: bool
    told: tuple[str, ...]
    notices: tuple[Notice, ...]


def weighing_sheet(job: Job | None, last: LastWorth | None) -> WeighingSheet:
    """The weighing in words."""
    worth = last.found.worth if last else None
    return WeighingSheet(
        token=secrets.token_urlsafe(16),
        key=job.key if job else None,
        said=_said(job) if job else "",
        at_work=bool(job and job.state in AT_WORK),
        stop_asked=bool(job and job.stop_asked),
        told=tuple(_told(last)) if last else (),
        notices=worth.notices if worth else (),
    )


def _said(job: Job) -> str:
    said = SAID[job.state]
    return f"{said} {job.result}" if job.state is JobState.FAILED else said


def _told(last: LastWorth) -> Iterator[str]:
    if last.is_old:
        yield "This is old: bags, beds or settings have changed since it was worked out."
    if last.found.unmet:
        yield f"There is no plan to weigh bags by: {last.found.unmet}"
    if last.found.worth:
        yield (
            "The highest price worth paying for each bag, with one mix and all other bags at "
            "today’s prices. Above it the bag drops out of the plan."
        )


def worth_cells(worth: BagWorth, answer: WorthAnswer, look: Look) -> tuple[str, str, str, str]:
    """What a bag is worth, by weight too, what to do today, and what it does for the season."""
    return (
        _between(worth.worth, look),
        show_price_per_mass(worth.worth_per_kg, look.currency, look.system),
        f"buy {worth.buy}" if worth.advice is Advice.BUY and worth.buy else worth.advice.value,
        _does(worth, answer, look),
    )


def _does(worth: BagWorth, answer: WorthAnswer, look: Look) -> str:
    others = ", ".join(f"{count} {key}" for key, count in worth.replaces.items())
    if worth.buy:
        extra = worth.value_without.high_money - answer.value.high_money
        said = f"without it the season comes to {show_money(extra, look.currency)} more"
        return f"{said}, with {others} instead" if others else said
    if others:
        return f"{counted(worth.worth_count, 'bag', 'bags')} at that price would replace {others}"
    return "" if worth.worth_count else "no help to this season"


def _between(amount: Between, look: Look) -> str:
    low = show_money(amount.low_money, look.currency)
    high = show_money(amount.high_money, look.currency)
    return low if low == high else f"{low} to {high}"
