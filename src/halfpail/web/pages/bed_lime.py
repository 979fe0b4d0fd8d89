"""Lime, sulfur and salts for a bed, in rows and words."""

from collections.abc import Iterator
from dataclasses import dataclass

from halfpail.application.advise_lime import LimeAnswer, Spread, advise_lime, limes
from halfpail.application.explain_lime import lime_working
from halfpail.application.lime_notices import lime_notices
from halfpail.application.lime_question import LimeQuestion
from halfpail.application.word_mix import Table
from halfpail.findings import Notice, Refusal, loudest_first
from halfpail.quantities.rounding import shortest
from halfpail.quantities.showing import show_mass, show_rate
from halfpail.web.forms.fields import said
from halfpail.working import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class LimeSheet:
    """What a bed gets for its pH, calcium and magnesium; or in `opening` why nobody can say."""

    opening: str
    spreads: Table | None = None
    lines: tuple[str, ...] = ()
    notices: tuple[Notice, ...] = ()
    working: Working = ()


def lime_sheet(question: LimeQuestion) -> LimeSheet:
    """The advice for one bed."""
    try:
        answer = advise_lime(question)
    except Refusal as refusal:
        return LimeSheet(opening=" ".join(said(fault) for fault in refusal.faults))
    return LimeSheet(
        opening=_opening(answer, question),
        spreads=_spreads(answer, question) if answer.spreads else None,
        lines=tuple(_lines(answer, question)),
        notices=loudest_first(lime_notices(answer, question)),
        working=lime_working(answer, question),
    )


def _opening(answer: LimeAnswer, question: LimeQuestion) -> str:
    ph, target = shortest(question.soil_ph, 2), shortest(answer.target_ph, 2)
    if answer.need is None:
        asked = limes(question, answer.target_ph)
        words = "No lime without a buffer test." if asked else "No lime is needed."
    elif not answer.need.rate_kg_per_m2:
        words = f"No lime is needed, by {answer.need.method.name}."
    else:
        wanted = show_rate(answer.wanted_kg_per_m2, question.system)
        words = f"{wanted} of pure lime, by {answer.need.method.name}."
    return f"The soil has pH {ph}, the bed is to have pH {target}. {words}"


def _spreads(answer: LimeAnswer, question: LimeQuestion) -> Table:
    rows = tuple(_spread(one, question) for one in answer.spreads)
    return Table(headings=("to spread", "each time", "on the bed", "times", "why"), rows=rows)


def _spread(spread: Spread, question: LimeQuestion) -> tuple[str, ...]:
    spreading, times = spread.spreading, "once"
    if spreading.parts > 1:
        times = f"{spreading.parts}, {spreading.months_apart} months apart"
    rate = show_rate(spreading.part_kg_per_m2, question.system)
    weight = show_mass(spread.part_kg, question.system)
    return (spread.material.name, rate, weight, times, spread.because)


def _lines(answer: LimeAnswer, question: LimeQuestion) -> Iterator[str]:
    for one in answer.spreads:
        if one.spreading.waits_kg_per_m2:
            waits = show_rate(one.spreading.waits_kg_per_m2, question.system)
            yield f"{one.material.name}: {waits} more only after a new soil test."
    if answer.ash:
        rate = show_rate(answer.ash.spreading.part_kg_per_m2, question.system)
        weight = show_mass(answer.ash.part_kg, question.system)
        yield f"Wood ash in place of lime: up to {rate} this year, {weight} on the bed."
    for other in answer.published:
        low, high = (
            show_rate(rate, question.system) for rate in (other.low_kg_per_m2, other.high_kg_per_m2)
        )
        span = low if low == high else f"{low} to {high}"
        yield f"Published, not used: {other.name}, {span} ({other.reason})."
