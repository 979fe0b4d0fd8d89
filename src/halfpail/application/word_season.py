"""A season plan in words and rows: the same on a terminal and on a page."""

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

from halfpail.application.chalk_sum import grade_number
from halfpail.application.date_season import DatedFeed
from halfpail.application.ports import SeasonProgress
from halfpail.application.season_answer import BedAnswer, FitAnswer, MixAnswer, SeasonAnswer
from halfpail.application.word_mix import Table
from halfpail.quantities.dates import day_words
from halfpail.quantities.rounding import decimal
from halfpail.quantities.showing import (
    REMEMBERED,
    show_mass,
    show_money,
    show_price_per_mass,
    show_rate,
    show_scoops,
    show_volume,
)
from halfpail.quantities.units import System, size_of

NONE = Fraction(0)


def progress_words(news: SeasonProgress, currency: str) -> str:
    """The best plan so far, and how much better one could still be.

    >>> progress_words(SeasonProgress(value=31.75, bound=30.95, seconds=1.0), "USD")
    'best plan so far $31.75, at most $0.80 better is possible'
    """
    if news.value is None:
        return "no plan yet"
    best = f"best plan so far {show_money(Fraction(news.value), currency)}"
    if news.bound is None:
        return best
    better = show_money(Fraction(max(0.0, news.value - news.bound)), currency)
    return f"{best}, at most {better} better is possible"


def in_short(answer: SeasonAnswer, units: System) -> str:
    """What to buy, stir and feed, in three sentences."""
    bought = [bag for bag in answer.bags if bag.bought]
    count = sum(bag.bought for bag in bought)
    spent = sum((bag.cost for bag in bought), NONE)
    saved = sum((bag.saved or NONE for bag in bought), NONE)
    fed = sum(1 for bed in answer.beds if bed.feeds)
    used_kg = sum((feed.mass_kg for bed in answer.beds for feed in bed.feeds), NONE)
    bags = counted(count, "bag", "bags")
    buy = f"Buy {bags} for {show_money(spent, answer.currency)}" if count else "Buy nothing"
    less = f", {show_money(saved, answer.currency)} below list price" if saved else ""
    return (
        f"{buy}{less}. Stir {counted(len(answer.mixes), 'mix', 'mixes')}. Feed {fed} of "
        f"{counted(len(answer.beds), 'bed', 'beds')} with {show_mass(used_kg, units)} in all."
    )


def mix_title(mix: MixAnswer) -> str:
    """The number of a mix and its grade as it may stand on the pail."""
    grade = "-".join(
        grade_number(number) for number in (mix.printed.n, mix.printed.p2o5, mix.printed.k2o)
    )
    return f"Mix {mix.number}: {grade}"


def stirring_words(mix: MixAnswer, units: System) -> str:
    """How much of a mix is stirred, in how many pails, and what stays of it."""
    if len(mix.round.parts) == 1:
        bag = mix.round.parts[0].bag.name
        return f"This is {bag} as it is: nothing to stir, {show_mass(mix.used_kg, units)} of it."
    pails = "" if mix.pails is None else f", in {counted(mix.pails, 'pail', 'pails')}"
    return (
        f"Stir {counted(mix.rounds, 'round', 'rounds')} of it: {show_mass(mix.made_kg, units)}, "
        f"{show_volume(mix.rounds * mix.round.volume_l, units)}{pails}. A half-full pail takes "
        f"{counted(mix.pailful.rounds, 'round', 'rounds')}. {_left(mix, units)}"
    )


def _left(mix: MixAnswer, units: System) -> str:
    if not mix.left_kg:
        return "The beds use all of it."
    return f"{show_mass(mix.left_kg, units)} of it is left for next time."


def phosphorus_with_n(mix: MixAnswer, units: System) -> str:
    """The P2O5 that comes with the usable N of a mix."""
    with_n = mix.round.p2o5_per_usable_n
    if with_n is None:
        return "It brings no usable N."
    if units is System.METRIC:
        return f"With each 10 g of usable N come {decimal(10 * with_n, 1)} g P2O5."
    return f"With each 0.1 lb of usable N comes {decimal(with_n / 10, 2)} lb P2O5."


def bag_table(answer: SeasonAnswer, units: System) -> Table:
    """Each bag: how many to buy, what for, what is used and left."""
    rows = []
    for told in answer.bags:
        per_kg = told.bag.price_per_kg
        rows.append(
            (
                told.bag.name,
                str(told.bought) if told.bought else "-",
                show_money(told.cost, answer.currency) if told.bought else "-",
                "-" if per_kg is None else show_price_per_mass(per_kg, answer.currency, units),
                show_mass(told.bag.shed_kg, units) if told.bag.shed_kg else "-",
                show_mass(told.used_kg, units),
                show_mass(told.left_kg, units),
            )
        )
    headings = ("bag", "buy", "cost", "price", "in shed", "used", "left over")
    return Table(headings=headings, rows=tuple(rows))


