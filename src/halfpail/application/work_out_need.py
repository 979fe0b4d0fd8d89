"""What a bed should get of each nutrient in a season, and what it must not get."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from halfpail.application.compare_needs import (
    TESTED,
    Comparison,
    comparisons,
    published_rate_at,
)
from halfpail.application.credit_nitrogen import nitrogen_credits
from halfpail.application.need_question import (
    NeedQuestion,
    PlannedCrop,
    of_mix,
    planned_crops,
    removed_by,
)
from halfpail.application.read_classes import SoilReading, read_classes
from halfpail.domain.bed import NeedRange, needs_without_test
from halfpail.domain.need import LOW, held_to, lessened, need_by_class, nothing, together
from halfpail.domain.nitrogen_credit import NitrogenCredit
from halfpail.domain.phosphorus_account import (
    Measured,
    PhosphorusLine,
    phosphorus_account,
    room_kg_per_m2,
)
from halfpail.domain.removal import Removal
from halfpail.domain.soil_class import SoilClass
from halfpail.domain.soil_test import Element
from halfpail.reference.crops import crop_groups
from halfpail.reference.defaults import default
from halfpail.reference.hard_limits import hard_limit
from halfpail.reference.needs import (
    boron_responses,
    class_rates,
    container_ranges,
    movement,
    secondary_needs,
)
from halfpail.reference.published_rates import PublishedRate
from halfpail.reference.soil_classes import regions

NONE = Fraction(0)
ENOUGH = (SoilClass.HIGH, SoilClass.VERY_HIGH)


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedNeed:
    """The ranges of a bed [kg/m²], and everything that went into them.

    `nitrogen_before` is the range before the credits; `account` runs over the earlier years;
    `stop_kg_per_m2` is the most P2O5 the account lets through this year.
    """

    question: NeedQuestion
    needs: tuple[NeedRange, ...]
    doses: int
    crops: tuple[PlannedCrop, ...]
    removed: Removal
    nitrogen_before: NeedRange
    credits: tuple[NitrogenCredit, ...]
    soil: SoilReading | None
    account: tuple[PhosphorusLine, ...]
    stop_kg_per_m2: Fraction
    comparisons: tuple[Comparison, ...]

    def need(self, nutrient: str) -> NeedRange | None:
        """The range of one nutrient; None where none is worked out."""
        return next((need for need in self.needs if need.nutrient == nutrient), None)

    @property
    def surplus_kg_per_m2(self) -> Fraction:
        """The running P2O5 surplus before this year [kg/m²]."""
        return self.account[-1].surplus_kg_per_m2 if self.account else NONE


def work_out_need(question: NeedQuestion) -> WorkedNeed:
    """The ranges of a bed for a season: by its crops, its soil test and what came before.

    Raises:
        KeyError: a crop is neither in the table nor a group.
    """
    crops = planned_crops(question.crops)
    removed = removed_by(crops)
    soil = _soil(question)
    account = account_of(question, soil)
    stop = _stop(removed, account)
    before = _nitrogen(question, crops)
    credits = nitrogen_credits(question, before)
    credit = sum((one.rate_kg_per_m2 for one in credits), NONE)
    others = (
        _in_mix(question, crops, soil)
        if question.container_l
        else _in_ground(question, crops, soil, removed, stop)
    )
    return WorkedNeed(
        question=question,
        needs=(_fed(lessened(before, credit), question, soil), *others),
        doses=max(planned.group.doses for planned in crops),
        crops=crops,
        removed=removed,
        nitrogen_before=before,
        credits=credits,
        soil=soil,
        account=account,
        stop_kg_per_m2=stop,
        comparisons=()
        if question.container_l
        else comparisons(crops, question.soil_test, soil, removed),
    )


def _soil(question: NeedQuestion) -> SoilReading | None:
    """Classes of the soil test; in a container only those of a saturated-media extract."""
    test = question.soil_test
    if test is None or of_mix(test) != (question.container_l is not None):
        return None
    return read_classes(test)


def year_most() -> Fraction:
    """The most usable nitrogen that any bed is planned in a year [kg/m²]: the heaviest group's."""
    return max(group.ranges.n.most for group in crop_groups().values())


def _nitrogen(question: NeedQuestion, crops: tuple[PlannedCrop, ...]) -> NeedRange:
    """Usable nitrogen by groups and shares of the ground, held to a year's most."""
    if question.container_l:
        depth_m = container_depth_m(question)
        parts = [
            (planned.plan.share, container_ranges(planned.group.key)[0].on(depth_m))
            for planned in crops
        ]
        return together(parts)
    ranges = [(planned.plan.share, planned.group.ranges.n) for planned in crops]
    return held_to(together(ranges), year_most())


def _fed(need: NeedRange, question: NeedQuestion, soil: SoilReading | None) -> NeedRange:
    """No nitrogen where the extract of a bought mix holds plenty."""
    if question.container_l and soil and soil.class_of(Element.NITRATE) in ENOUGH:
        return nothing(need.nutrient, need.citation)
    return need


