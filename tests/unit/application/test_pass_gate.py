"""What is spread, as the gate counts it, and lime in a mix told with its numbers."""

from dataclasses import replace
from fractions import Fraction

import pytest

from halfpail.application.lime_in_mix import lime_in_mix_notices, lime_share
from halfpail.application.pass_gate import (
    bag_dose,
    breach_notice,
    material_dose,
    mix_dose,
    pass_gate,
    together,
)
from halfpail.application.sum_mix import MixQuestion, sum_mix
from halfpail.domain.label import Analysis
from halfpail.domain.matter import Nutrient
from halfpail.domain.mix import Mix, Part, stir
from halfpail.domain.safe_gate import BedFacts, Dose, Given
from halfpail.domain.stock import Bag
from halfpail.findings import Severity
from halfpail.quantities.units import System
from halfpail.reference.table_units import table_unit
from tests.unit.domain.bags import bag

ONE = Fraction(1)
LB = table_unit("lb_per_100_sq_ft").size


HAIR = Fraction(1, 10**9)
BORON_MOST = table_unit("lb_per_acre").size
BEANS_ASIDE = BedFacts(boron_sensitive=False)


def borax() -> Bag:
    """Borax with a label of a hundredth of a percent."""
    one = of("borax")
    analysis = Analysis(shares={Nutrient.B: Fraction(1, 10**4)})
    return replace(one, label=replace(one.label, analysis=analysis))


def of(material: str, key: str = "one") -> Bag:
    return replace(bag(key), materials=(material,))


def limed(share_of_lime: int) -> Mix:
    """So many scoops of limestone in twenty, the rest a 4-4-4 that weighs the same."""
    return stir(
        [
            Part(bag=bag("mix", 4, 4, 4), scoops=20 - share_of_lime),
            Part(bag=of("calcitic_lime", "lime"), scoops=share_of_lime),
        ],
        ONE,
    )


@pytest.mark.parametrize(
    ("key", "amounts"),
    [
        ("calcitic_lime", {Given.LIME: ONE}),
        ("hydrated_lime", {Given.LIME: Fraction(6, 5)}),
        ("dolomitic_lime", {Given.LIME: ONE, Given.DOLOMITE: ONE}),
        ("wood_ash", {Given.ASH: ONE, Given.LIME: Fraction(1, 2)}),
        ("sulfur", {Given.SULFUR: ONE}),
        ("epsom_salt", {Given.MAGNESIUM: ONE}),
        ("gypsum", {}),
        ("blood_meal", {}),
    ],
)
def test_each_material_counts_as_what_it_is(key, amounts):
    assert dict(material_dose(key, ONE).amounts) == amounts


def test_the_lime_value_on_the_bag_counts():
    assert material_dose("hydrated_lime", ONE, Fraction(135, 100)).amounts[Given.LIME] == Fraction(
        135, 100
    )


def test_a_bag_counts_by_its_nutrients():
    food = bag("food", 10, 4, 2)
    label = replace(
        food.label,
        analysis=Analysis(
            shares={**food.label.analysis.shares, Nutrient.B: Fraction(1, 5000)},
            total_p2o5=Fraction(9, 100),
        ),
    )
    usable = replace(food.usable_n, quick=Fraction(3, 100))
    dose = bag_dose(replace(food, label=label, usable_n=usable), Fraction(2))
    assert dict(dose.amounts) == {
        Given.QUICK_N: Fraction(6, 100),
        Given.LABEL_N: Fraction(20, 100),
        Given.P2O5_TOTAL: Fraction(18, 100),
        Given.BORON: Fraction(2, 5000),
    }


@pytest.mark.parametrize(
    ("percent", "stopped"),
    [("0.02", False), ("0.0999", False), ("0.1", True), ("11.3", True)],
)
def test_a_trace_of_boron_counts_and_a_boron_material_is_stopped(percent, stopped):
    """0.1 % is where a label must warn (washington-minimums); a blend holds 0.02 %."""
    one = bag("one")
    share = Fraction(percent) / 100
    label = replace(one.label, analysis=Analysis(shares={Nutrient.B: share}))
    rate = BORON_MOST / share
    found = pass_gate(BEANS_ASIDE, [bag_dose(replace(one, label=label), rate)])
    assert [breach.limit.key for breach in found] == (["boron_no_figure"] if stopped else [])
    above = pass_gate(BEANS_ASIDE, [bag_dose(replace(one, label=label), rate * (1 + HAIR))])
    assert "boron_most" in [breach.limit.key for breach in above]


def test_borax_is_stopped_whatever_its_label_says():
    assert [one.limit.key for one in pass_gate(BEANS_ASIDE, [bag_dose(borax(), LB)])] == [
        "boron_no_figure"
    ]


def test_a_mix_counts_bag_by_bag():
    dose = mix_dose(limed(1), Fraction(10))
    assert dose.amounts[Given.LIME] == Fraction(1, 2)
    assert dose.amounts[Given.LABEL_N] == Fraction(38, 100)


def test_two_things_at_one_time_are_one_dose():
    both = together([Dose(amounts={Given.LIME: ONE}), Dose(amounts={Given.LIME: ONE})])
    assert both.amounts[Given.LIME] == 2


def test_the_gate_speaks_in_words():
    ash = pass_gate(BedFacts(), [material_dose("wood_ash", 3 * LB)])
    said = {one.limit.key: breach_notice(one, System.US) for one in ash}
    assert {"ash_year", "ash_no_ph", "lime_no_ph"} == set(said)
    assert said["ash_year"].severity is Severity.STOP
    assert said["ash_year"].sentence.startswith(
        "3 lb per 100 sq ft of wood ash is above the most of 2 lb per 100 sq ft for a year"
    )


def test_five_hundredths_of_lime_are_told_with_their_half_pound():
    """5 % of lime at 10 lb of mix per 100 sq ft is 0.5 lb (computed)."""
    mix = limed(1)
    assert lime_share(mix) == Fraction(1, 20)
    assert mix.analysis.of(Nutrient.N) == Fraction(38, 1000)
    (notice,) = lime_in_mix_notices(mix, System.US)
    assert "Lime is 5 % of this mix" in notice.sentence
    assert "it brings 0.5 lb per 100 sq ft of lime, which changes no pH" in notice.sentence


def test_a_mix_without_lime_or_of_lime_alone_needs_no_sentence():
    assert lime_in_mix_notices(limed(0), System.US) == ()
    assert lime_in_mix_notices(limed(20), System.US) == ()


def test_a_summed_mix_tells_its_lime():
    mix = limed(2)
    summed = sum_mix(MixQuestion(parts=mix.parts, scoop_l=ONE, pail_l=Fraction(60)))
    assert any("Lime is 10 % of this mix" in one.sentence for one in summed.notices)
