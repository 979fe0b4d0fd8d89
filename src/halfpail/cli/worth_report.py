"""What each bag is worth, as a page of plain text."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from halfpail.application.buy_within_budget import BudgetPoint, BuyingList
from halfpail.application.group_same_stuff import PriceSpread, SameStuff
from halfpail.application.look_inside import Inside, PartInside
from halfpail.application.weigh_bag import Between
from halfpail.application.weigh_worth import Advice, BagWorth, WorthAnswer
from halfpail.cli import printing
from halfpail.quantities.rounding import decimal
from halfpail.quantities.showing import show_money, show_price_per_mass
from halfpail.quantities.units import System

_WORTH_TELLING = Fraction(1, 200)


def worth_text(answer: WorthAnswer, units: System) -> str:
    """What every bag is worth, what to buy today, and which bags are the same stuff."""
    currency = answer.currency
    parts = [
        printing.heading(f"What the bags are worth: {answer.garden}", "="),
        printing.paragraph(_in_short(answer)),
        _worth_table(answer, units),
        printing.heading("What each replaces"),
        "\n".join(_replaced_lines(answer)) or "  nothing",
        printing.heading("What to buy today"),
        "\n".join(_buying_lines(answer.buying, currency)),
    ]
    if answer.same_stuff:
        lines = [_same_line(group, currency, units) for group in answer.same_stuff]
        parts += [printing.heading("The same stuff under other names"), "\n".join(lines)]
    return "\n\n".join(parts)


def curve_text(curve: Sequence[BudgetPoint], currency: str) -> str:
    """What the season comes to for more and less money."""
    return f"{printing.heading('What more money would do')}\n\n{_curve_table(curve, currency)}"


def inside_text(inside: Inside) -> str:
    """What is likely in one bag."""
    rows = [
        (part.name, _percent(part.likely_share), _range(part))
        for part in inside.parts
        if part.material or part.likely_share >= _WORTH_TELLING
    ]
    lines = [printing.paragraph(f"{inside.bag}: {inside.sentence}")]
    if rows:
        lines.append(printing.table(("source", "likely", "the label allows"), rows))
    if inside.notices:
        lines.append(printing.notices(inside.notices))
    return "\n".join(lines)


def _percent(share: Fraction) -> str:
    return f"{decimal(100 * share, 0)} %"


def _range(part: PartInside) -> str:
    if part.least_share is None or part.most_share is None:
        return ""
    return f"{decimal(100 * part.least_share, 0)} to {_percent(part.most_share)}"


def _in_short(answer: WorthAnswer) -> str:
    mixes = "one mix" if answer.mixes == 1 else f"{answer.mixes} mixes"
    return (
        f"Highest price worth paying for each bag in this garden with {mixes}, with all the other "
        "bags at today's prices. Above it the bag drops out of the plan."
    )


def _worth_table(answer: WorthAnswer, units: System) -> str:
    currency = answer.currency
    return printing.table(
        ("bag", "price", "highest price worth paying", "by weight", "today"),
        (
            (
                worth.bag,
                "" if worth.price is None else show_money(worth.price, currency),
                _between(worth.worth, currency),
                show_price_per_mass(worth.worth_per_kg, currency, units),
                _today(worth),
            )
            for worth in answer.bags
        ),
    )


def _replaced_lines(answer: WorthAnswer) -> Iterator[str]:
    currency = answer.currency
    for worth in answer.bags:
        others = ", ".join(f"{count} {key}" for key, count in worth.replaces.items())
        extra = worth.value_without.high_money - answer.value.high_money
        if worth.buy:
            told = f"without it the season comes to {show_money(extra, currency)} more"
            told += f", with {others} instead" if others else ""
        elif others:
            told = f"{worth.worth_count} of it at that price would replace {others}"
        else:
            continue
        yield printing.paragraph(f"{worth.bag}: {told}.", indent="  * ")


def _today(worth: BagWorth) -> str:
    if worth.advice is Advice.BUY and worth.buy:
        return f"buy {worth.buy}"
    return worth.advice.value


def _between(amount: Between, currency: str) -> str:
    low, high = show_money(amount.low_money, currency), show_money(amount.high_money, currency)
    return low if amount.is_exact else f"between {low} and {high}"


def _buying_lines(buying: BuyingList, currency: str) -> Iterator[str]:
    for line in buying.purchases:
        cost = show_money(line.cost, currency)
        saved = "" if not line.saved_money else f", {show_money(line.saved_money, currency)} saved"
        yield f"  {line.count} x {line.bag} at {show_money(line.price, currency)}: {cost}{saved}"
    if not buying.purchases:
        yield "  nothing"
        return
    yield f"  in all {show_money(buying.cost, currency)}"
    if buying.left_of_budget is not None:
        yield f"  left of the budget {show_money(buying.left_of_budget, currency)}"


def _curve_table(curve: Sequence[BudgetPoint], currency: str) -> str:
    return printing.table(
        ("budget from", "spent", "weight of misses", "both", "at most better", "buy"),
        (
            (
                show_money(point.budget, currency),
                show_money(point.cost, currency),
                show_money(point.missed, currency),
                show_money(point.value, currency),
                show_money(point.value - point.bound, currency),
                ", ".join(f"{n} {key}" for key, n in point.purchases.items()) or "nothing",
            )
            for point in _turns(curve)
        ),
        left=0,
    )


def _turns(curve: Sequence[BudgetPoint]) -> Iterator[BudgetPoint]:
    """The points at which the plan changes."""
    before = None
    for point in curve:
        if point.purchases != before:
            yield point
        before = point.purchases


def _same_line(group: SameStuff, currency: str, units: System) -> str:
    def spread(prices: PriceSpread) -> str:
        low = show_price_per_mass(prices.lowest_price_per_kg, currency, units)
        high = show_price_per_mass(prices.highest_price_per_kg, currency, units)
        return f"{low} to {high}"

    text = f"{', '.join(group.bags)}: {group.same_in.value}."
    if group.by_weight:
        text += f" {spread(group.by_weight)}"
        if group.by_usable_n:
            text += f"; usable N {spread(group.by_usable_n)}"
        text += f". Cheapest: {group.cheapest}."
    return printing.paragraph(text, indent="  * ")
