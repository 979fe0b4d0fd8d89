"""What to mind with lime, sulfur, calcium and magnesium on a bed."""

from collections.abc import Iterator
from dataclasses import replace

from halfpail.application.advise_lime import LimeAnswer, Spread, limes
from halfpail.application.lime_need import CAREFUL_KEY
from halfpail.application.lime_product import DOLOMITE
from halfpail.application.lime_question import BedUse, Found, LimeQuestion
from halfpail.application.pass_gate import breach_notice
from halfpail.application.sulfur_for_bed import lowers
from halfpail.domain.lime_method import Texture
from halfpail.findings import Notice, Severity
from halfpail.quantities.rounding import shortest
from halfpail.quantities.showing import show_rate
from halfpail.reference.cautions import caution
from halfpail.reference.defaults import default
from halfpail.reference.hard_limits import hard_limit
from halfpail.reference.materials import material
from halfpail.sources import Citation, Mark

# Beside the advice to spread ground limestone, "this" would be taken for the limestone.
_SAID_OF_ASH = {
    "caustic": "Wood ash burns eyes, skin and lungs: goggles, gloves and mask; rinse eyes with "
    "plenty of water and get medical help.",
    "ammonia": "Wood ash drives off ammonia from ammonium, urea and manure beside it, which harms "
    "you and wastes the nitrogen: never in one pail with them.",
}


def lime_notices(answer: LimeAnswer, question: LimeQuestion) -> tuple[Notice, ...]:
    """Every notice of an answer: breaches, what holds for it, then the usual cautions."""
    return (
        *(breach_notice(one, question.system) for one in answer.breaches),
        *_of_the_need(answer, question),
        *_of_minerals(answer, question),
        *_usual(answer),
    )


def _of_the_need(answer: LimeAnswer, question: LimeQuestion) -> Iterator[Notice]:
    if question.use is BedUse.CONTAINER:
        yield _say(
            Severity.STOP,
            "Lime tables and field tests do not hold for containers and beds of bought mix: go by "
            "volume, and ask a laboratory for a saturated-media extract.",
        )
        return
    if limes(question, answer.target_ph):
        yield from _of_a_method(answer, question)
    elif question.soil_ph > answer.target_ph and not lowers(question, answer.target_ph):
        yield _say(
            Severity.NOTE,
            f"The soil stands {shortest(question.soil_ph - answer.target_ph, 2)} above its target: "
            "no lime and no ash; most crops do well up to about pH 7.",
        )
    elif question.use is not BedUse.ACID and question.soil_ph <= answer.target_ph:
        slack = default("lime_slack")
        yield _say(
            Severity.NOTE,
            f"Less than {shortest(slack.value, 1)} below its target: no lime yet.",
            slack.citation,
        )
    if question.use is BedUse.ACID:
        yield from _of_an_acid_bed(answer, question)
    if lowers(question, answer.target_ph):
        yield from _of_sulfur(question)


def _of_a_method(answer: LimeAnswer, question: LimeQuestion) -> Iterator[Notice]:
    if answer.need is None:
        yield _say(
            Severity.STOP,
            "Soil of so much organic matter is limed by a buffer test only: ask the laboratory.",
        )
        return
    method = answer.need.method
    if method.key == CAREFUL_KEY:
        most = hard_limit("lime_no_buffer")
        amount = show_rate(most.value, question.system)
        yield _say(
            Severity.CAUTION,
            f"Without a buffer test: the careful rate, at most {amount}. Test again next year "
            "before any more.",
            most.citation,
        )
    elif method.validity.condition:
        yield _say(Severity.NOTE, f"{method.name} holds for: {method.validity.condition}.")
    if method.citation.mark is Mark.MEMORY:
        yield _say(
            Severity.CAUTION,
            f"{method.name} is written here from memory: hold it against the lime figure on your "
            "laboratory's report, which comes first.",
            method.citation,
        )
    if question.depth_m is not None and method.validity.depth_m is None:
        yield _say(Severity.NOTE, f"{method.name} states no depth, so it is not changed for yours.")
    if question.texture is Texture.ORGANIC:
        yield _say(
            Severity.CAUTION,
            "Soils of much organic matter are limed to about pH 5.3 for field crops: ask the "
            "laboratory for a target before you lime.",
            default("lime_slack").citation,
        )


def _of_an_acid_bed(answer: LimeAnswer, question: LimeQuestion) -> Iterator[Notice]:
    kept = default("acid_bed_ph")
    low, high = shortest(kept.low or kept.value, 1), shortest(kept.high or kept.value, 1)
    yield _say(
        Severity.NOTE,
        f"A bed kept for acid-loving crops stands best at pH {low} to {high}; lime and ash never "
        "go on it.",
        kept.citation,
    )
    if kept.low is not None and question.soil_ph < kept.low:
        yield _say(
            Severity.CAUTION, "It is sourer than that: ask a laboratory before you raise it."
        )


def _of_sulfur(question: LimeQuestion) -> Iterator[Notice]:
    free = hard_limit("sulfur_free_lime")
    if question.free_lime:
        yield _say(Severity.STOP, f"No sulfur: {free.sentence}.", free.citation)
        return
    yield caution("sulfur_rate")
    yield _say(
        Severity.CAUTION,
        "Wet some soil with vinegar first: if it fizzes it holds free lime, and no sulfur will "
        "make it sour.",
        free.citation,
    )
    if question.use is not BedUse.ACID:
        yield _say(
            Severity.NOTE,
            "Most crops do well up to about pH 7, so lowering it seldom pays; lime lasts for years "
            "and so does sulfur.",
        )


def _of_minerals(answer: LimeAnswer, question: LimeQuestion) -> Iterator[Notice]:
    yield caution("blossom_end_rot")
    if answer.gypsum:
        yield _say(
            Severity.NOTE,
            "Gypsum brings calcium without moving the pH.",
            default("gypsum_dose").citation,
        )
    if answer.value.material.key == DOLOMITE and question.magnesium is not Found.LOW:
        yield caution("dolomite_mg")
    if answer.epsom:
        yield _say(
            Severity.NOTE,
            "Magnesium that is not needed works against potassium and calcium: no more than this, "
            "and test again.",
            caution("dolomite_mg").citation,
        )


def _usual(answer: LimeAnswer) -> Iterator[Notice]:
    yield caution("directions")
    yield caution("extension")
    keys = [key for one in answer.spreads for key in one.material.cautions]
    if answer.ash and answer.value.is_ash:
        keys += answer.ash.material.cautions
    if answer.pail:
        keys += ["limestone_in_pail", "ammonia"]
    told = {"sulfur_rate", "dolomite_mg"}
    yield from (caution(key) for key in dict.fromkeys(keys) if key not in told)
    if answer.ash:
        yield from _of_ash(answer.ash, keys)
    if answer.lime and "caustic" in material(answer.value.material.key).cautions:
        yield _say(
            Severity.CAUTION,
            "Ground limestone does the same more slowly and does not burn: take it in its place.",
            caution("caustic").citation,
        )


def _of_ash(ash: Spread, told: list[str]) -> Iterator[Notice]:
    """What to mind with ash beyond what is told, so said that it is not taken for the lime."""
    for key in ash.material.cautions:
        if key not in told:
            usual = caution(key)
            yield replace(usual, sentence=_SAID_OF_ASH.get(key, usual.sentence))


def _say(severity: Severity, sentence: str, citation: Citation | None = None) -> Notice:
    return Notice(severity=severity, sentence=sentence, citation=citation)
