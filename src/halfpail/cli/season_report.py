"""The season plan as a page of plain text."""

from collections.abc import Iterator
from fractions import Fraction

from halfpail.application.chalk_sum import chalk_sum, grade_number
from halfpail.application.season_answer import BedAnswer, FitAnswer, MixAnswer, SeasonAnswer
from halfpail.cli import printing
from halfpail.domain.season import Unmet
from halfpail.quantities.rounding import decimal
from halfpail.quantities.showing import (
    show_mass,
    show_money,
    show_price_per_mass,
    show_rate,
    show_scoops,
    show_volume,
)
from halfpail.quantities.units import System, size_of

NONE = Fraction(0)


def season_text(answer: SeasonAnswer, units: System, with_working: bool = False) -> str:
    """The whole plan, from what to do first to what holds it back."""
    parts = [
        printing.heading(f"Season plan: {answer.garden}", "="),
        printing.paragraph(_in_short(answer, units)),
        *(f"{_mix_title(mix)}\n{_mix_text(mix, units)}" for mix in answer.mixes),
        printing.heading("Bags to buy, and what becomes of them"),
        _bag_table(answer, units),
        printing.heading("What each bed gets"),
        _feed_table(answer, units),
        printing.heading(f"How it fits, {rate_unit(units)}"),
        _fit_table(answer, units),
        printing.heading("What it costs, and how good a plan it is"),
        "\n".join(printing.paragraph(line, indent="  ") for line in _money_lines(answer, units)),
        printing.heading("What holds it back"),
        "\n".join(printing.paragraph(line, indent="  * ") for line in answer.held_back_by)
        or "  nothing",
        printing.heading("Mind"),
        printing.notices(answer.notices),
    ]
    if with_working:
        parts += [printing.heading("Working"), printing.working(answer.working)]
    return "\n\n".join(parts)


def unmet_text(unmet: Unmet) -> str:
    """Why there is no plan, and which limits would have to give how much."""
    lines = [printing.paragraph(unmet.sentence)]
    for give in unmet.gives:
        lines.append(
            printing.paragraph(f"{give.limit.plot}, {give.limit.because}: {give.reason}", "  * ")
        )
    return "\n".join(lines)


def _in_short(answer: SeasonAnswer, units: System) -> str:
    bought = [bag for bag in answer.bags if bag.bought]
    count = sum(bag.bought for bag in bought)
    spent = sum((bag.cost for bag in bought), NONE)
    saved = sum((bag.saved or NONE for bag in bought), NONE)
    fed = sum(1 for bed in answer.beds if bed.feeds)
    used_kg = sum((feed.mass_kg for bed in answer.beds for feed in bed.feeds), NONE)
    bags = _counted(count, "bag", "bags")
    buy = f"Buy {bags} for {show_money(spent, answer.currency)}" if count else "Buy nothing"
    less = f", {show_money(saved, answer.currency)} below list price" if saved else ""
    return (
        f"{buy}{less}. Stir {_counted(len(answer.mixes), 'mix', 'mixes')}. Feed {fed} of "
        f"{_counted(len(answer.beds), 'bed', 'beds')} with {show_mass(used_kg, units)} in all."
    )


def _mix_title(mix: MixAnswer) -> str:
    grade = "-".join(
        grade_number(number) for number in (mix.printed.n, mix.printed.p2o5, mix.printed.k2o)
    )
    return printing.heading(f"Mix {mix.number}: {grade}")


def _mix_text(mix: MixAnswer, units: System) -> str:
    chalked = chalk_sum(mix.round, units)
    return "\n".join(
        (
            printing.table(chalked.headings, chalked.all_rows),
            printing.paragraph(_stirring(mix, units), indent="  "),
            printing.paragraph(_phosphorus(mix, units), indent="  "),
        )
    )


def _stirring(mix: MixAnswer, units: System) -> str:
    if len(mix.round.parts) == 1:
        bag = mix.round.parts[0].bag.name
        return f"This is {bag} as it is: nothing to stir, {show_mass(mix.used_kg, units)} of it."
    pails = "" if mix.pails is None else f", in {_counted(mix.pails, 'pail', 'pails')}"
    return (
        f"Stir {_counted(mix.rounds, 'round', 'rounds')} of it: {show_mass(mix.made_kg, units)}, "
        f"{show_volume(mix.rounds * mix.round.volume_l, units)}{pails}. A half-full pail takes "
        f"{_counted(mix.pailful.rounds, 'round', 'rounds')}. {_left(mix, units)}"
    )


def _left(mix: MixAnswer, units: System) -> str:
    if not mix.left_kg:
        return "The beds use all of it."
    return f"{show_mass(mix.left_kg, units)} of it is left for next time."


def _phosphorus(mix: MixAnswer, units: System) -> str:
    with_n = mix.round.p2o5_per_usable_n
    if with_n is None:
        return "It brings no usable N."
    if units is System.METRIC:
        return f"With each 10 g of usable N come {decimal(10 * with_n, 1)} g P2O5."
    return f"With each 0.1 lb of usable N comes {decimal(with_n / 10, 2)} lb P2O5."


def _bag_table(answer: SeasonAnswer, units: System) -> str:
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
    return printing.table(headings, rows)


def _feed_table(answer: SeasonAnswer, units: System) -> str:
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
    return printing.table(headings, rows, left=2)


def _fit_table(answer: SeasonAnswer, units: System) -> str:
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
    return printing.table((*headings, "K2O", "aim", "fit"), rows)


def _nutrient(bed: BedAnswer, nutrient: str, units: System) -> tuple[str, str, str]:
    found = next((fit for fit in bed.fits if fit.need.nutrient == nutrient), None)
    if found is None:
        return ("-", "-", "-")
    return (given(found, units), rate(found.need.aim, units), str(found.word))


def given(found: FitAnswer, units: System) -> str:
    """What is given: for nitrogen the typical figure, for phosphorus all that reaches the soil."""
    is_p = found.need.nutrient == "P2O5"
    return rate(found.high_kg_per_m2 if is_p else found.typical_kg_per_m2, units)


def rate(rate_kg_per_m2: Fraction, units: System) -> str:
    """A rate [kg/m²] as a number for a table, in the unit of `rate_unit`."""
    if units is System.METRIC:
        return decimal(rate_kg_per_m2 / size_of("g"), 1)
    return decimal(rate_kg_per_m2 / size_of("lb") * 100 * size_of("sq ft"), 2)


def rate_unit(units: System) -> str:
    """The unit of the rates in a table."""
    return show_rate(NONE, units).split(" ", 1)[1]


def _money_lines(answer: SeasonAnswer, units: System) -> Iterator[str]:
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


def _counted(count: int, one: str, many: str) -> str:
    return f"{count} {one if count == 1 else many}"
