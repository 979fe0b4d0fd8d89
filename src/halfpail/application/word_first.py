"""The first answer in words and rows: the same on a terminal and a page."""

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction

from halfpail.application.answer_first import (
    MIX_KEY,
    BagPrice,
    FirstAnswer,
    FirstQuestion,
    Purchase,
    Year,
)
from halfpail.application.chalk_sum import grade_words
from halfpail.application.explain_first import cups, plain_area, row_length
from halfpail.application.explain_mix import p2o5_words
from halfpail.application.feed_ground import Portion
from halfpail.application.word_mix import Table, grade_text, weight_unit
from halfpail.domain.bed import Fit
from halfpail.domain.price import Verdict
from halfpail.quantities.rounding import shortest
from halfpail.quantities.showing import (
    show_area,
    show_length,
    show_mass,
    show_money,
    show_price_per_mass,
    show_rate,
)
from halfpail.quantities.units import System
from halfpail.reference.defaults import Default

Cell = Callable[[Year], str]


def opening_words(answer: FirstAnswer, question: FirstQuestion) -> str:
    """The grade, the price and the label of the mix."""
    summed = answer.sum
    price = summed.mix.cost_per_kg
    cost = (
        "its price is not known"
        if price is None
        else show_price_per_mass(price, question.currency, question.system)
    )
    return (
        f"{grade_words(summed.mix)} by weight, {cost}; on a label it would be "
        f"{grade_text(summed.printed)}."
    )


def phosphorus_words(answer: FirstAnswer, question: FirstQuestion) -> tuple[str, str]:
    """What comes beside what a bed loses, and what is better to do."""
    system, unit = question.system, weight_unit(question.system)
    low, _, high = (show_rate(one, system) for one in answer.limits.p2o5_loss)
    low = low.split()[0]
    usable = answer.sum.mix.p2o5_per_usable_n
    comes = f"With 0.1 {unit} of usable N come {p2o5_words(answer.sum.mix)} {unit} of P2O5."
    if not usable:
        comes = "There is no " + ("usable N" if usable is None else "P2O5") + " in this mix."
    return f"{comes} A bed loses about {low} to {high} in a year.", _advice(answer)


def give_words(answer: FirstAnswer, question: FirstQuestion) -> str:
    """What the ground should get in the year, of each food, and how often the pail is stirred."""
    year, system = answer.advised, question.system
    foods = [
        f"{show_mass(portion.rate_kg_per_m2 * question.area_m2, system)} of {portion.food.name}"
        for portion in year.way.portions
    ]
    ground = show_area(question.area_m2, system)
    if not foods:
        return f"Nothing is needed on {ground} this year."
    pails = f", {year.pails} pail{'s' * (year.pails > 1)} to stir" if year.pails else ""
    return f"A year on {ground}: {' and '.join(foods)}{pails}."


def ways_table(answer: FirstAnswer, question: FirstQuestion) -> Table:
    """A year of the mix alone, and beside a straight nitrogen source where that is better."""
    years = [answer.alone, *((answer.beside,) if answer.beside else ())]
    titles = ["mix alone", "mix and straight N (better)"][: len(years)]
    rows = [
        (words, *(cell(year) for year in years)) for words, cell in _rows(answer, question, years)
    ]
    return Table(headings=("", *titles), rows=tuple(rows))


def bags_table(answer: FirstAnswer, question: FirstQuestion) -> Table:
    """What each bag is worth and costs, and how many of it to buy."""
    prices = {price.bag.key: price for price in answer.prices}
    buy = ["mix alone", "better"][: 2 if answer.beside else 1]
    alone = {one.bag.key: one for one in answer.alone.purchases}
    rows = []
    for one in answer.advised.purchases:
        price = prices.get(one.bag.key)
        ways = [alone.get(one.bag.key), *([one] if answer.beside else [])]
        bought = [_buy(purchase, question.system) for purchase in ways]
        rows.append((one.bag.name, *_price(price, question), *bought, _verdict(price)))
    headings = ("bag", "worth at most", "price", "of usable N", *buy, "")
    return Table(headings=headings, rows=tuple(rows))


def assumed_words(one: Default, question: FirstQuestion) -> str:
    """What an assumed number means, and the number in the reader's units."""
    return f"{one.meaning}: {_default(one, question)}."


