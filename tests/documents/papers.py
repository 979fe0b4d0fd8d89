"""A small planned garden, made up, and every page of it; reading printed pages back."""

import re
from dataclasses import replace
from datetime import UTC, date, datetime
from fractions import Fraction
from functools import cache

import pypdfium2

from halfpail.application.date_season import date_season
from halfpail.application.dated_task import Task
from halfpail.application.make_shop_card import GradeLine, ShopCard
from halfpail.application.open_garden import OpenedGarden, open_garden
from halfpail.application.page import Link, Page, Paper
from halfpail.application.plan_season import plan_season
from halfpail.application.print_mixing_card import CardQuestion, print_mixing_card
from halfpail.application.print_pail_label import LabelSize, LabelWish
from halfpail.application.print_season import (
    MixWish,
    PrintedMix,
    SeasonQuestion,
    label_page,
    mix_pages,
    season_pages,
)
from halfpail.application.schedule_doses import Schedule
from halfpail.application.season_answer import SeasonAnswer
from halfpail.application.season_on_paper import season_on_paper
from halfpail.application.sum_mix import MixQuestion
from halfpail.application.warm_soil import WarmthQuestion
from halfpail.application.weigh_worth import WorthAnswer, weigh_worth
from halfpail.blending.point_prices import PointPrices
from halfpail.documents.press import TypstPress
from halfpail.domain.frost_calendar import FrostDates
from halfpail.domain.label import Grade
from halfpail.domain.matter import Nutrient
from halfpail.domain.mix import Part
from halfpail.garden_file.reader import read_text
from halfpail.wiring import services
from tests.unit.application.worth_garden import TEXT, worth_garden
from tests.unit.domain.bags import bag

AT = datetime(2027, 4, 1, 12, tzinfo=UTC)
FROST = FrostDates(last=date(2027, 5, 10), first=date(2027, 10, 1))
LINK = Link(address="HTTP://192.168.1.20:8765/MIXES", opens="Opens this mix.")
PRESS = TypstPress()


@cache
def answer() -> SeasonAnswer:
    found = plan_season(worth_garden(), services().engine)
    assert isinstance(found, SeasonAnswer)
    return found


@cache
def opened() -> OpenedGarden:
    """The garden, in a place whose frost dates are known."""
    return replace(open_garden(read_text(TEXT)), climate=WarmthQuestion(frost=FROST))


@cache
def season() -> SeasonQuestion:
    dates = date_season(opened(), answer())
    assert dates
    return season_on_paper(opened(), answer(), dates.feeds, dates.notices)


def schedule() -> Schedule:
    return season().schedule


def tasks() -> tuple[Task, ...]:
    return season().tasks


@cache
def pages() -> dict[str, Page]:
    """Every kind of page, by name."""
    worth = weigh_worth(worth_garden(), services().engine)
    assert isinstance(worth, WorthAnswer)
    question = replace(season(), worth=worth, shop_card=shop_card())
    found = dict(season_pages(question))
    one = replace(printed_mix("Green mix"), bed=answer().beds[0])
    found |= dict(mix_pages(one, 1, MixWish()))
    found["card with a link"] = card("Green mix", link=LINK)
    found["large label"] = label_page(printed_mix("Green mix"), LabelWish(size=LabelSize.LARGE))
    found["A7 label"] = label_page(printed_mix("Green mix"), LabelWish(size=LabelSize.A7))
    return found


def shop_card() -> ShopCard:
    """A card of made-up prices."""
    prices = {Nutrient.N: "0.31", Nutrient.P2O5: "-0.02", Nutrient.K2O: "0.13"}
    return ShopCard(
        garden="A garden",
        currency="USD",
        prices=PointPrices(
            per_point={nutrient: Fraction(price) for nutrient, price in prices.items()},
            wanted_kg={nutrient: Fraction(1) for nutrient in prices},
        ),
        grades=tuple(
            GradeLine(
                grade=Grade(n=Fraction(n), p2o5=Fraction(4), k2o=Fraction(4)),
                worth_per_kg=Fraction(n, 3),
                wanted_kg=Fraction(9),
            )
            for n in range(20)
        ),
        tried=(),
    )


def mix_question(*names: str) -> MixQuestion:
    """A mix of made-up bags: 1, 2 ... scoops of one after the other."""
    bags = [bag(name, 3 + 2 * number, 4, 2, density="0.7") for number, name in enumerate(names)]
    parts = tuple(Part(bag=one, scoops=number) for number, one in enumerate(bags, start=1))
    return MixQuestion(parts=parts, scoop_l=Fraction(1, 2), pail_l=Fraction(19))


def printed_mix(name: str, *names: str) -> PrintedMix:
    return PrintedMix(name=name, mix=mix_question(*(names or ("blend", "meal"))), rounds=7)


def card(name: str, *names: str, link: Link | None = None) -> Page:
    one = printed_mix(name, *names)
    return print_mixing_card(CardQuestion(name=name, mix=one.mix, rounds=one.rounds, link=link))


def printed(page: Page, paper: Paper = Paper.LETTER) -> bytes:
    return PRESS.print(page, paper, AT)


def text_of(pdf: bytes) -> str:
    """The text of every page, each on lines as printed."""
    document = pypdfium2.PdfDocument(pdf)
    found = "\n".join(page.get_textpage().get_text_range() for page in document)
    return re.sub("[\u200b\ufffe\u0002]", "", found).replace("\r", "")


def squeezed(text: str) -> str:
    """A text without blanks, so that where a line ends does not matter."""
    return re.sub(r"\s+", "", text)
