"""How much pure lime a bed needs: which method answers, and what else is published."""

from dataclasses import dataclass
from fractions import Fraction

from halfpail.application.lime_question import LimeQuestion
from halfpail.domain.lime import Outside, outside
from halfpail.domain.lime_buffer import (
    acidity_need,
    adams_evans_need,
    between,
    mehlich_acidity,
    mehlich_need,
    smp_need,
)
from halfpail.domain.lime_method import (
    Buffer,
    LimeMethod,
    LimeNeed,
    Span,
    Texture,
    Use,
    Validity,
)
from halfpail.domain.lime_table import row_of_acidity, row_of_buffer, table_need
from halfpail.domain.lime_texture import CarefulRate, careful_need
from halfpail.findings import Fault, Refusal
from halfpail.quantities.rounding import shortest
from halfpail.reference.hard_limits import hard_limit
from halfpail.reference.lime_rates import careful_rate, lime_by_texture
from halfpail.reference.lime_tables import (
    SIKORA_STEP,
    acidity_rows,
    lime_methods,
    methods_for,
    sikora_rows,
    smp_lines,
)
from halfpail.sources import Citation

NONE = Fraction(0)
CAREFUL_KEY = "careful"
_MOST_CEC = 13


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """A published amount [kg/m²] that is shown beside the answer, and why it is not used."""

    name: str
    low_kg_per_m2: Fraction
    high_kg_per_m2: Fraction
    reason: str
    citation: Citation


def lime_need(question: LimeQuestion, target_ph: Fraction) -> LimeNeed | None:
    """Pure calcium carbonate for a bed up to a target pH, with the method that says so.

    None where the soil needs a buffer test in any case.

    Raises:
        Refusal: no method holds for these figures, or the texture is missing.
    """
    if question.buffer is None:
        return _by_texture(question, target_ph)
    method = _method(question, target_ph)
    return LimeNeed(
        rate_kg_per_m2=need_by(method, question.buffer.value, question.soil_ph, target_ph),
        method=method,
    )


def need_by(
    method: LimeMethod, reading: Fraction, soil_ph: Fraction, target_ph: Fraction
) -> Fraction:
    """Pure calcium carbonate [kg/m²] by one method; nothing at or above the target."""
    if soil_ph >= target_ph:
        return NONE
    if method.key == "mehlich_nc":
        return mehlich_need(mehlich_acidity(reading), soil_ph, target_ph)
    if method.key == "acidity_pa":
        return acidity_need(reading, soil_ph, target_ph)
    if method.key == "acidity_pa_table":
        return table_need(row_of_acidity(acidity_rows(), reading), soil_ph, target_ph)
    if method.key == "adams_evans":
        return adams_evans_need(reading, soil_ph, target_ph)
    if method.key == "smp":
        return smp_need(reading, smp_lines(), soil_ph, target_ph)
    return table_need(row_of_buffer(sikora_rows(), reading, SIKORA_STEP), soil_ph, target_ph)


def published_beside(
    question: LimeQuestion, need: LimeNeed | None, target_ph: Fraction
) -> tuple[Published, ...]:
    """What else is published for this bed, in pure lime or ground limestone."""
    if question.soil_ph >= target_ph:
        return ()
    if question.buffer is None:
        return _published_by_texture(question)
    reading = question.buffer.value
    return tuple(
        Published(
            name=method.name,
            low_kg_per_m2=(rate := need_by(method, reading, question.soil_ph, target_ph)),
            high_kg_per_m2=rate,
            reason="another way to read the same test",
            citation=method.citation,
        )
        for method in methods_for(question.buffer.buffer)
        if need is not None
        and method != need.method
        and not outside(method, reading, question.soil_ph, target_ph)
    )


def careful_method(texture: Texture) -> LimeMethod | None:
    """The careful rate by texture as a method; None for soil that needs a buffer test."""
    rate = careful_rate(texture)
    if rate is None:
        return None
    return LimeMethod(
        key=CAREFUL_KEY,
        name=f"careful rate for {texture}, without a buffer test",
        buffer=None,
        validity=Validity(
            reading=Span(),
            soil_ph=Span(high=hard_limit("lime_no_buffer_ph").from_ph),
            target_ph=Span(high=rate.to_ph),
            condition="low on purpose; test again next year",
        ),
        citation=rate.citation,
    )


