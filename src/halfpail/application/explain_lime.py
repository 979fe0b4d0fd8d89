"""How an answer about lime is reached, step by step, with pencil and paper."""

from collections.abc import Callable, Iterator
from fractions import Fraction

from halfpail.application.advise_lime import LimeAnswer, Spread, credit_key, limes
from halfpail.application.lime_need import CAREFUL_KEY
from halfpail.application.lime_question import LimeQuestion
from halfpail.application.sulfur_for_bed import sulfur_wanted
from halfpail.domain.lime_buffer import goals_beside, mehlich_acidity, unsaturation
from halfpail.domain.lime_table import row_of_acidity, row_of_buffer
from halfpail.domain.matter import Nutrient
from halfpail.quantities.rounding import shortest
from halfpail.quantities.showing import show_mass, show_rate
from halfpail.quantities.units import size_of
from halfpail.reference.defaults import default
from halfpail.reference.hard_limits import hard_limit
from halfpail.reference.lime_rates import careful_rate, sulfur_citation
from halfpail.reference.lime_tables import (
    SIKORA_STEP,
    acidity_rows,
    sikora_rows,
    smp_lines,
)
from halfpail.sources import Citation, Mark
from halfpail.working import Step, Working

Sum = Callable[[LimeQuestion, Fraction, Fraction], str]


def lime_working(answer: LimeAnswer, question: LimeQuestion) -> Working:
    """How the amounts of an answer are reached."""
    steps = [_target_step(answer)]
    if limes(question, answer.target_ph) and answer.need is not None:
        steps += [*_need_steps(answer, question), *_lime_steps(answer, question)]
        steps += _ash_steps(answer, question)
    if answer.sulfur:
        steps.append(_sulfur_step(answer, question))
    for spread in (answer.gypsum, answer.epsom):
        if spread:
            steps.append(_mineral_step(spread, question))
    return (*steps, *_calcium_steps(answer, question), *_pail_steps(answer, question))


def _target_step(answer: LimeAnswer) -> Step:
    if answer.target is None:
        return Step(
            reason="The target pH of this bed, as typed.",
            sum=f"pH {_plain(answer.target_ph)}",
            citation=Citation(mark=Mark.TYPED),
        )
    return Step(
        reason=f"{answer.target.meaning}: lime lasts for years, so a bed has one target.",
        sum=f"pH {_plain(answer.target_ph)}",
        citation=answer.target.citation,
    )


def _need_steps(answer: LimeAnswer, question: LimeQuestion) -> Iterator[Step]:
    need, system = answer.need, question.system
    assert need is not None
    rate = show_rate(need.rate_kg_per_m2, system)
    yield Step(
        reason=f"Pure lime (calcium carbonate) to pH {_plain(answer.target_ph)} by "
        f"{need.method.name}.",
        sum=f"{_method_sum(answer, question)}\n= {rate}",
        citation=need.method.citation,
    )
    of_depth = need.method.validity.depth_m
    if answer.for_depth_kg_per_m2 != need.rate_kg_per_m2 and question.depth_m and of_depth:
        yield Step(
            reason="For the depth that is dug, by proportion.",
            sum=f"{rate} x {_inches(question.depth_m)} / {_inches(of_depth)} in = "
            f"{show_rate(answer.for_depth_kg_per_m2, system)}",
        )
    if question.earlier:
        lost = default(credit_key(question))
        given = show_rate(question.earlier.rate_kg_per_m2, system)
        yield Step(
            reason="Earlier lime that is still to act, taken off.",
            sum=f"{given} x (100 - {_plain(lost.printed)} x {_plain(question.earlier.months)}) % = "
            f"{show_rate(answer.credit_kg_per_m2, system)}\n"
            f"still wanted: {show_rate(answer.wanted_kg_per_m2, system)}",
            citation=lost.citation,
        )


def _method_sum(answer: LimeAnswer, question: LimeQuestion) -> str:
    assert answer.need is not None
    if answer.need.method.key == CAREFUL_KEY:
        return _careful_sum(answer, question)
    assert question.buffer is not None
    return _SUMS[answer.need.method.key](question, question.buffer.value, answer.target_ph)