def _advice(answer: FirstAnswer) -> str:
    alone, beside = answer.alone.way, answer.beside
    if beside is None:
        return "The mix alone will do: it brings no more phosphorus than the ground may get."
    names = [portion.food.name for portion in beside.way.portions]
    straight = [name for name in names if name != MIX_KEY]
    if MIX_KEY not in names:
        return f"None of this mix is needed, so don't buy it: give {' and '.join(straight)} alone."
    years = alone.years_to_stop
    builds = (
        f" The mix alone would reach the phosphorus stop in {years} year{'s' * (years > 1)}."
        if years and alone.p2o5_fit is Fit.TOO_MUCH
        else ""
    )
    beside_it = f" and {' and '.join(straight)} beside it" if straight else ""
    return f"Better: only as much of the mix as its phosphorus allows{beside_it}.{builds}"


def _rows(
    answer: FirstAnswer, question: FirstQuestion, years: Sequence[Year]
) -> Iterator[tuple[str, Cell]]:
    system, currency = question.system, question.currency
    for name in dict.fromkeys(p.food.name for year in years for p in year.way.portions):
        yield f"{name}, in all", _mass(name, question.area_m2, system)
        yield from _spread_rows(name, answer, system)
    yield "doses, an equal share each", lambda year: str(year.way.doses)
    yield "pails to stir", lambda year: "none fits" if year.pails is None else str(year.pails)
    yield "usable N given", lambda year: _got(year.way.given.n, year.way.n_fit, system)
    yield "P2O5 given", lambda year: _got(year.way.given.p2o5, year.way.p2o5_fit, system)
    yield "K2O given", lambda year: _got(year.way.given.k2o, year.way.k2o_fit, system)
    yield "what holds it back", lambda year: _held(year)
    yield "whole bags cost", lambda year: _money(year, currency)


def _spread_rows(name: str, answer: FirstAnswer, system: System) -> Iterator[tuple[str, Cell]]:
    area, row = plain_area(system), row_length(system)
    yield f"  for {show_area(area, system)}", _mass(name, area, system)
    yield "  that is", _volume(name, area, system)
    yield "  for one plant", _volume(name, answer.plant_area_m2, system)
    ground = row * answer.row_space_m
    yield f"  for {show_length(row, system)} of row", _volume(name, ground, system)


def _mass(name: str, area_m2: Fraction, system: System) -> Cell:
    return _of(name, lambda portion: show_mass(portion.rate_kg_per_m2 * area_m2, system))


def _volume(name: str, area_m2: Fraction, system: System) -> Cell:
    return _of(name, lambda portion: cups(portion.rate_l_per_m2 * area_m2, system))


def _of(name: str, show: Callable[[Portion], str]) -> Cell:
    """What one food's portion comes to in a year; none where it has no portion."""
    return lambda year: next(
        (show(portion) for portion in year.way.portions if portion.food.name == name), "none"
    )


def _got(given: Fraction, word: Fit, system: System) -> str:
    return f"{show_rate(given, system)}, {word}"


def _held(year: Year) -> str:
    return "; ".join(portion.stopped_by for portion in year.way.portions) or "nothing is needed"


def _money(year: Year, currency: str) -> str:
    known = [show_money(year.money, currency)] if year.money or not year.unpriced else []
    return " and ".join((*known, *(f"the price of {name}" for name in year.unpriced)))


def _verdict(price: BagPrice | None) -> str:
    if price is None:
        return ""
    if price.view.verdict is not Verdict.ABOVE:
        return str(price.view.verdict)
    return f"{price.view.verdict}: " + ("cheapest N here" if price.cheapest_n else "don't buy")


def _price(price: BagPrice | None, question: FirstQuestion) -> tuple[str, str, str]:
    if price is None:
        return ("", "not known", "")
    currency, system = question.currency, question.system
    usable = price.view.per_kg_usable_n
    return (
        show_money(price.highest, currency),
        show_price_per_mass(price.view.per_kg, currency, system),
        "none" if usable is None else show_price_per_mass(usable, currency, system),
    )


def _buy(purchase: Purchase | None, system: System) -> str:
    if purchase is None or not purchase.needed_kg:
        return "none needed"
    if purchase.bags is None:
        return show_mass(purchase.needed_kg, system)
    return f"{purchase.bags} bag{'s' * (purchase.bags != 1)}"


def _default(one: Default, question: FirstQuestion) -> str:
    """An assumed number in the reader's units."""
    system, currency = question.system, question.currency
    ways: dict[str, Callable[[Fraction], str]] = {
        "kg per m2": lambda value: show_rate(value, system),
        "m2": lambda value: show_area(value, system),
        "m": lambda value: show_length(value, system),
        "dollars per kg": lambda value: show_price_per_mass(value, currency, system),
    }
    if one.unit in ways:
        return ways[one.unit](one.value)
    return f"{shortest(one.printed, 2)} {one.printed_unit}"