def feed_table(answer: SeasonAnswer, units: System) -> Table:
    """What each bed gets."""
    rows = []
    for bed in answer.beds:
        for number, feed in enumerate(bed.feeds):
            first = number == 0
            rows.append(
                (
                    bed.bed.name if first else "",
                    feed.name,
                    show_scoops(feed.scoops),
                    show_volume(feed.volume_l, units),
                    show_mass(feed.mass_kg, units),
                    f"{bed.doses}" if first else "",
                    show_money(bed.cost, answer.currency) if first else "",
                )
            )
        if not bed.feeds:
            rows.append((bed.bed.name, "nothing", "-", "-", "-", "-", "-"))
    headings = ("bed", "gets", "scoops", "volume", "weight", "doses", "worth")
    return Table(headings=headings, rows=tuple(rows))


def dates_table(feeds: tuple[DatedFeed, ...], units: System) -> Table:
    """What to give on which day, the day told once."""
    days = ["", *(day_words(feed.on) for feed in feeds)]
    rows = (
        (
            day if day != before else "",
            feed.bed,
            feed.food,
            show_scoops(feed.scoops),
            show_volume(feed.volume_l, units),
            show_mass(feed.mass_kg, units),
            "beside the rows" if feed.beside_rows else "worked in",
        )
        for feed, before, day in zip(feeds, days, days[1:], strict=False)
    )
    headings = ("day", "bed", "food", "scoops", "volume", "weight", "how")
    return Table(headings=headings, rows=tuple(rows))


def fit_table(answer: SeasonAnswer, units: System) -> Table:
    """What each bed gets of N, P2O5 and K2O beside its aim, and the word for it."""
    rows = [
        (
            bed.bed.name,
            *_nutrient(bed, "N", units),
            *_nutrient(bed, "P2O5", units),
            rate(bed.p2o5_removed_kg_per_m2, units),
            *_nutrient(bed, "K2O", units),
        )
        for bed in answer.beds
    ]
    headings = ("bed", "usable N", "aim", "fit", "P2O5", "aim", "fit", "lost a year")
    return Table(headings=(*headings, "K2O", "aim", "fit"), rows=tuple(rows))


def _nutrient(bed: BedAnswer, nutrient: str, units: System) -> tuple[str, str, str]:
    found = next((fit for fit in bed.fits if fit.need.nutrient == nutrient), None)
    if found is None:
        return ("-", "-", "-")
    return (given(found, units), rate(found.need.aim, units), str(found.word))


def given(found: FitAnswer, units: System) -> str:
    """What is given: for nitrogen the typical figure, for phosphorus all that reaches the soil."""
    is_p = found.need.nutrient == "P2O5"
    return rate(found.high_kg_per_m2 if is_p else found.typical_kg_per_m2, units)


@lru_cache(maxsize=REMEMBERED)
def rate(rate_kg_per_m2: Fraction, units: System) -> str:
    """A rate [kg/m²] as a number for a table, in the unit of `rate_unit`."""
    if units is System.METRIC:
        return decimal(rate_kg_per_m2 / size_of("g"), 1)
    return decimal(rate_kg_per_m2 / size_of("lb") * 100 * size_of("sq ft"), 2)


def rate_unit(units: System) -> str:
    """The unit of the rates in a table."""
    return show_rate(NONE, units).split(" ", 1)[1]


def money_lines(answer: SeasonAnswer, units: System) -> Iterator[str]:
    """What the plan costs, what it misses, and how much better one could be."""
    plan, currency = answer.plan, answer.currency
    yield f"Bags, and what is taken from the shed at its price: {show_money(plan.money, currency)}."
    yield (
        f"Beside the money, what is missed weighs {show_money(plan.missed, currency)}. That is no "
        "money: it is how much each miss counts against it."
    )
    per_mass = ((words, weight) for words, weight in answer.weights.items())
    yield "A miss weighs: " + "; ".join(
        f"{words} {show_price_per_mass(weight, currency, units)}" for words, weight in per_mass
    )
    share = decimal(100 * plan.gap, 1)
    yield (
        f"At most {show_money(answer.better_possible, currency)} better is possible ({share} % of "
        f"money and misses together), proven by {plan.proven_by}."
    )


def counted(count: int, one: str, many: str) -> str:
    """A number with the word for what is counted.

    >>> counted(1, "bag", "bags"), counted(2, "bag", "bags")
    ('1 bag', '2 bags')
    """
    return f"{count} {one if count == 1 else many}"