def _careful_sum(answer: LimeAnswer, question: LimeQuestion) -> str:
    assert question.texture is not None
    rate, most = careful_rate(question.texture), hard_limit("lime_no_buffer")
    assert rate is not None
    per_unit = show_rate(rate.low / (rate.to_ph - rate.from_ph), question.system)
    return (
        f"({_plain(answer.target_ph)} - {_plain(question.soil_ph)}) x {per_unit} for one pH, "
        f"at most {show_rate(most.value, question.system)}"
    )


def _mehlich_sum(question: LimeQuestion, buffer: Fraction, target: Fraction) -> str:
    acid, soil = _plain(mehlich_acidity(buffer)), _plain(question.soil_ph)
    return (
        f"(6.6 - {_plain(buffer)}) x 4 = {acid} meq per 100 cm3\n"
        f"{acid} x ({_plain(target)} - {soil}) / (6.6 - {soil}) tons per acre"
    )


def _acidity_sum(question: LimeQuestion, acidity: Fraction, target: Fraction) -> str:
    if acidity > 4:
        return f"{_plain(acidity)} x 840 lb per acre"
    return f"acidity of {_plain(acidity)} is not above 4: 2000 lb per acre"


def _acidity_table_sum(question: LimeQuestion, acidity: Fraction, target: Fraction) -> str:
    row = row_of_acidity(acidity_rows(), acidity)
    return f"table row {_plain(row.reading)}, column to pH {_plain(target)}"


def _adams_evans_sum(question: LimeQuestion, buffer: Fraction, target: Fraction) -> str:
    now, then = (shortest(unsaturation(ph), 4) for ph in (question.soil_ph, target))
    return (
        f"share of sites without bases: {now} at pH {_plain(question.soil_ph)}, "
        f"{then} at pH {_plain(target)}\n"
        f"8000 x (8 - {_plain(buffer)}) / {now} x ({now} - {then}) x 1.5 lb per acre"
    )


def _smp_sum(question: LimeQuestion, buffer: Fraction, target: Fraction) -> str:
    index = 10 * buffer
    lines = "\n".join(
        f"to pH {_plain(goal)}: {_tons(smp_lines()[goal].intercept)} - "
        f"{_tons(smp_lines()[goal].slope)} x {_plain(index)} tons per acre"
        for goal in goals_beside(smp_lines(), target)
    )
    return f"{lines}\nx 0.90, since that lime has a value of 90"


def _sikora_sum(question: LimeQuestion, buffer: Fraction, target: Fraction) -> str:
    row = row_of_buffer(sikora_rows(), buffer, SIKORA_STEP)
    columns = "\n".join(
        f"buffer pH {_plain(buffer)} to pH {_plain(goal)}: {_tons(row.by_target[goal])} "
        "tons per acre"
        for goal in goals_beside(row.by_target, target)
    )
    return f"{columns}\nat pH {_plain(target)}, by the distance from the columns beside it"


def _tons(rate_kg_per_m2: Fraction) -> str:
    return _plain(rate_kg_per_m2 * size_of("acre") / size_of("short ton"))


_SUMS: dict[str, Sum] = {
    "mehlich_nc": _mehlich_sum,
    "acidity_pa": _acidity_sum,
    "acidity_pa_table": _acidity_table_sum,
    "adams_evans": _adams_evans_sum,
    "smp": _smp_sum,
    "sikora": _sikora_sum,
}


def _lime_steps(answer: LimeAnswer, question: LimeQuestion) -> Iterator[Step]:
    yield answer.value.step
    if answer.lime is None:
        return
    spreading, system = answer.lime.spreading, question.system
    whole = spreading.planned_kg_per_m2 + spreading.waits_kg_per_m2
    yield Step(
        reason="Material that does what the pure lime would.",
        sum=f"{show_rate(answer.wanted_kg_per_m2, system)} / "
        f"{shortest(100 * answer.value.effective, 1)} % = {show_rate(whole, system)}",
    )
    if spreading.parts > 1 or spreading.waits_kg_per_m2:
        yield _parts_step(answer.lime, question)


