"""A mix in words and rows: the same on a terminal, a page and paper."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from halfpail.application.chalk_sum import grade_number, grade_words
from halfpail.application.explain_mix import p2o5_words
from halfpail.application.sum_mix import MixQuestion, MixSum, Nudge
from halfpail.domain.band import Band
from halfpail.domain.label import Grade
from halfpail.domain.matter import PRIMARY
from halfpail.quantities.rounding import decimal, shortest
from halfpail.quantities.showing import show_mass, show_price_per_mass, show_scoops, show_volume
from halfpail.quantities.units import System


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Rows of cells in words; each row is as long as `headings`."""

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def weight_unit(system: System) -> str:
    """The unit that P2O5 beside usable N is told in.

    >>> weight_unit(System.US)
    'lb'
    """
    return "lb" if system is System.US else "kg"


def grade_text(grade: Grade) -> str:
    """The three numbers of a grade [percent], as they are printed.

    >>> grade_text(Grade(n=Fraction(5), p2o5=Fraction(7, 2), k2o=Fraction(3)))
    '5-3.5-3'
    """
    return "-".join(shortest(number, 1) for number in (grade.n, grade.p2o5, grade.k2o))


def price_words(per_kg: Fraction | None, question: MixQuestion) -> str:
    """The price of a mix by weight [money per kg]."""
    if per_kg is None:
        return "price not known"
    return show_price_per_mass(per_kg, question.currency, question.system)


def round_words(summed: MixSum, system: System) -> str:
    """What one round weighs and how many go into the pail."""
    mix, pail = summed.mix, summed.pail
    one = (
        f"One round of {show_scoops(mix.scoops)} is {show_volume(mix.volume_l, system)} and "
        f"weighs {show_mass(mix.mass_kg, system)}."
    )
    if not pail.rounds:
        return f"{one} It is too much for this pail."
    rounds = f"{pail.rounds} round{'s' * (pail.rounds > 1)}"
    return (
        f"{one} The pail takes {rounds}, {show_mass(pail.mass_kg, system)}, "
        f"and is then at most half full."
    )


def mix_lines(summed: MixSum, question: MixQuestion) -> tuple[str, ...]:
    """The grade with its price, the grade if scoops weighed the same, and the phosphorus."""
    mix = summed.mix
    unit = weight_unit(question.system)
    plain = "-".join(grade_number(100 * mix.by_volume.of(nutrient)) for nutrient in PRIMARY)
    return (
        f"{grade_words(mix)} by weight, {price_words(mix.cost_per_kg, question)}; "
        f"on a label it would be {grade_text(summed.printed)}.",
        f"If a scoop of every bag weighed the same it would be {plain}.",
        f"P2O5 that comes with 0.1 {unit} of usable N: {p2o5_words(mix)} {unit}.",
    )


def band_table(summed: MixSum, question: MixQuestion) -> Table:
    """How far each number of a mix may be off."""
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
    return Table(headings=("", "least", "as summed", "most"), rows=tuple(rows))


def nudge_table(summed: MixSum, question: MixQuestion) -> Table:
    """The mix as it is, and with one scoop more or less of each bag."""
    rows = [("as it is", *_numbers(None, summed, question))]
    rows += [(nudge_words(nudge), *_numbers(nudge, summed, question)) for nudge in summed.nudges]
    headings = ("", *(str(nutrient) for nutrient in PRIMARY), "price", "P2O5 with 0.1 usable N")
    return Table(headings=headings, rows=tuple(rows))


def nudge_words(nudge: Nudge) -> str:
    """Which scoop is put in or taken out."""
    apart = " (keep it apart)" if nudge.apart else ""
    return f"one scoop {'more' if nudge.change > 0 else 'less'} of {nudge.bag.name}{apart}"


def _numbers(nudge: Nudge | None, summed: MixSum, question: MixQuestion) -> Iterator[str]:
    mix = nudge.mix if nudge else summed.mix
    yield from (grade_number(100 * mix.analysis.of(nutrient)) for nutrient in PRIMARY)
    yield price_words(mix.cost_per_kg, question)
    yield p2o5_words(mix)


def _tenths(band: Band) -> tuple[str, str, str]:
    low, value, high = (grade_number(100 * one) for one in (band.low, band.value, band.high))
    return low, value, high


def _three(band: Band, question: MixQuestion) -> tuple[str, str, str]:
    low, value, high = (
        show_mass(one, question.system) for one in (band.low, band.value, band.high)
    )
    return low, value, high
