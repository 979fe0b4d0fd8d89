"""The pages of words of a kept plan or mix, ready for the press."""

from dataclasses import dataclass, replace
from datetime import UTC, datetime, time

from django.conf import settings as live
from django.http import HttpRequest
from django.urls import reverse

from halfpail.application.kept import Kept, MixEntry
from halfpail.application.page import Link, Page
from halfpail.application.print_season import (
    MixWish,
    PrintedMix,
    SeasonQuestion,
    mix_pages,
    season_pages,
)
from halfpail.application.season_on_paper import season_on_paper
from halfpail.application.store_trouble import Missing
from halfpail.application.sum_mix import MixQuestion, sum_mix
from halfpail.application.tell_season import mix_name
from halfpail.application.weigh_for_shop import NOT_WEIGHED, ForTheShop
from halfpail.domain.mix import Part
from halfpail.web.bench import Bench
from halfpail.web.clock import today
from halfpail.web.forms.paper import MixPaperForm, PaperForm
from halfpail.web.look import Look
from halfpail.web.season_text import DatesFound
from halfpail.web.settings import ALLOWED_HOSTS
from halfpail.web.told_season import ToldSeason


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundSoFar:
    """What long work found for a plan: its dates, and what its bags are worth."""

    dates: DatesFound | None = None
    shop: ForTheShop = NOT_WEIGHED


def moment() -> datetime:
    """Noon of today: what is printed twice on a day is the same to the last byte."""
    return datetime.combine(today(), time(12), UTC)


def phone_link(request: HttpRequest, address: str, what: str) -> Link:
    """An address of this machine for a phone's camera, in the letters of which a code stays small.

    A code holds capitals in fewer squares, and the name of a machine may be written in either.
    Where the pages are open to the home network, the code has the address a phone reaches.
    """
    at_home = next((one for one in live.ALLOWED_HOSTS if one not in ALLOWED_HOSTS), None)
    host = f"{at_home}:{request.get_port()}" if at_home else request.get_host()
    where = "a phone that was let in" if at_home else "the machine where it runs"
    return Link(
        address=f"{request.scheme}://{host}{address}".upper(),
        opens=f"Opens {what} in Halfpail, on {where}.",
    )


def season_question(told: ToldSeason, found: FoundSoFar) -> SeasonQuestion:
    """What can be printed of a plan."""
    feeds, notices = (found.dates.feeds, found.dates.notices) if found.dates else ((), ())
    season = season_on_paper(told.opened, told.answer, feeds, notices)
    return replace(season, worth=found.shop.worth, shop_card=found.shop.card)


def season_words(
    question: SeasonQuestion, form: PaperForm, request: HttpRequest, key: int
) -> dict[str, Page]:
    """Every page of a plan by the name of its document."""
    names = [mix_name(number) for number in range(len(question.answer.mixes))]
    links = {
        name: phone_link(request, reverse("open planned mix", args=[key, number]), name)
        for number, name in enumerate(names, start=1)
    }
    asked = replace(question, prices=form.prices, labels=form.labels, links=links)
    return dict(season_pages(asked))


def printed_mix(kept: Kept[MixEntry], bench: Bench, look: Look) -> PrintedMix:
    """A kept mix with the bags of the garden; a pail of it, at most half full.

    Raises:
        Missing: a bag of it is gone.
    """
    by_name = {bag.name: bag for bag in bench.bags}
    if not kept.value.scoops or not set(kept.value.scoops) <= set(by_name):
        raise Missing
    question = MixQuestion(
        parts=tuple(
            Part(bag=by_name[name], scoops=count) for name, count in kept.value.scoops.items()
        ),
        scoop_l=bench.tools.scoop_l,
        pail_l=bench.tools.pail_l,
        system=look.system,
        currency=look.currency,
    )
    rounds = max(1, sum_mix(question).pail.rounds)
    return PrintedMix(name=kept.value.name, mix=question, rounds=rounds, shed=bench.bags)


def mix_words(
    one: PrintedMix, form: MixPaperForm, request: HttpRequest, key: int
) -> dict[str, Page]:
    """Every page of a kept mix by the name of its document."""
    link = phone_link(request, reverse("open mix", args=[key]), "this mix")
    wish = MixWish(prices=form.prices, labels=form.labels, link=link)
    pages = mix_pages(replace(one, rounds=form.rounds), 1, wish)
    return {name.removesuffix("-1"): page for name, page in pages}
