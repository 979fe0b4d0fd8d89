"""Everything of a season that goes on paper, page by page, by the name of its file."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from halfpail.application.dated_task import Task
from halfpail.application.make_shop_card import ShopCard
from halfpail.application.page import Link, Page
from halfpail.application.print_buying_list import BuyingQuestion, print_buying_list
from halfpail.application.print_feeding_sheet import print_feeding_sheet
from halfpail.application.print_handout import (
    HandoutQuestion,
    PlanHandoutQuestion,
    print_handout,
    print_plan_handout,
)
from halfpail.application.print_mixing_card import CardQuestion, print_mixing_card
from halfpail.application.print_pail_label import (
    FOR_OWN_USE,
    LabelQuestion,
    LabelWish,
    print_pail_label,
)
from halfpail.application.print_season_list import print_season_list
from halfpail.application.print_shop_card import print_shop_card
from halfpail.application.schedule_doses import Schedule
from halfpail.application.season_answer import BedAnswer, SeasonAnswer
from halfpail.application.sum_mix import MixQuestion
from halfpail.application.tell_season import mix_name
from halfpail.application.weigh_worth import WorthAnswer
from halfpail.domain.garden import Garden
from halfpail.domain.mix import stir
from halfpail.domain.stock import Bag
from halfpail.findings import Notice
from halfpail.quantities.showing import show_area, show_volume
from halfpail.quantities.units import System, size_of

# A label has room for so many lines of amounts, and for so many names in each.
_MOST_AMOUNTS = 4
_MOST_NAMES = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedMix:
    """One mix that goes on paper: its parts, its rounds, how much to give, and a bed it feeds."""

    name: str
    mix: MixQuestion
    rounds: int
    shed: tuple[Bag, ...] = ()
    amounts: tuple[str, ...] = ()
    bed: BedAnswer | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonQuestion:
    """A planned season and what else is known of it; `tasks` need frost dates.

    `links` are the addresses of the mixes by their names.
    """

    garden: Garden
    answer: SeasonAnswer
    schedule: Schedule
    tasks: tuple[Task, ...] = ()
    worth: WorthAnswer | None = None
    shop_card: ShopCard | None = None
    lime_notices: tuple[Notice, ...] = ()
    prices: bool = True
    labels: LabelWish = FOR_OWN_USE
    links: Mapping[str, Link] = field(default_factory=dict, hash=False)


def planned_mixes(garden: Garden, answer: SeasonAnswer) -> tuple[PrintedMix, ...]:
    """The mixes of a plan that are stirred; a mix of one bag is that bag, and is left out."""
    preferences, tools = garden.preferences, garden.tools
    return tuple(
        PrintedMix(
            name=mix_name(number),
            mix=MixQuestion(
                parts=mix.round.parts,
                scoop_l=tools.scoop_l,
                pail_l=tools.pail_l,
                system=preferences.units,
                currency=preferences.currency,
            ),
            rounds=mix.rounds,
            shed=garden.bags,
            amounts=tuple(amounts_on_label(answer, mix_name(number), preferences.units)),
            bed=next((bed for bed in answer.beds if _gets(bed, mix_name(number))), None),
        )
        for number, mix in enumerate(answer.mixes)
        if len(mix.round.parts) > 1 and mix.rounds
    )


def amounts_on_label(answer: SeasonAnswer, name: str, system: System) -> Iterator[str]:
    """How much of a mix for a small square, over the season, with the beds that get as much."""
    square = 10 * size_of("sq ft") if system is System.US else size_of("m²")
    beds: dict[str, list[str]] = {}
    for bed in answer.beds:
        litres = sum((one.volume_l for one in bed.feeds if one.name == name), Fraction(0))
        if litres:
            words = show_volume(litres / bed.bed.area_m2 * square, system)
            beds.setdefault(words, []).append(bed.bed.name)
    most_beds_first = sorted(beds.items(), key=lambda pair: -len(pair[1]))
    for words, names in most_beds_first[:_MOST_AMOUNTS]:
        more = len(names) - _MOST_NAMES
        others = f" and {more} more" if more > 0 else ""
        yield f"{words} per {show_area(square, system)}: {', '.join(names[:_MOST_NAMES])}{others}"
    if len(beds) > _MOST_AMOUNTS:
        yield "other beds: see the feeding sheet"


@dataclass(frozen=True, slots=True, kw_only=True)
class MixWish:
    """How the paper of a mix should be; `link` is where a phone finds the mix."""

    prices: bool = True
    labels: LabelWish = FOR_OWN_USE
    link: Link | None = None


def mix_pages(one: PrintedMix, number: int, wish: MixWish) -> Iterator[tuple[str, Page]]:
    """The card, the labels, the handout and the exercise of one mix."""
    card = CardQuestion(
        name=one.name,
        mix=one.mix,
        rounds=one.rounds,
        shed=one.shed,
        prices=wish.prices,
        link=wish.link,
    )
    yield f"mixing-card-{number}", print_mixing_card(card)
    yield f"pail-labels-{number}", label_page(one, wish.labels)
    yield from handout_pages(one, number, prices=wish.prices)


def label_page(one: PrintedMix, wish: LabelWish = FOR_OWN_USE) -> Page:
    """The labels of a mix."""
    return print_pail_label(
        LabelQuestion(
            name=one.name,
            mix=stir(one.mix.parts, one.mix.scoop_l),
            system=one.mix.system,
            amounts=one.amounts,
            wish=wish,
        )
    )


def handout_pages(one: PrintedMix, number: int, *, prices: bool) -> Iterator[tuple[str, Page]]:
    """The handout of a mix with its sums done, and with blanks and an answer page."""
    for name, exercise in (("handout", False), ("exercise", True)):
        asked = HandoutQuestion(
            name=one.name, mix=one.mix, bed=one.bed, prices=prices, exercise=exercise
        )
        yield f"{name}-{number}", print_handout(asked)


def plan_handout_pages(question: SeasonQuestion) -> Iterator[tuple[str, Page]]:
    """The handout of the plan with its sums done, and with blanks and an answer page."""
    for name, exercise in (("handout", False), ("exercise", True)):
        asked = PlanHandoutQuestion(
            garden=question.garden,
            answer=question.answer,
            prices=question.prices,
            exercise=exercise,
        )
        yield f"{name}-plan", print_plan_handout(asked)


def season_pages(question: SeasonQuestion) -> Iterator[tuple[str, Page]]:
    """Every page of a season that what is known allows."""
    garden, answer = question.garden, question.answer
    units = garden.preferences.units
    for number, one in enumerate(planned_mixes(garden, answer), start=1):
        link = question.links.get(one.name)
        wish = MixWish(prices=question.prices, labels=question.labels, link=link)
        yield from mix_pages(one, number, wish)
    yield (
        "feeding-sheet",
        print_feeding_sheet(
            garden.name, question.schedule, garden.tools.scoop_l, units, answer.notices
        ),
    )
    if question.tasks:
        notices = (*question.schedule.notices, *question.lime_notices)
        yield "season-list", print_season_list(garden.name, question.tasks, notices)
    yield from plan_handout_pages(question)
    asked = BuyingQuestion(
        garden=garden, answer=answer, worth=question.worth, prices=question.prices
    )
    yield "buying-list", print_buying_list(asked)
    if question.shop_card:
        yield "shop-card", print_shop_card(question.shop_card, units)


def _gets(bed: BedAnswer, name: str) -> bool:
    return any(feed.name == name for feed in bed.feeds)
