"""What a bed gets for its pH, calcium and magnesium, and what it must not get."""

from dataclasses import dataclass, replace
from fractions import Fraction

from halfpail.application.lime_need import Published, lime_need, published_beside
from halfpail.application.lime_product import ASH, LimeValue, value_of
from halfpail.application.lime_question import (
    BedUse,
    Found,
    LimeQuestion,
    check_lime_question,
)
from halfpail.application.pass_gate import material_dose, pass_gate, share_let_through
from halfpail.application.sulfur_for_bed import sulfur_beside, sulfur_spread
from halfpail.domain.lime import LimeInPail, ash_in_place, credit_left, for_depth, lime_in_pail
from halfpail.domain.lime_method import LimeNeed, Texture
from halfpail.domain.liming_value import material_for
from halfpail.domain.material import Material
from halfpail.domain.matter import Nutrient
from halfpail.domain.safe_gate import BedFacts, Breach, Dose, Given, Per, most_of
from halfpail.domain.spreading import Spreading, part
from halfpail.reference.defaults import Default, default
from halfpail.reference.hard_limits import hard_limits
from halfpail.reference.lime_rates import CropCalcium, calcium_in_crops, parting_rules
from halfpail.reference.materials import material

NONE = Fraction(0)
GYPSUM = "gypsum"
EPSOM = "epsom_salt"
SULFUR = "sulfur"


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """One material for the bed: in parts [kg/m²], and what a part weighs on the bed [kg]."""

    material: Material
    spreading: Spreading
    area_m2: Fraction
    because: str

    @property
    def part_kg(self) -> Fraction:
        """Weight of one part on the whole bed [kg]."""
        return self.spreading.part_kg_per_m2 * self.area_m2

    def brings(self, nutrient: Nutrient) -> Fraction:
        """What all its parts bring of a nutrient [kg/m²], on the typical analysis."""
        content = self.material.contents.get(nutrient)
        return self.spreading.planned_kg_per_m2 * content.typical if content else NONE


@dataclass(frozen=True, slots=True, kw_only=True)
class LimeAnswer:
    """Everything for one bed.

    `wanted_kg_per_m2` is pure calcium carbonate after depth and credit; `ash` stands in place of
    the lime, not beside it. `pail` is what lime in a mix would do. `breaches` are the hard limits
    that what is spread was cut to.
    """

    target_ph: Fraction
    target: Default | None
    need: LimeNeed | None
    for_depth_kg_per_m2: Fraction
    credit_kg_per_m2: Fraction
    wanted_kg_per_m2: Fraction
    value: LimeValue
    lime: Spread | None
    ash: Spread | None
    sulfur: Spread | None
    gypsum: Spread | None
    epsom: Spread | None
    pail: LimeInPail | None
    published: tuple[Published, ...]
    crops: tuple[CropCalcium, ...]
    breaches: tuple[Breach, ...]

    @property
    def spreads(self) -> tuple[Spread, ...]:
        """What is spread, ash left out."""
        found = (self.lime, self.sulfur, self.gypsum, self.epsom)
        return tuple(one for one in found if one is not None)


def advise_lime(question: LimeQuestion) -> LimeAnswer:
    """Lime or sulfur to the bed's one target pH, and calcium and magnesium where a test asks.

    Raises:
        Refusal: a figure cannot be so, or no method holds for it.
    """
    check_lime_question(question)
    target_ph, target = target_of(question)
    facts = bed_facts(question, target_ph)
    value = value_of(question)
    need = _need(question, target_ph)
    deep = _for_depth(question, need)
    credit = credit_of(question)
    wanted = max(NONE, deep - credit)
    lime = _lime(question, value, wanted, facts)
    ash = _ash(question, value, wanted, facts)
    sulfur = _sulfur(question, target_ph, facts)
    gypsum = _gypsum(question, lime)
    epsom = _epsom(question, value, lime)
    breaches = (
        *pass_gate(facts, doses_of((lime, sulfur, gypsum, epsom), value)),
        *pass_gate(facts, doses_of((ash,), value)),
    )
    lime, ash, sulfur, gypsum, epsom = (
        _held(one, value, facts) for one in (lime, ash, sulfur, gypsum, epsom)
    )
    return LimeAnswer(
        target_ph=target_ph,
        target=target,
        need=need,
        for_depth_kg_per_m2=deep,
        credit_kg_per_m2=credit,
        wanted_kg_per_m2=wanted,
        value=value,
        lime=lime,
        ash=ash,
        sulfur=sulfur,
        gypsum=gypsum,
        epsom=epsom,
        pail=_pail(question),
        published=(
            *published_beside(question, need, target_ph),
            *(sulfur_beside(question, target_ph) if sulfur else ()),
        ),
        crops=calcium_in_crops(),
        breaches=breaches,
    )


def target_of(question: LimeQuestion) -> tuple[Fraction, Default | None]:
    """The one target pH of a bed, and the row it comes from where it is not typed."""
    if question.target_ph is not None:
        return question.target_ph, None
    key = {
        BedUse.POTATOES: "lime_target_ph_potatoes",
        BedUse.ACID: "acid_bed_ph",
    }.get(question.use, "lime_target_ph")
    return default(key).value, default(key)


def bed_facts(question: LimeQuestion, target_ph: Fraction) -> BedFacts:
    """What the gate is told of the bed."""
    return BedFacts(
        soil_ph=question.soil_ph,
        target_ph=target_ph,
        buffer_tested=question.buffer is not None,
        acid_bed=question.use is BedUse.ACID,
        free_lime=question.free_lime,
        planted=question.planted,
        magnesium_low=question.magnesium is Found.LOW,
    )


