"""What to mind about a need: missing tests, hard stops, doubts, and what comes first."""

from collections.abc import Iterator

from halfpail.application.need_question import of_mix
from halfpail.application.work_out_need import (
    WorkedNeed,
    chosen_rate,
    lime_first,
    year_most,
)
from halfpail.domain.need import LOW
from halfpail.domain.soil_class import SoilClass
from halfpail.domain.soil_test import Element, SoilTest
from halfpail.findings import Notice, Severity
from halfpail.quantities.showing import show_length, show_rate
from halfpail.quantities.units import size_of
from halfpail.reference.defaults import default
from halfpail.reference.hard_limits import hard_limit
from halfpail.reference.needs import boron_responses

# A furrow slice; tables of classes are made for it.
_SHALLOW_M, _DEEP_M = 4 * size_of("in"), 9 * size_of("in")


def need_notices(worked: WorkedNeed) -> tuple[Notice, ...]:
    """Everything to mind about a need."""
    return tuple(_notices(worked))


def _notices(worked: WorkedNeed) -> Iterator[Notice]:
    yield from _test_notices(worked)
    if worked.soil:
        yield from worked.soil.notices
        yield from _stops(worked)
        yield from _short(worked)
    yield from _nitrogen_notices(worked)
    yield from _phosphorus_notices(worked)


def _test_notices(worked: WorkedNeed) -> Iterator[Notice]:
    test, in_mix = worked.question.soil_test, worked.question.container_l is not None
    if test is None and in_mix:
        yield _note(
            "By the volume of the mix. A laboratory reads bought mix by a saturated-media extract: "
            "ask for that."
        )
    elif test is None:
        yield _note(
            "No soil test: phosphorus is held to what harvests take, and potassium to a cautious "
            "middle. A test costs less than a bag, and may say that nothing is needed."
        )
    elif in_mix and not of_mix(test):
        yield _caution(
            "Field classes and lime tables do not hold for bought mix, so this test changes "
            "nothing. Ask for a saturated-media extract."
        )
    elif of_mix(test) and not in_mix:
        yield _caution("A saturated-media extract tells nothing of a bed of soil.")
    elif test.depth_m is not None:
        yield from _depth(test, worked)


def _depth(test: SoilTest, worked: WorkedNeed) -> Iterator[Notice]:
    assert test.depth_m is not None
    if not _SHALLOW_M <= test.depth_m <= _DEEP_M:
        depth = show_length(test.depth_m, worked.question.system)
        yield _caution(f"The sample is {depth} deep; the tables are made for 6 to 8 inches.")


def _stops(worked: WorkedNeed) -> Iterator[Notice]:
    assert worked.soil
    for element, name in ((Element.P, "Phosphorus"), (Element.K, "Potassium")):
        if worked.soil.class_of(element) is SoilClass.VERY_HIGH:
            limit = hard_limit("p2o5_very_high")
            sentence = f"{name} is very high: give none at all, compost and manure counted."
            yield Notice(severity=Severity.STOP, sentence=sentence, citation=limit.citation)


def _short(worked: WorkedNeed) -> Iterator[Notice]:
    assert worked.soil
    for element, name in ((Element.CA, "Calcium"), (Element.MG, "Magnesium")):
        if worked.soil.class_of(element) in LOW and lime_first(worked.question):
            kind = "dolomite brings it" if element is Element.MG else "lime brings it"
            yield _note(f"{name} is low and the soil is sour: {kind}, so lime comes first.")
    if worked.soil.class_of(Element.B) in LOW and worked.need("B") is None:
        sensitive = [
            planned.name.lower()
            for planned in worked.crops
            if (found := boron_responses().get(planned.key)) and found.sensitive
        ]
        why = f"{' and '.join(sensitive)} do not bear it" if sensitive else "no source asks for it"
        yield _note(f"Boron is low, but none is given: {why}.")


def _nitrogen_notices(worked: WorkedNeed) -> Iterator[Notice]:
    question, need = worked.question, worked.needs[0]
    warning = default("season_n_warning")
    if need.aim > warning.value and question.container_l is None:
        sentence = "This is much nitrogen for one season: give it in many small doses."
        yield Notice(severity=Severity.CAUTION, sentence=sentence, citation=warning.citation)
    asked = sum(planned.plan.share * planned.group.ranges.n.most for planned in worked.crops)
    if question.container_l is None and asked > year_most():
        most = show_rate(year_most(), question.system)
        yield _note(
            f"Crop after crop would ask for more, but no bed is planned above {most} a year."
        )
    lowest = min(planned.group.ranges.n.most for planned in worked.crops)
    if max(planned.group.ranges.n.least for planned in worked.crops) > lowest:
        yield _note(
            "These crops want very different nitrogen: feed each part of the bed by itself."
        )
    legume = [credit for credit in worked.credits if credit.name == "legume before"]
    if question.nitrogen.legume_before and not legume:
        yield _note(
            "After a legume: give half the nitrogen before planting and the rest beside the rows, "
            "or leave the rest out where the crop looks dark green."
        )


def _phosphorus_notices(worked: WorkedNeed) -> Iterator[Notice]:
    question, need = worked.question, worked.need("P2O5")
    stop = default("p2o5_surplus_stop")
    if worked.surplus_kg_per_m2 >= stop.value:
        sentence = "The phosphorus account has reached its stop: no more than harvests take."
        yield Notice(severity=Severity.STOP, sentence=sentence, citation=stop.citation)
    rate = chosen_rate("P2O5", question, worked.crops, worked.soil)
    if rate is not None and need is not None and rate.high > max(need.most, need.cap):
        printed = show_rate(rate.high, question.system)
        sentence = f"{rate.region} prints {printed}: published, not used, as it passes the stop."
        yield Notice(severity=Severity.CAUTION, sentence=sentence, citation=rate.citation)


def _note(sentence: str) -> Notice:
    return Notice(severity=Severity.NOTE, sentence=sentence)


def _caution(sentence: str) -> Notice:
    return Notice(severity=Severity.CAUTION, sentence=sentence)
