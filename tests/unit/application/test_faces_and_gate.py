"""The first answer and a mix before the gate: at a limit nothing is said, a hair above it stops."""

from dataclasses import replace
from fractions import Fraction

import pytest

from halfpail.application.answer_first import limits_without_test
from halfpail.application.feed_ground import Portion, way_of
from halfpail.application.hold_mix_to_gate import mix_stops
from halfpail.application.hold_way_to_gate import hold_way_to_gate, way_notices
from halfpail.application.pass_gate import bag_dose
from halfpail.application.sum_mix import MixQuestion, sum_mix
from halfpail.domain.bed import Ground
from halfpail.domain.label import Analysis
from halfpail.domain.matter import Nutrient
from halfpail.domain.mix import Part, stir
from halfpail.domain.stock import Bag
from halfpail.findings import Severity
from halfpail.quantities.units import System
from halfpail.reference.defaults import default
from halfpail.reference.hard_limits import hard_limit
from halfpail.reference.table_units import table_unit
from tests.unit.domain.bags import bag

ONE = Fraction(1)
HAIR = Fraction(1, 10**9)
LB = table_unit("lb_per_100_sq_ft").size
PER_ACRE = table_unit("lb_per_acre").size
LIMITS = limits_without_test(Ground())


def of(material: str) -> Bag:
    return replace(bag("food"), materials=(material,))


def boron(share: Fraction) -> Bag:
    one = bag("food")
    analysis = Analysis(shares={Nutrient.B: share})
    return replace(one, label=replace(one.label, analysis=analysis))


# Each food with the rate that brings ground nobody knows to the limit.
AT_LIMIT = {
    "label_n_aim": (bag("food", 10), LIMITS.n.aim * Fraction(15, 10) * 10),
    "p2o5_surplus": (bag("food", 0, 10), (LIMITS.p2o5_stop + LIMITS.p2o5_loss[1]) * 10),
    "lime_no_ph": (of("calcitic_lime"), LB),
    "ash_no_ph": (of("wood_ash"), Fraction(0)),
    "sulfur_no_ph": (of("sulfur"), Fraction(0)),
    "magnesium_untested": (of("epsom_salt"), Fraction(0)),
    "dolomite_untested": (of("dolomitic_lime"), Fraction(0)),
    "boron_most": (boron(Fraction(1, 10**4)), PER_ACRE * 10**4),
    "boron_no_figure": (boron(Fraction(1, 100)), Fraction(0)),
}


@pytest.mark.parametrize("key", AT_LIMIT)
def test_a_way_to_feed_is_cut_to_the_limit(key):
    food, most = AT_LIMIT[key]

    def held(rate: Fraction):
        portions = [Portion(food=food, rate_kg_per_m2=rate, stopped_by="nothing")] if rate else []
        return hold_way_to_gate(
            way_of(portions, LIMITS), LIMITS, lambda one: bag_dose(one.food, one.rate_kg_per_m2)
        )

    assert held(most) == (held(most)[0], ())
    way, found = held(most + HAIR)
    assert key in [one.limit.key for one in found]
    assert sum((one.rate_kg_per_m2 for one in way.portions), Fraction(0)) == most
    stops = list(way_notices("The mix alone", found, System.US))
    assert {stop.severity for stop in stops} == {Severity.STOP}
    assert any(hard_limit(key).sentence in stop.sentence for stop in stops)


def test_a_cut_leaves_what_does_not_bring_the_stuff():
    lime = Portion(food=of("calcitic_lime"), rate_kg_per_m2=4 * LB, stopped_by="nothing")
    meal = Portion(food=bag("meal", 1), rate_kg_per_m2=LB, stopped_by="nothing")
    way, found = hold_way_to_gate(
        way_of([lime, meal], LIMITS), LIMITS, lambda one: bag_dose(one.food, one.rate_kg_per_m2)
    )
    assert [portion.rate_kg_per_m2 for portion in way.portions] == [LB, LB]
    assert [one.limit.key for one in found] == ["lime_no_ph"]


def stops_of(food: Bag, share: Fraction) -> list[str]:
    """The stops of a mix in which a food has a share by weight."""
    rest = bag("rest", 4, 4, 4)
    scoops = [Part(bag=food, scoops=share), Part(bag=rest, scoops=1 - share)]
    mix = stir([part for part in scoops if part.scoops], ONE)
    return [stop.sentence for stop in mix_stops(mix, System.US)]


def test_a_mix_with_lime_is_stopped_a_hair_above_a_tenth():
    """A tenth of 10 lb is the pound that may go on without a pH."""
    assert default("pail_mix_rate").value == 10 * LB
    assert stops_of(of("calcitic_lime"), Fraction(1, 10)) == []
    above = stops_of(of("calcitic_lime"), Fraction(1, 10) + HAIR)
    assert len(above) == 1
    assert hard_limit("lime_no_ph").sentence in above[0]


@pytest.mark.parametrize(
    ("food", "key"),
    [
        (of("wood_ash"), "ash_no_ph"),
        (of("epsom_salt"), "magnesium_untested"),
        (boron(Fraction(1, 10)), "boron_no_figure"),
    ],
)
def test_a_mix_with_a_hair_of_what_nobody_gets_is_stopped(food, key):
    assert stops_of(food, Fraction(0)) == []
    assert any(hard_limit(key).sentence in said for said in stops_of(food, HAIR))


def test_the_stop_of_a_mix_is_told_first():
    parts = (Part(bag=of("epsom_salt"), scoops=1), Part(bag=bag("rest", 4), scoops=3))
    summed = sum_mix(MixQuestion(parts=parts, scoop_l=ONE, pail_l=Fraction(60)))
    assert summed.notices[0].severity is Severity.STOP