def credit_of(question: LimeQuestion) -> Fraction:
    """Earlier lime that is still to act [kg/m² of pure calcium carbonate]."""
    if question.earlier is None:
        return NONE
    lost = default(credit_key(question)).value
    return credit_left(question.earlier.rate_kg_per_m2, question.earlier.months, lost)


def credit_key(question: LimeQuestion) -> str:
    """The row that says how fast earlier lime is used up in this soil."""
    soil = "organic" if question.texture is Texture.ORGANIC else "mineral"
    return f"lime_credit_{soil}"


def limes(question: LimeQuestion, target_ph: Fraction) -> bool:
    """Whether lime is a question at all: below the target by more than the slack, in ground."""
    below = target_ph - question.soil_ph
    in_ground = question.use not in (BedUse.ACID, BedUse.CONTAINER)
    return in_ground and below >= default("lime_slack").value


def doses_of(spreads: tuple[Spread | None, ...], value: LimeValue) -> tuple[Dose, ...]:
    """Each part of what is spread, as the gate counts it."""
    return tuple(
        material_dose(
            one.material.key,
            one.spreading.part_kg_per_m2,
            value.cce if one.material == value.material else None,
        )
        for one in spreads
        if one is not None
        for _ in range(one.spreading.parts)
    )


def _held(spread: Spread | None, value: LimeValue, facts: BedFacts) -> Spread | None:
    """What is spread of a material, cut to the limits it breaks; None where none may go on."""
    while spread is not None and (broken := pass_gate(facts, doses_of((spread,), value))):
        kept = spread.spreading.part_kg_per_m2 * share_let_through(facts, broken[0])
        parts = replace(spread.spreading, part_kg_per_m2=kept)
        spread = replace(spread, spreading=parts) if kept else None
    return spread


def _need(question: LimeQuestion, target_ph: Fraction) -> LimeNeed | None:
    return lime_need(question, target_ph) if limes(question, target_ph) else None


def _for_depth(question: LimeQuestion, need: LimeNeed | None) -> Fraction:
    """The need for the depth that is dug, where the method says which depth it is for."""
    if need is None:
        return NONE
    of_depth = need.method.validity.depth_m
    if question.depth_m is None or of_depth is None:
        return need.rate_kg_per_m2
    return for_depth(need.rate_kg_per_m2, question.depth_m, of_depth)


def _lime(
    question: LimeQuestion, value: LimeValue, wanted: Fraction, facts: BedFacts
) -> Spread | None:
    if not wanted or value.is_ash:
        return None
    rate = material_for(wanted, value.effective)
    a_year = most_of(hard_limits(), Given.LIME, Per.YEAR, facts)
    at_once = most_of(hard_limits(), Given.LIME, Per.DOSE, facts)
    spreading = part(
        min(rate, a_year[0] / value.counted) if a_year else rate,
        parting_rules("garden"),
        at_once[0] if at_once else None,
        value.counted,
    )
    spreading = replace(spreading, waits_kg_per_m2=rate - spreading.planned_kg_per_m2)
    if not spreading.part_kg_per_m2:
        return None
    return Spread(
        material=value.material,
        spreading=spreading,
        area_m2=question.area_m2,
        because="to raise the pH to its target",
    )


def _ash(
    question: LimeQuestion, value: LimeValue, wanted: Fraction, facts: BedFacts
) -> Spread | None:
    cce = value.effective if value.is_ash else material(ASH).cce
    limit = most_of(hard_limits(), Given.ASH, Per.YEAR, facts)
    most = limit[0] if limit else NONE
    rate = ash_in_place(wanted, cce, most)
    if not rate:
        return None
    return Spread(
        material=material(ASH),
        spreading=Spreading(
            part_kg_per_m2=rate, parts=1, waits_kg_per_m2=material_for(wanted, cce) - rate
        ),
        area_m2=question.area_m2,
        because="in place of lime, up to its yearly most",
    )


def _sulfur(question: LimeQuestion, target_ph: Fraction, facts: BedFacts) -> Spread | None:
    spreading = sulfur_spread(question, target_ph, facts)
    if spreading is None:
        return None
    return Spread(
        material=material(SULFUR),
        spreading=spreading,
        area_m2=question.area_m2,
        because="to lower the pH to its target",
    )


def _gypsum(question: LimeQuestion, lime: Spread | None) -> Spread | None:
    """Gypsum only where calcium is low and no lime brings it."""
    if question.calcium is not Found.LOW or lime is not None:
        return None
    return Spread(
        material=material(GYPSUM),
        spreading=Spreading(part_kg_per_m2=default("gypsum_dose").value, parts=1),
        area_m2=question.area_m2,
        because="calcium is low and the pH is not to move",
    )


def _epsom(question: LimeQuestion, value: LimeValue, lime: Spread | None) -> Spread | None:
    """Epsom salt only where magnesium is low and no dolomite brings it."""
    brings = lime is not None and Nutrient.MG in value.material.contents
    if question.magnesium is not Found.LOW or brings:
        return None
    return Spread(
        material=material(EPSOM),
        spreading=part(default("epsom_dose").value, parting_rules("epsom")),
        area_m2=question.area_m2,
        because="magnesium is low and no dolomite goes on",
    )


def _pail(question: LimeQuestion) -> LimeInPail | None:
    if question.pail is None:
        return None
    return lime_in_pail(
        question.pail.analysis, question.pail.lime_share, question.pail.rate_kg_per_m2
    )