def _parts_step(spread: Spread, question: LimeQuestion) -> Step:
    spreading, system = spread.spreading, question.system
    one = show_rate(spreading.part_kg_per_m2, system)
    waits = spreading.waits_kg_per_m2
    parts = f"{spreading.parts} x {one}" if spreading.parts > 1 else f"{one} now"
    months = f", {spreading.months_apart} months apart" if spreading.parts > 1 else ""
    rest = f"; {show_rate(waits, system)} waits for a new soil test" if waits else ""
    return Step(
        reason=f"{spread.material.name} in parts, so that no one of them is too much at a time.",
        sum=f"{parts}{months}{rest}",
        citation=spreading.rule.citation if spreading.rule else None,
    )


def _ash_steps(answer: LimeAnswer, question: LimeQuestion) -> Iterator[Step]:
    ash = answer.ash
    if ash is None:
        return
    system, most = question.system, hard_limit("ash_year")
    cce = answer.value.effective if answer.value.is_ash else ash.material.cce
    whole = ash.spreading.part_kg_per_m2 + ash.spreading.waits_kg_per_m2
    yield Step(
        reason="Wood ash in place of lime: by its lime value first, then by its yearly most.",
        sum=f"{show_rate(answer.wanted_kg_per_m2, system)} / {shortest(100 * cce, 1)} % = "
        f"{show_rate(whole, system)}, at most {show_rate(most.value, system)} a year",
        citation=most.citation,
    )


def _sulfur_step(answer: LimeAnswer, question: LimeQuestion) -> Step:
    assert answer.sulfur is not None
    spreading, system = answer.sulfur.spreading, question.system
    whole = show_rate(sulfur_wanted(question, answer.target_ph), system)
    return Step(
        reason=f"Sulfur from pH {_plain(question.soil_ph)} to {_plain(answer.target_ph)} on "
        f"{question.texture}, each step of the table by its part of pH.",
        sum=f"{whole} in all; {show_rate(spreading.part_kg_per_m2, system)} at this time, "
        "the rest after a new soil test",
        citation=sulfur_citation(),
    )


def _mineral_step(spread: Spread, question: LimeQuestion) -> Step:
    row = default("gypsum_dose" if spread.material.key == "gypsum" else "epsom_dose")
    amount = show_rate(spread.spreading.part_kg_per_m2, question.system)
    return Step(
        reason=f"{row.meaning}.",
        sum=f"{amount} x the bed = {show_mass(spread.part_kg, question.system)}",
        citation=row.citation,
    )


def _calcium_steps(answer: LimeAnswer, question: LimeQuestion) -> Iterator[Step]:
    for spread in answer.spreads:
        calcium = spread.brings(Nutrient.CA)
        if calcium:
            share = spread.material.contents[Nutrient.CA].typical
            amount = show_rate(spread.spreading.planned_kg_per_m2, question.system)
            yield Step(
                reason=f"Calcium that {spread.material.name} brings.",
                sum=f"{amount} x {shortest(100 * share, 1)} % = "
                f"{show_rate(calcium, question.system)}",
                citation=spread.material.citation,
            )


def _pail_steps(answer: LimeAnswer, question: LimeQuestion) -> Iterator[Step]:
    if answer.pail is None or question.pail is None:
        return
    share = shortest(100 * question.pail.lime_share, 1)
    mix = show_rate(question.pail.rate_kg_per_m2, question.system)
    lime = show_rate(answer.pail.lime_kg_per_m2, question.system)
    yield Step(reason="Lime that comes with the mix.", sum=f"{share} % x {mix} = {lime}")


def _inches(depth_m: Fraction) -> str:
    return shortest(depth_m / size_of("in"), 1)


def _plain(value: Fraction) -> str:
    return shortest(value, 2)