def _by_texture(question: LimeQuestion, target_ph: Fraction) -> LimeNeed | None:
    if question.texture is None:
        raise Refusal(
            Fault(
                place="texture",
                read="",
                sentence="Without a buffer test the texture of the soil must be known.",
                remedy="Write sand, sandy loam, loam, clay loam, clay or organic; or the buffer "
                "pH of the report and which buffer it is.",
            )
        )
    rate, method = careful_rate(question.texture), careful_method(question.texture)
    if rate is None or method is None:
        return None
    careful = CarefulRate(
        per_unit_kg_per_m2=rate.low / (rate.to_ph - rate.from_ph),
        most_kg_per_m2=hard_limit("lime_no_buffer").value,
        none_from_ph=hard_limit("lime_no_buffer_ph").from_ph or target_ph,
    )
    return LimeNeed(
        rate_kg_per_m2=careful_need(careful, question.soil_ph, target_ph), method=method
    )


def _method(question: LimeQuestion, target_ph: Fraction) -> LimeMethod:
    """The wished method, else the first of this buffer that holds for all the figures."""
    assert question.buffer is not None
    able = methods_for(question.buffer.buffer)
    if question.method:
        able = (_wished(question, able),)
    if question.soil_ph >= target_ph:
        return able[0]
    reading, soil_ph = question.buffer.value, question.soil_ph
    found = {method.key: outside(method, reading, soil_ph, target_ph) for method in able}
    holding = [method for method in able if not found[method.key]]
    if not holding:
        raise Refusal(*(_outside_fault(able[0], one) for one in found[able[0].key]))
    _check_cec(question, holding[0])
    return holding[0]


def _wished(question: LimeQuestion, able: tuple[LimeMethod, ...]) -> LimeMethod:
    method = lime_methods().get(question.method)
    if method is None or method not in able:
        raise Refusal(
            Fault(
                place="method",
                read=question.method,
                sentence="This method does not read that laboratory figure.",
                remedy=f"Write {' or '.join(one.key for one in able)}.",
            )
        )
    return method


def _check_cec(question: LimeQuestion, method: LimeMethod) -> None:
    cec = question.cec_meq_per_100_g
    if method.buffer is Buffer.ADAMS_EVANS and cec is not None and cec >= _MOST_CEC:
        raise Refusal(
            Fault(
                place="CEC",
                read=shortest(cec, 1),
                sentence="The Adams-Evans buffer is for soils of a CEC below 13.",
                remedy="Ask the laboratory for a lime figure by another buffer.",
            )
        )


def _outside_fault(method: LimeMethod, one: Outside) -> Fault:
    low, high = one.span.low, one.span.high
    span = " ".join(
        part
        for part in (
            f"from {shortest(low, 2)}" if low is not None else "",
            f"to {shortest(high, 2)}" if high is not None else "",
        )
        if part
    )
    return Fault(
        place=one.what,
        read=shortest(one.value, 2),
        sentence=f"{method.name} holds for a {one.what} {span}.",
        remedy="Follow the laboratory's own lime figure, or leave the buffer out and write the "
        "texture: the careful rate then answers.",
    )


def _published_by_texture(question: LimeQuestion) -> tuple[Published, ...]:
    tables: dict[str, dict[Fraction, Fraction]] = {}
    rates = [
        rate
        for rate in lime_by_texture()
        if rate.use is Use.SHOWN and rate.texture is question.texture
    ]
    for rate in rates:
        tables.setdefault(rate.system, {rate.to_ph: NONE})[rate.from_ph] = rate.low
    shown = []
    for system, by_ph in tables.items():
        if min(by_ph) <= question.soil_ph <= max(by_ph):
            first = next(rate for rate in rates if rate.system == system)
            amount = between(by_ph, question.soil_ph)
            shown.append(
                Published(
                    name=f"limestone for {question.texture} to pH {shortest(first.to_ph, 1)}",
                    low_kg_per_m2=amount,
                    high_kg_per_m2=amount,
                    reason=first.reason,
                    citation=first.citation,
                )
            )
    return tuple(shown)
