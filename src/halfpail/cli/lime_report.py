"""What a bed gets for its pH, calcium and magnesium, as plain text."""

from collections.abc import Iterator
from fractions import Fraction

from halfpail.application.advise_lime import LimeAnswer, Spread, limes
from halfpail.application.explain_lime import lime_working
from halfpail.application.lime_notices import lime_notices
from halfpail.application.lime_question import LimeQuestion
from halfpail.application.word_mix import grade_text
from halfpail.cli import printing
from halfpail.domain.matter import Nutrient
from halfpail.quantities.rounding import shortest
from halfpail.quantities.showing import show_area, show_mass, show_rate


def lime_report(answer: LimeAnswer, question: LimeQuestion) -> str:
    """Everything but the notices and the working."""
    parts = [_need(answer, question), _spreads(answer, question)]
    if answer.ash:
        parts.append(_ash(answer.ash, question))
    parts.append(_calcium(answer, question))
    if answer.pail:
        parts.append(_pail(answer, question))
    if answer.published:
        parts.append(_published(answer, question))
    return "\n\n".join(parts)


def _need(answer: LimeAnswer, question: LimeQuestion) -> str:
    area = show_area(question.area_m2, question.system)
    title = printing.heading(
        f"pH {_ph(question.soil_ph)} on {area}, to be pH {_ph(answer.target_ph)}"
    )
    return f"{title}\n{printing.paragraph(_need_words(answer, question))}"


def _need_words(answer: LimeAnswer, question: LimeQuestion) -> str:
    if answer.need is None:
        asked = limes(question, answer.target_ph)
        return "No lime without a buffer test." if asked else "No lime is needed."
    rate = show_rate(answer.need.rate_kg_per_m2, question.system)
    words = f"{rate} of pure lime, by {answer.need.method.name}."
    if answer.for_depth_kg_per_m2 != answer.need.rate_kg_per_m2:
        words += f" For your depth {show_rate(answer.for_depth_kg_per_m2, question.system)}."
    if answer.credit_kg_per_m2:
        credit = show_rate(answer.credit_kg_per_m2, question.system)
        wanted = show_rate(answer.wanted_kg_per_m2, question.system)
        words += f" Earlier lime still to act: {credit}; still wanted: {wanted}."
    if not answer.need.rate_kg_per_m2:
        words = f"No lime is needed, by {answer.need.method.name}."
    return words


def _spreads(answer: LimeAnswer, question: LimeQuestion) -> str:
    title = printing.heading("To spread")
    if not answer.spreads:
        words = "Wood ash, as below." if answer.ash and answer.value.is_ash else "Nothing."
        return f"{title}\n{printing.paragraph(words)}"
    headings = ("", "each time", "on the bed", "times", "why")
    rows = [_row(spread, question) for spread in answer.spreads]
    waits = [
        printing.paragraph(_waits(one, question))
        for one in answer.spreads
        if one.spreading.waits_kg_per_m2
    ]
    return "\n".join((title, printing.table(headings, rows), *waits))


def _row(spread: Spread, question: LimeQuestion) -> tuple[str, ...]:
    spreading = spread.spreading
    times = "once"
    if spreading.parts > 1:
        times = f"{spreading.parts}, {spreading.months_apart} months apart"
    return (
        spread.material.name,
        show_rate(spreading.part_kg_per_m2, question.system),
        show_mass(spread.part_kg, question.system),
        times,
        spread.because,
    )


def _waits(spread: Spread, question: LimeQuestion) -> str:
    waits = show_rate(spread.spreading.waits_kg_per_m2, question.system)
    return f"{spread.material.name}: {waits} more only after a new soil test."


def lime_document(answer: LimeAnswer, question: LimeQuestion) -> dict[str, object]:
    """The answer for a program, with what each spreading weighs on the bed."""
    spreads = [*answer.spreads, *([answer.ash] if answer.ash else [])]
    return {
        "answer": answer,
        "on_the_bed_kg": {spread.material.key: spread.part_kg for spread in spreads},
        "notices": lime_notices(answer, question),
        "working": lime_working(answer, question),
    }


