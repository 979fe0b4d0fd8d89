"""Sulfur for a bed that is too sweet, and what else is published that makes soil sour."""

from fractions import Fraction

from halfpail.application.lime_need import Published
from halfpail.application.lime_question import BedUse, LimeQuestion
from halfpail.domain.lime import for_depth
from halfpail.domain.lime_method import Texture, Use
from halfpail.domain.safe_gate import BedFacts, Given, Per, most_of
from halfpail.domain.spreading import Spreading, part
from halfpail.domain.sulfur import sulfur_need
from halfpail.findings import Fault, Refusal
from halfpail.quantities.rounding import shortest
from halfpail.reference.hard_limits import hard_limits
from halfpail.reference.lime_rates import (
    SULFUR_DEPTH_M,
    PublishedRate,
    acidifying,
    sulfur_steps,
)


def lowers(question: LimeQuestion, target_ph: Fraction) -> bool:
    """Whether sulfur is a question: an acid bed, or a typed target, below the soil's pH."""
    asked = question.use is BedUse.ACID or question.target_ph is not None
    return asked and question.use is not BedUse.CONTAINER and question.soil_ph > target_ph


def sulfur_wanted(question: LimeQuestion, target_ph: Fraction) -> Fraction:
    """Sulfur down to the target [kg/m²], for the depth that is dug.

    Raises:
        Refusal: the texture is missing, or the table does not reach so far.
    """
    if question.texture is None:
        raise Refusal(
            Fault(
                place="texture",
                read="",
                sentence="How much sulfur depends on the texture of the soil.",
                remedy="Write sand, sandy loam, loam, clay loam, clay or organic.",
            )
        )
    try:
        need = sulfur_need(sulfur_steps(question.texture), question.soil_ph, target_ph)
    except ValueError as why:
        raise Refusal(
            Fault(
                place="soil pH",
                read=shortest(question.soil_ph, 2),
                sentence=f"The sulfur table does not reach so far: {why}.",
                remedy="Such a soil may hold free lime: ask a laboratory, or grow acid-loving "
                "plants in a container.",
            )
        ) from None
    return for_depth(need, question.depth_m or SULFUR_DEPTH_M, SULFUR_DEPTH_M)


def sulfur_spread(question: LimeQuestion, target_ph: Fraction, facts: BedFacts) -> Spreading | None:
    """Sulfur for now, and what waits for a new test; None where there is none to spread.

    Raises:
        Refusal: the texture is missing, or the table does not reach so far.
    """
    if not lowers(question, target_ph):
        return None
    a_year = most_of(hard_limits(), Given.SULFUR, Per.YEAR, facts)
    at_once = most_of(hard_limits(), Given.SULFUR, Per.DOSE, facts)
    most = min(limit[0] for limit in (a_year, at_once) if limit)
    if not most:
        return None
    return part(sulfur_wanted(question, target_ph), (), most)


def sulfur_beside(question: LimeQuestion, target_ph: Fraction) -> tuple[Published, ...]:
    """Published amounts for this texture that are only shown, each with its reason."""
    able = [
        rate
        for rate in acidifying()
        if rate.use is Use.SHOWN
        and rate.unit != "times"
        and rate.texture in _read_as(question)
        and max(rate.to_ph, target_ph) < question.soil_ph <= rate.from_ph
    ]
    return tuple(
        Published(
            name=f"{rate.material}, pH {shortest(rate.from_ph, 1)} to {shortest(rate.to_ph, 1)}",
            low_kg_per_m2=rate.low,
            high_kg_per_m2=rate.high,
            reason=rate.reason,
            citation=rate.citation,
        )
        for rate in able
        if rate.from_ph == min(one.from_ph for one in able if _same(one, rate))
    )


def _same(one: PublishedRate, other: PublishedRate) -> bool:
    return (one.system, one.material) == (other.system, other.material)


def _read_as(question: LimeQuestion) -> tuple[Texture | None, ...]:
    """The textures whose rows speak of this bed; clay is in some tables only clay loam."""
    if question.texture is Texture.CLAY:
        return (Texture.CLAY, Texture.CLAY_LOAM)
    return (question.texture,)
