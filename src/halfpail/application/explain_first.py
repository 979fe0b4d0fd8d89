"""How the first answer is reached: limits, pounds, cups, pails and phosphorus, step by step."""

from collections.abc import Iterator
from fractions import Fraction

from halfpail.application.answer_first import MIX_KEY, FirstAnswer, FirstQuestion, Year
from halfpail.application.feed_ground import AIM, Portion
from halfpail.quantities.numerals import mixed
from halfpail.quantities.rounding import to_nearest
from halfpail.quantities.showing import (
    show_area,
    show_length,
    show_mass,
    show_money,
    show_percent,
    show_rate,
    show_volume,
)
from halfpail.quantities.units import System, size_of
from halfpail.reference.defaults import default
from halfpail.working import Step, Working

_HALF = Fraction(1, 2)


def plain_area(system: System) -> Fraction:
    """The ground that amounts are told for: 100 square feet, or 10 square metres [m²]."""
    return 100 * size_of("sq ft") if system is System.US else Fraction(10)


def row_length(system: System) -> Fraction:
    """The length of row that amounts are told for: 10 feet, or 3 metres [m]."""
    return 10 * size_of("ft") if system is System.US else Fraction(3)


def cups(volume_l: Fraction, system: System) -> str:
    """A volume in cups to the half, however many; below a cup, and in metric, as elsewhere [L].

    >>> cups(size_of("cup"), System.US), cups(21 * size_of("cup"), System.US)
    ('1 cup', '21 cups')
    """
    count = volume_l / size_of("cup")
    if system is System.METRIC or count < 1:
        return show_volume(volume_l, system)
    told = to_nearest(count, _HALF)
    return f"{mixed(told)} {'cup' if told == 1 else 'cups'}"


def first_working(answer: FirstAnswer, question: FirstQuestion) -> Working:
    """Every step of the first answer, the sum of the mix first."""
    steps = (*answer.sum.working, *limits_working(answer, question.system))
    return (*steps, *years_working(answer, question))


def limits_working(answer: FirstAnswer, system: System) -> Working:
    """The ranges and gates the ground is held to."""
    return tuple(_limits(answer, system))


def years_working(answer: FirstAnswer, question: FirstQuestion) -> Working:
    """What each way to feed comes to in a year."""
    steps = [*_year(answer.alone, answer, question, "The mix alone")]
    if answer.beside:
        steps += _year(answer.beside, answer, question, "The mix beside a straight nitrogen source")
    return tuple(steps)


def _limits(answer: FirstAnswer, system: System) -> Iterator[Step]:
    limits = answer.limits
    yield Step(
        reason="Usable N for crops of a medium need: least, aim, most.",
        sum=" / ".join(
            show_rate(one, system) for one in (limits.n.least, limits.n.aim, limits.n.most)
        ),
        citation=limits.n.citation,
    )
    times = default("label_n_times_usable_aim")
    yield Step(
        reason="The most label N, so that what comes later does no harm.",
        sum=f"{mixed(times.printed)} x {show_rate(limits.n.aim, system)}"
        f" = {show_rate(limits.label_n_most, system)}",
        citation=times.citation,
    )
    low, usual, high = (show_rate(one, system) for one in limits.p2o5_loss)
    yield Step(
        reason="P2O5 that a bed loses in a year.",
        sum=f"{usual}, between {low} and {high}",
        citation=default("p2o5_removal").citation,
    )


def _year(year: Year, answer: FirstAnswer, question: FirstQuestion, title: str) -> Iterator[Step]:
    system = question.system
    for portion in year.way.portions:
        yield _portion_step(portion, title, answer, system)
        yield from _spread_steps(portion, answer, question)
    given = year.way.given
    yield Step(
        reason=f"{title}: what the ground gets in the year.",
        sum=f"usable N {show_rate(given.n, system)}\nP2O5 {show_rate(given.p2o5, system)}\n"
        f"K2O {show_rate(given.k2o, system)}",
    )
    yield Step(
        reason="Doses: no more quick N in one than its limit.",
        sum=f"{show_rate(given.quick_n, system)} / "
        f"{show_rate(answer.limits.quick_n_per_dose, system)}: {year.way.doses}",
        citation=default("quick_n_per_dose").citation,
    )
    yield from _purchase_steps(year, question)


def _portion_step(portion: Portion, title: str, answer: FirstAnswer, system: System) -> Step:
    usable = show_percent(100 * portion.food.usable_n.typical, 2)
    rate = show_rate(portion.rate_kg_per_m2, system)
    gives = show_rate(portion.rate_kg_per_m2 * portion.food.usable_n.typical, system)
    if portion.food.key == MIX_KEY and portion.stopped_by == AIM:
        return Step(
            reason=f"{title}: the aim for usable N over the usable N of the mix.",
            sum=f"{show_rate(answer.limits.n.aim, system)} / {usable} = {rate}",
        )
    return Step(
        reason=f"{title}: {portion.food.name} up to {portion.stopped_by}.",
        sum=f"{rate} x {usable} usable N = {gives}",
    )


def _spread_steps(portion: Portion, answer: FirstAnswer, question: FirstQuestion) -> Iterator[Step]:
    system = question.system
    area, row = plain_area(system), row_length(system)
    weight = show_mass(portion.rate_kg_per_m2 * area, system)
    year = show_mass(portion.rate_kg_per_m2 * question.area_m2, system)
    yield Step(
        reason=f"{portion.food.name}: for the whole ground in the year.",
        sum=f"{weight} x {show_area(question.area_m2, system)} / {show_area(area, system)}"
        f" = {year}",
    )
    volume = portion.rate_l_per_m2
    yield Step(
        reason="The same by volume, on what a scoop weighs.",
        sum=f"{weight} = {cups(volume * area, system)} for {show_area(area, system)}",
    )
    plant, between = answer.plant_area_m2, answer.row_space_m
    yield Step(
        reason=f"One plant has {show_area(plant, system)} of ground.",
        sum=f"{cups(volume * area, system)} x {show_area(plant, system)} / "
        f"{show_area(area, system)} = {cups(volume * plant, system)}",
        citation=default("plant_space").citation,
    )
    yield Step(
        reason=f"{show_length(row, system)} of row, rows {show_length(between, system)} apart.",
        sum=f"{cups(volume * area, system)} x {show_area(row * between, system)} / "
        f"{show_area(area, system)} = {cups(volume * row * between, system)}",
        citation=default("row_space").citation,
    )


def _purchase_steps(year: Year, question: FirstQuestion) -> Iterator[Step]:
    for purchase in year.purchases:
        if purchase.bags is None or not purchase.needed_kg:
            continue
        weight = show_mass(purchase.bag.bag_kg or Fraction(0), question.system)
        money = purchase.money
        cost = "" if money is None else f", {show_money(money, question.currency)}"
        yield Step(
            reason=f"{purchase.bag.name}: whole bags.",
            sum=f"{show_mass(purchase.needed_kg, question.system)} / {weight}: "
            f"{purchase.bags}{cost}",
        )
