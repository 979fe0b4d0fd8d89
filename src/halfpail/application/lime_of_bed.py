"""The lime question of a bed, from its soil test and its crops, and what the gate is told of it."""

from dataclasses import replace

from halfpail.application.advise_lime import bed_facts, target_of
from halfpail.application.garden_entry import BedEntry
from halfpail.application.lime_question import BedUse, Found, LimeQuestion
from halfpail.application.need_of_bed import BedNeed
from halfpail.application.pose_season import label_n_basis
from halfpail.domain.need import LOW
from halfpail.domain.safe_gate import BedFacts
from halfpail.domain.soil_class import SoilClass
from halfpail.domain.soil_test import Element
from halfpail.quantities.units import System
from halfpail.reference.needs import boron_responses

ACID_CROPS = ("blueberry",)
POTATO = "potato"


def lime_question_of(entry: BedEntry, need: BedNeed, system: System) -> LimeQuestion | None:
    """What a bed's soil test asks of lime; None without a pH.

    The bed counts as planted: how much may go on bare ground is asked with `halfpail lime --bare`.
    """
    test = entry.soil_test
    if test is None or test.ph is None:
        return None
    return LimeQuestion(
        soil_ph=test.ph,
        area_m2=entry.area_m2,
        use=use_of(entry, need),
        buffer=test.buffer,
        texture=test.texture,
        cec_meq_per_100_g=test.cec,
        earlier=entry.earlier_lime,
        calcium=_found(need, Element.CA),
        magnesium=_found(need, Element.MG),
        free_lime=entry.free_lime,
        system=system,
    )


def use_of(entry: BedEntry, need: BedNeed) -> BedUse:
    """What a bed is kept for: as told, else by its crops; a bed is kept acid only for itself."""
    if entry.container_l is not None:
        return BedUse.CONTAINER
    if entry.use is not None:
        return entry.use
    crops = {planned.key for planned in need.worked.crops} if need.worked else set()
    if crops and crops <= set(ACID_CROPS):
        return BedUse.ACID
    return BedUse.POTATOES if POTATO in crops else BedUse.ORDINARY


def facts_of(entry: BedEntry, need: BedNeed, question: LimeQuestion | None) -> BedFacts:
    """What the gate of hard limits is told of a bed; what nobody knows stays unknown."""
    facts = BedFacts() if question is None else bed_facts(question, target_of(question)[0])
    nitrogen = next((one for one in need.needs if one.nutrient == "N"), None)
    worked = need.worked
    if worked is None:
        return facts if nitrogen is None else replace(facts, usable_n_aim_kg_per_m2=nitrogen.aim)
    responses = [boron_responses().get(planned.key) for planned in worked.crops]
    soil = worked.soil
    return replace(
        facts,
        p_very_high=soil is not None and soil.class_of(Element.P) is SoilClass.VERY_HIGH,
        boron_figure=soil is not None and soil.of(Element.B) is not None,
        boron_sensitive=any(one is None or one.sensitive for one in responses),
        usable_n_aim_kg_per_m2=None if nitrogen is None else label_n_basis(nitrogen),
        p2o5_surplus_kg_per_m2=worked.surplus_kg_per_m2,
        p2o5_removed_kg_per_m2=worked.removed.p2o5,
    )


def _found(need: BedNeed, element: Element) -> Found:
    soil = need.worked.soil if need.worked else None
    found = soil.class_of(element) if soil else None
    if found is None:
        return Found.UNTESTED
    return Found.LOW if found in LOW else Found.ENOUGH
