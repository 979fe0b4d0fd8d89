"""The diary in words and rows: each line, each bed against its need, the money."""

from collections.abc import Iterator
from fractions import Fraction

from halfpail.application.read_diary import BedTotal, DiaryAnswer
from halfpail.application.season_answer import FitAnswer
from halfpail.application.word_mix import Table
from halfpail.application.word_season import given, rate
from halfpail.domain.bed import Fit
from halfpail.domain.diary import Bought, Event, Fed, Harvested, Made
from halfpail.domain.phosphorus_account import PhosphorusLine
from halfpail.quantities.rounding import decimal
from halfpail.quantities.showing import (
    show_mass,
    show_money,
    show_price_per_mass,
    show_scoops,
)
from halfpail.quantities.units import System

NOTHING = "-"
ENOUGH = "enough"
NONE = Fraction(0)


def event_words(event: Event, currency: str, units: System) -> str:
    """A line of the diary without its day.

    >>> from datetime import date
    >>> event_words(Harvested(on=date(2027, 8, 1), bed="East", crop="carrots",
    ...                       mass_kg=Fraction(2)), "USD", System.METRIC)
    'Harvested 2 kg of carrots from East.'
    """
    words = _what(event, currency, units)
    return f"{words} {event.note}".strip()


def _what(event: Event, currency: str, units: System) -> str:
    if isinstance(event, Made):
        parts = ", ".join(
            f"{one.scoops} scoop{'s' * (one.scoops != 1)} {one.bag}" for one in event.taken
        )
        rounds = f"{event.rounds} round{'s' * (event.rounds != 1)}"
        return f"Made {rounds} of {event.mix}: {parts}; {show_mass(event.mass_kg, units)}."
    if isinstance(event, Fed):
        amount = f"{show_scoops(event.scoops)} of {event.of}, {show_mass(event.mass_kg, units)}"
        return f"Fed {event.bed}: {amount}."
    if isinstance(event, Bought):
        bags = f"{event.bags} bag{'s' * (event.bags != 1)} of {event.bag}"
        each = show_mass(event.bag_kg, units)
        return f"Bought {bags}, {each} each, for {show_money(event.paid, currency)}."
    if isinstance(event, Harvested):
        return f"Harvested {show_mass(event.mass_kg, units)} of {event.crop} from {event.bed}."
    return f"{event.bed}:" if event.bed else ""


def totals_table(answer: DiaryAnswer, units: System) -> Table:
    """What each bed got so far, what it should get, and what it still wants."""
    rows = tuple(
        (
            total.bed.name,
            *_nutrient(total, "N", units),
            *_nutrient(total, "P2O5", units),
            rate(total.removed_kg_per_m2.p2o5, units),
            *_nutrient(total, "K2O", units),
        )
        for total in answer.beds
    )
    headings = ("bed", "usable N", "aim", "still wanted", "P2O5", "aim", "still wanted")
    return Table(headings=(*headings, "harvested", "K2O", "aim", "still wanted"), rows=rows)


def _nutrient(total: BedTotal, nutrient: str, units: System) -> tuple[str, str, str]:
    found = next((one for one in total.fits if one.need.nutrient == nutrient), None)
    if found is None:
        return (NOTHING, NOTHING, NOTHING)
    left = total.left_to_aim_kg_per_m2[nutrient]
    return (given(found, units), rate(found.need.aim, units), _still(found, left, units))


def _still(found: FitAnswer, left_kg_per_m2: Fraction, units: System) -> str:
    if found.word is Fit.TOO_MUCH:
        return str(Fit.TOO_MUCH)
    return rate(left_kg_per_m2, units) if left_kg_per_m2 else ENOUGH


def money_words(answer: DiaryAnswer, currency: str, units: System) -> Iterator[str]:
    """What was paid, what feeding cost, and what the same would have cost otherwise."""
    spent, fed, single = answer.spent, answer.fed, answer.in_single_bags
    yield f"Paid for bags: {show_money(spent.paid, currency)}."
    if spent.at_list:
        yield (
            f"Those with a list price would have been {show_money(spent.at_list, currency)} in "
            f"season: {show_money(spent.saved, currency)} saved."
        )
    if not fed.mass_kg:
        return
    each = "" if fed.cost_per_kg is None else _each(fed.cost_per_kg, currency, units)
    yield f"Fed: {show_mass(fed.mass_kg, units)}, worth {show_money(fed.cost, currency)}{each}."
    if fed.unpriced_kg:
        yield f"Of that {show_mass(fed.unpriced_kg, units)} has no price."
    if single.bags:
        bags = ", ".join(f"{nutrient} from {bag}" for nutrient, bag in single.bags.items())
        without = f" No such bag holds {', '.join(single.without)}." if single.without else ""
        yield (
            f"The same from single-purpose bags at list price: "
            f"{show_money(single.cost, currency)} ({bags}).{without}"
        )


def _each(cost_per_kg: Fraction, currency: str, units: System) -> str:
    return f", {show_price_per_mass(cost_per_kg, currency, units)}"


def cost_table(answer: DiaryAnswer, currency: str, units: System) -> Table:
    """What feeding each bed cost."""
    rows = tuple(
        (
            total.bed.name,
            show_mass(total.cost.mass_kg, units),
            show_money(total.cost.cost, currency),
            show_money(total.cost.saved, currency),
        )
        for total in answer.beds
        if total.fed
    )
    return Table(headings=("bed", "fed", "cost", "below list price"), rows=rows)


def account_table(lines: tuple[PhosphorusLine, ...], units: System) -> Table:
    """P2O5 of a bed year by year: given, taken by harvest, the balance, the test to be expected."""
    rows = tuple(
        (
            str(line.year.year),
            rate(line.year.given_kg_per_m2, units),
            rate(line.year.removed_kg_per_m2, units),
            rate(line.balance_kg_per_m2, units),
            NOTHING
            if line.expected_mg_per_kg is None
            else f"{decimal(line.expected_mg_per_kg, 0)} ppm",
        )
        for line in lines
    )
    headings = ("year", "P2O5 given", "taken by harvest", "balance", "test to expect")
    return Table(headings=headings, rows=rows)


def pails_words(answer: DiaryAnswer, units: System) -> tuple[str, ...]:
    """What should be left of each mix."""
    return tuple(
        f"{mix}: {show_mass(mass_kg, units)}"
        for mix, mass_kg in answer.left_in_pails_kg.items()
        if mass_kg > NONE
    )
