"""The list for the shop: bags, how many, the highest price worth paying, and why."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from halfpail.application.page import Page
from halfpail.application.paper_notices import PaperNotice, paper_notices
from halfpail.application.season_answer import BagAnswer, SeasonAnswer
from halfpail.application.weigh_bag import Between
from halfpail.application.weigh_worth import BagWorth, WorthAnswer
from halfpail.domain.garden import Garden
from halfpail.domain.stock import Bag
from halfpail.findings import Notice
from halfpail.quantities.showing import show_mass, show_money

NONE = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyingRow:
    """One bag: how many, its weight, today's price, the price to walk away at, and why."""

    bag: str
    weight: str
    count: str
    price: str
    highest: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyingSheet(Page):
    """The words of the list: what to buy, what pays up to a price, what not even as a gift."""

    together: str
    how: str
    buy: tuple[BuyingRow, ...]
    leave: tuple[BuyingRow, ...]
    never: tuple[str, ...]
    notices: tuple[PaperNotice, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyingQuestion:
    """The garden and its plan; with `worth` the highest prices are what each bag saves.

    Without it the list says what to buy and no more. Without `prices` what the shop asks today
    is left out.
    """

    garden: Garden
    answer: SeasonAnswer
    worth: WorthAnswer | None = None
    prices: bool = True


def print_buying_list(question: BuyingQuestion) -> BuyingSheet:
    """What to buy for a plan, with room to write the price found."""
    answer, garden = question.answer, question.garden
    bought = {told.bag.key: told for told in answer.bags if told.bought}
    on_offer = [bag for bag in garden.bags if bag.bag_kg and not bag.avoid and bag.offered != 0]
    worths = {one.bag: one for one in question.worth.bags} if question.worth else {}
    spent = sum((told.cost for told in bought.values()), NONE)
    return BuyingSheet(
        title=f"Buying list: {garden.name}",
        together=_together(sum(told.bought for told in bought.values()), spent, question),
        how=_how(question),
        buy=tuple(
            _row(bag, bought[bag.key], worths, question) for bag in on_offer if bag.key in bought
        ),
        leave=tuple(
            _row(bag, None, worths, question)
            for bag in on_offer
            if bag.key not in bought and bag.key in worths and worths[bag.key].worth_count
        ),
        never=tuple(
            bag.name
            for bag in on_offer
            if bag.key not in bought and bag.key in worths and not worths[bag.key].worth_count
        ),
        notices=paper_notices(_notices(question)),
    )


def _together(count: int, spent: Fraction, question: BuyingQuestion) -> str:
    if not count:
        return "Nothing is needed: buy no bag."
    money = f" for {show_money(spent, question.answer.currency)}" if question.prices else ""
    return f"{count} bag{'s' * (count > 1)} in all{money}."


def _how(question: BuyingQuestion) -> str:
    if question.worth:
        mixes = "one mix" if question.worth.mixes == 1 else f"{question.worth.mixes} mixes"
        return (
            "The highest price worth paying is what a bag saves elsewhere this season, weighed "
            f"with {mixes}. Above it the bag drops out of the plan."
        )
    return "What each bag is worth to this garden was not weighed."


def _row(
    bag: Bag, told: BagAnswer | None, worths: Mapping[str, BagWorth], question: BuyingQuestion
) -> BuyingRow:
    currency, units = question.answer.currency, question.garden.preferences.units
    worth = worths.get(bag.key)
    asked = "" if bag.price is None else show_money(bag.price, currency)
    return BuyingRow(
        bag=bag.name,
        weight=show_mass(bag.bag_kg or NONE, units),
        count=str(told.bought) if told else "",
        price=asked if question.prices else "",
        highest=_between(worth.worth, currency) if worth else "",
        why=_why(told, worth, question),
    )


def _between(worth: Between, currency: str) -> str:
    low, high = show_money(worth.low_money, currency), show_money(worth.high_money, currency)
    return low if low == high else f"{low} to {high}"


def _why(told: BagAnswer | None, worth: BagWorth | None, question: BuyingQuestion) -> str:
    if worth and question.worth and worth.buy:
        more = worth.value_without.high_money - question.worth.value.high_money
        return (
            f"without it the season comes to {show_money(more, question.answer.currency)} more"
            f"{_instead(worth, question.garden)}"
        )
    if worth and worth.worth_count:
        return (
            f"{worth.worth_count} of it at that price would pay{_instead(worth, question.garden)}"
        )
    if worth:
        return "even as a gift it would not better this season"
    assert told
    units = question.garden.preferences.units
    return f"{show_mass(told.used_kg, units)} of it is used, {show_mass(told.left_kg, units)} stays"


def _instead(worth: BagWorth, garden: Garden) -> str:
    names = {bag.key: bag.name for bag in garden.bags}
    others = ", ".join(f"{count} {names[key]}" for key, count in worth.replaces.items())
    return f", in place of {others}" if others else ""


def _notices(question: BuyingQuestion) -> Iterator[Notice]:
    if question.worth:
        yield from question.worth.notices