def _ash(ash: Spread, question: LimeQuestion) -> str:
    spreading = ash.spreading
    rate = show_rate(spreading.part_kg_per_m2, question.system)
    mass = show_mass(ash.part_kg, question.system)
    words = f"In place of lime, up to {rate} this year, {mass} on the bed; no lime beside it."
    if spreading.waits_kg_per_m2:
        words += " That is less than the soil wants: it is the most for a year."
    return f"{printing.heading('Wood ash')}\n{printing.paragraph(words)}"


def _calcium(answer: LimeAnswer, question: LimeQuestion) -> str:
    system = question.system
    lines = list(_supplies(answer, question))
    low = min(crop.calcium_kg_per_m2 for crop in answer.crops)
    high = max(crop.calcium_kg_per_m2 for crop in answer.crops)
    lines.append(
        f"A crop holds about {show_rate(low, system).split()[0]} to {show_rate(high, system)} of "
        f"calcium. The soil test says of calcium: {question.calcium}; of magnesium: "
        f"{question.magnesium}."
    )
    return "\n".join(
        (printing.heading("Calcium"), *(printing.paragraph(line, indent="  * ") for line in lines))
    )


def _supplies(answer: LimeAnswer, question: LimeQuestion) -> Iterator[str]:
    for spread in answer.spreads:
        calcium, magnesium = spread.brings(Nutrient.CA), spread.brings(Nutrient.MG)
        brings = [
            f"{show_rate(amount, question.system)} of {word}"
            for amount, word in ((calcium, "calcium"), (magnesium, "magnesium"))
            if amount
        ]
        if brings:
            yield f"{spread.material.name} brings {' and '.join(brings)}."
    if question.pail and (share := question.pail.analysis.of(Nutrient.CA)):
        rate = share * question.pail.rate_kg_per_m2 * (1 - question.pail.lime_share)
        yield f"The mix brings {show_rate(rate, question.system)} of calcium."


def _pail(answer: LimeAnswer, question: LimeQuestion) -> str:
    assert answer.pail is not None
    assert question.pail is not None
    system = question.system
    share = shortest(100 * question.pail.lime_share, 1)
    grade = grade_text(question.pail.analysis.grade)
    mix, lime = (
        show_rate(rate, system)
        for rate in (question.pail.rate_kg_per_m2, answer.pail.lime_kg_per_m2)
    )
    words = (
        f"With {share} % of lime in it a {grade} is {grade_text(answer.pail.grade)}. Spread at "
        f"{mix} it brings {lime} of lime{_of_the_wanted(answer)}: a few pounds in a pail change no "
        "pH to speak of. Ground limestone goes with meals if it is spread the same day; hydrated "
        "lime and ash never share a pail with what gives off ammonia."
    )
    return f"{printing.heading('Lime in the pail')}\n{printing.paragraph(words)}"


def _of_the_wanted(answer: LimeAnswer) -> str:
    if not answer.wanted_kg_per_m2 or answer.pail is None:
        return ""
    share = 100 * answer.pail.lime_kg_per_m2 / answer.wanted_kg_per_m2
    return f", {shortest(share, 0)} % of what the bed wants"


def _published(answer: LimeAnswer, question: LimeQuestion) -> str:
    lines = (
        printing.paragraph(
            f"{one.name}: {_span(one.low_kg_per_m2, one.high_kg_per_m2, question)} "
            f"({one.reason}).{printing.cited(one.citation)}",
            indent="  * ",
        )
        for one in answer.published
    )
    return "\n".join((printing.heading("Published, not used"), *lines))


def _span(low: Fraction, high: Fraction, question: LimeQuestion) -> str:
    if low == high:
        return show_rate(low, question.system)
    return f"{show_rate(low, question.system).split()[0]} to {show_rate(high, question.system)}"


def _ph(value: Fraction) -> str:
    return shortest(value, 2)