def container_depth_m(question: NeedQuestion) -> Fraction:
    """How deep the mix of a container stands on the area the question gives [m]."""
    assert question.container_l is not None
    return question.container_l / 1000 / question.area_m2


def _in_mix(
    question: NeedQuestion, crops: tuple[PlannedCrop, ...], soil: SoilReading | None
) -> Iterator[NeedRange]:
    """P2O5 and K2O of a container, by the volume of its mix."""
    depth_m = container_depth_m(question)
    for ranges in container_ranges(crops[0].group.key)[1:]:
        found = soil.class_of(TESTED[ranges.nutrient]) if soil else None
        need = ranges.on(depth_m)
        yield nothing(need.nutrient, need.citation) if found in ENOUGH else need


def _in_ground(
    question: NeedQuestion,
    crops: tuple[PlannedCrop, ...],
    soil: SoilReading | None,
    removed: Removal,
    stop: Fraction,
) -> Iterator[NeedRange]:
    untested = {
        need.nutrient: need for need in needs_without_test(crops[0].group.ranges, question.ground)
    }
    if question.years:
        untested["P2O5"] = held_to(untested["P2O5"], stop)
    for nutrient, taken, most in (("P2O5", removed.p2o5, stop), ("K2O", removed.k2o, None)):
        found = soil.class_of(TESTED[nutrient]) if soil else None
        if found is None:
            yield untested[nutrient]
        else:
            tested = need_by_class(class_rates()[nutrient, found], taken, most)
            yield _as_published(tested, question, crops, soil)
    if soil:
        yield from _secondary(question, soil)
        yield from _boron(crops, soil)


def _as_published(
    need: NeedRange,
    question: NeedQuestion,
    crops: tuple[PlannedCrop, ...],
    soil: SoilReading | None,
) -> NeedRange:
    """The rate of the chosen region for a bed of one crop, within what the account lets through.

    A published nought is none at all, and very high stays none whatever is published.
    """
    rate = chosen_rate(need.nutrient, question, crops, soil)
    if rate is None or need.cap == 0:
        return need
    if rate.high == 0:
        return nothing(need.nutrient, rate.citation)
    most = min(rate.high, need.cap) if need.nutrient == "P2O5" else rate.high
    aim = min(rate.low, most)
    return replace(
        need,
        least=min(need.least, aim),
        aim=aim,
        most=most,
        cap=max(most, need.cap),
        citation=rate.citation,
    )


def chosen_rate(
    nutrient: str,
    question: NeedQuestion,
    crops: tuple[PlannedCrop, ...],
    soil: SoilReading | None,
) -> PublishedRate | None:
    """The rate of the region a gardener chose, for a bed that one crop fills; else None."""
    region = question.soil_test.region if question.soil_test else ""
    if not region or len(crops) != 1 or soil is None:
        return None
    rate = published_rate_at(crops[0].key, nutrient, regions()[region], soil.of(TESTED[nutrient]))
    return None if rate is None or rate.reason or rate.element is None else rate


def _secondary(question: NeedQuestion, soil: SoilReading) -> Iterator[NeedRange]:
    """Calcium and magnesium where a test finds them low and no lime is due that brings them."""
    if lime_first(question):
        return
    for element in (Element.CA, Element.MG):
        if soil.class_of(element) in LOW:
            yield secondary_needs()[element]


def lime_first(question: NeedQuestion) -> bool:
    """Whether the soil is so sour that lime comes before gypsum and Epsom salt."""
    ph = question.soil_test.ph if question.soil_test else None
    limed_from = hard_limit("lime_no_buffer_ph").from_ph
    return ph is not None and limed_from is not None and ph < limed_from


def _boron(crops: tuple[PlannedCrop, ...], soil: SoilReading) -> Iterator[NeedRange]:
    """Boron where a test finds it low, for crops that answer, and none beside sensitive ones."""
    responses = [boron_responses().get(planned.key) for planned in crops]
    known = [one for one in responses if one is not None]
    wanted = max((one.high_kg_per_m2 for one in known), default=NONE)
    sensitive = any(one.sensitive for one in known)
    if soil.class_of(Element.B) not in LOW or sensitive or not wanted:
        return
    limit = hard_limit("boron_most")
    most = min(wanted, limit.value)
    yield NeedRange(
        nutrient="B", least=NONE, aim=most, most=most, cap=most, citation=limit.citation
    )


def account_of(question: NeedQuestion, soil: SoilReading | None) -> tuple[PhosphorusLine, ...]:
    """The account over the earlier years; a test with its year tells what to expect after it."""
    found, test = soil.of(Element.P) if soil else None, question.soil_test
    tested = None
    if found and test and test.year is not None and found.short_mg_per_kg is not None:
        tested = Measured(mg_per_kg=found.figure.value, year=test.year)
    return phosphorus_account(question.years, movement("P2O5"), tested)


def _stop(removed: Removal, account: tuple[PhosphorusLine, ...]) -> Fraction:
    """The most P2O5 this year: what the harvest takes, and the room left to the account's stop."""
    surplus = account[-1].surplus_kg_per_m2 if account else NONE
    return removed.p2o5 + room_kg_per_m2(default("p2o5_surplus_stop").value, surplus)
