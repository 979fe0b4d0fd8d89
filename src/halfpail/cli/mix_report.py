"""A mix as plain text: the sum as chalked, its bands, the round and the pail, one scoop more."""

from collections.abc import Iterator
from fractions import Fraction

from halfpail.application.chalk_sum import ChalkedSum, grade_number, grade_words
from halfpail.application.explain_mix import p2o5_words
from halfpail.application.sum_mix import MixQuestion, MixSum, Nudge
from halfpail.cli import printing
from halfpail.domain.band import Band
from halfpail.domain.label import Grade
from halfpail.domain.matter import PRIMARY
from halfpail.quantities.rounding import decimal, shortest
from halfpail.quantities.showing import show_mass, show_price_per_mass, show_scoops, show_volume
from halfpail.quantities.units import System


def mix_report(summed: MixSum, question: MixQuestion) -> str:
    """Everything but the notices and the working."""
    return "\n\n".join(
        (
            _mix(summed, question),
            f"{printing.heading('How far it may be off')}\n{_bands(summed, question)}",
            f"{printing.heading('One scoop more or less')}\n{_nudges(summed, question)}",
        )
    )


def chalked(total: ChalkedSum) -> str:
    """The sum as a table, a line above the total."""
    return printing.table(total.headings, total.all_rows)


def grade_text(grade: Grade) -> str:
    """The three numbers of a grade [percent], as they are printed."""
    return "-".join(shortest(number, 1) for number in (grade.n, grade.p2o5, grade.k2o))


def round_words(summed: MixSum, system: System) -> str:
    """What one round weighs and how many go into the pail."""
    mix, pail = summed.mix, summed.pail
    one = (
        f"One round of {show_scoops(mix.scoops)} is {show_volume(mix.volume_l, system)} and "
        f"weighs {show_mass(mix.mass_kg, system)}."
    )
    if not pail.rounds:
        return printing.paragraph(f"{one} It is too much for this pail.")
    rounds = f"{pail.rounds} round{'s' * (pail.rounds > 1)}"
    return printing.paragraph(
        f"{one} The pail takes {rounds}, {show_mass(pail.mass_kg, system)}, "
        f"and is then at most half full."
    )


def price_words(per_kg: Fraction | None, question: MixQuestion) -> str:
    """The price of a mix by weight."""
    if per_kg is None:
        return "price not known"
    return show_price_per_mass(per_kg, question.currency, question.system)


def _mix(summed: MixSum, question: MixQuestion) -> str:
    mix = summed.mix
    unit = "lb" if question.system is System.US else "kg"
    plain = "-".join(grade_number(100 * mix.by_volume.of(nutrient)) for nutrient in PRIMARY)
    lines = (
        f"{grade_words(mix)} by weight, {price_words(mix.cost_per_kg, question)}; "
        f"on a label it would be {grade_text(summed.printed)}.",
        f"If a scoop of every bag weighed the same it would be {plain}.",
        f"P2O5 that comes with 0.1 {unit} of usable N: {p2o5_words(mix)} {unit}.",
    )
    return "\n".join(
        (
            printing.heading("The mix"),
            *(printing.paragraph(line) for line in lines),
            "",
            chalked(summed.chalked),
            "",
            round_words(summed, question.system),
        )
    )


def _bands(summed: MixSum, question: MixQuestion) -> str:
    bands = summed.bands
    rows: list[tuple[str, ...]] = [
        (f"{nutrient}, %", *_tenths(band)) for nutrient, band in bands.shares.items()
    ]
    rows.append(("usable N, %", *_tenths(bands.usable_n)))
    rows.append(("one round", *_three(bands.mass_kg, question)))
    if bands.cost_per_kg:
        prices = (bands.cost_per_kg.low, bands.cost_per_kg.value, bands.cost_per_kg.high)
        rows.append(("price", *(price_words(price, question) for price in prices)))
    if bands.p2o5_per_usable_n:
        band = bands.p2o5_per_usable_n
        numbers = (band.low, band.value, band.high)
        rows.append(("P2O5 with 0.1 usable N", *(decimal(one / 10, 2) for one in numbers)))
    return printing.table(("", "least", "as summed", "most"), rows)


def _tenths(band: Band) -> tuple[str, str, str]:
    low, value, high = (grade_number(100 * one) for one in (band.low, band.value, band.high))
    return low, value, high


def _three(band: Band, question: MixQuestion) -> tuple[str, str, str]:
    low, value, high = (
        show_mass(one, question.system) for one in (band.low, band.value, band.high)
    )
    return low, value, high


def _nudges(summed: MixSum, question: MixQuestion) -> str:
    rows = [("as it is", *_numbers(None, summed, question))]
    rows += [(_change(nudge), *_numbers(nudge, summed, question)) for nudge in summed.nudges]
    headings = ("", *(str(nutrient) for nutrient in PRIMARY), "price", "P2O5 with 0.1 usable N")
    return printing.table(headings, rows)


def _change(nudge: Nudge) -> str:
    apart = " (keep it apart)" if nudge.apart else ""
    return f"one scoop {'more' if nudge.change > 0 else 'less'} of {nudge.bag.name}{apart}"


def _numbers(nudge: Nudge | None, summed: MixSum, question: MixQuestion) -> Iterator[str]:
    mix = nudge.mix if nudge else summed.mix
    yield from (grade_number(100 * mix.analysis.of(nutrient)) for nutrient in PRIMARY)
    yield price_words(mix.cost_per_kg, question)
    yield p2o5_words(mix)
