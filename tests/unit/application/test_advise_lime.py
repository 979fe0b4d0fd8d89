"""Safe defaults of lime, ash, sulfur, calcium and magnesium, one sentence of the rules each."""

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from halfpail.application.advise_lime import LimeAnswer, advise_lime
from halfpail.application.lime_notices import lime_notices
from halfpail.application.lime_question import (
    BedUse,
    EarlierLime,
    Found,
    LimeProduct,
    LimeQuestion,
    PailMix,
)
from halfpail.domain.label import Analysis
from halfpail.domain.lime_method import Buffer, Texture
from halfpail.domain.matter import Nutrient
from halfpail.domain.soil_test import BufferReading
from halfpail.findings import Severity
from halfpail.quantities.units import size_of
from halfpail.reference.table_units import table_unit

LB = table_unit("lb_per_100_sq_ft").size
TON = table_unit("tons_per_acre").size
GROUND = 100 * size_of("sq ft")
PLAIN = LimeQuestion(soil_ph=Fraction("5.4"), area_m2=GROUND, texture=Texture.LOAM)
TESTED = replace(PLAIN, buffer=BufferReading(buffer=Buffer.SIKORA, value=Fraction("6.0")))
PURE = LimeProduct(key="calcitic_lime", cce=Fraction(1))
COARSE = LimeProduct(key="calcitic_lime", effective=Fraction(3, 10))


def ask(base: LimeQuestion = PLAIN, **changes: Any) -> LimeAnswer:
    return advise_lime(replace(base, **changes))


def sentences(question: LimeQuestion) -> str:
    return " ".join(one.sentence for one in lime_notices(advise_lime(question), question))


def test_one_target_for_a_bed():
    targets = {use: ask(use=use).target_ph for use in (BedUse.ORDINARY, BedUse.POTATOES)}
    assert targets == {BedUse.ORDINARY: Fraction("6.5"), BedUse.POTATOES: 6}
    assert ask(use=BedUse.ACID, soil_ph=Fraction(5)).target_ph == Fraction("5.2")
    assert ask(target_ph=Fraction("6.2")).target is None


@pytest.mark.parametrize("soil_ph", ["6.3", "6.4", "6.5", "7.0"])
def test_no_lime_without_a_buffer_test_from_6_3_up(soil_ph):
    answer = ask(soil_ph=Fraction(soil_ph))
    assert answer.lime is None
    assert answer.ash is None


@pytest.mark.parametrize("texture", [one for one in Texture if one is not Texture.ORGANIC])
@pytest.mark.parametrize("product", [None, PURE, COARSE, LimeProduct(key="hydrated_lime")])
def test_at_most_five_pounds_without_a_buffer_test(texture, product):
    lime = ask(soil_ph=Fraction("4.5"), texture=texture, product=product).lime
    assert lime is not None
    assert lime.spreading.planned_kg_per_m2 <= 5 * LB
    assert lime.spreading.parts == 1


def test_without_a_buffer_test_a_new_test_is_asked_for():
    assert "Test again next year" in sentences(PLAIN)


def test_organic_soil_waits_for_a_buffer_test():
    question = replace(PLAIN, texture=Texture.ORGANIC)
    assert advise_lime(question).lime is None
    assert "buffer test only" in sentences(question)


def test_oregon_for_a_garden_bed():
    """EM 9585: buffer 6.0, 3.5 tons to 6.4 and 4.6 to 6.8, so 3.775 to 6.5, in two halves."""
    answer = ask(TESTED, product=PURE)
    assert answer.need.rate_kg_per_m2 == Fraction("3.775") * TON
    assert answer.lime.spreading.parts == 2
    assert answer.lime.spreading.months_apart == 6
    assert answer.lime.spreading.part_kg_per_m2 == Fraction("3.775") * TON / 2


def test_never_more_than_ten_pounds_at_a_time():
    sour = BufferReading(buffer=Buffer.SIKORA, value=Fraction("4.8"))
    lime = ask(TESTED, buffer=sour, soil_ph=Fraction("4.2"), product=PURE).lime
    assert lime.spreading.parts == 3
    assert lime.spreading.part_kg_per_m2 == 10 * LB
    assert lime.spreading.waits_kg_per_m2 > 0


def test_a_method_can_be_chosen_and_the_other_is_shown():
    acid = BufferReading(buffer=Buffer.ACIDITY, value=Fraction("9.7"))
    field = ask(TESTED, buffer=acid)
    turf = ask(TESTED, buffer=acid, method="acidity_pa_table")
    assert field.need.method.key == "acidity_pa"
    assert turf.need.method.key == "acidity_pa_table"
    assert [one.name for one in field.published] == [turf.need.method.name]


def test_potatoes_are_read_in_the_table_that_has_their_target():
    acid = BufferReading(buffer=Buffer.ACIDITY, value=Fraction("9.7"))
    answer = ask(TESTED, buffer=acid, use=BedUse.POTATOES)
    assert answer.need.method.key == "acidity_pa_table"
    assert answer.need.rate_kg_per_m2 == 14 * LB


def test_earlier_lime_is_counted_down():
    """North Carolina: 8 % a month, so of 2.5 lb 2 lb are still to act after 2.5 months."""
    given = EarlierLime(rate_kg_per_m2=Fraction("2.5") * LB, months=Fraction("2.5"))
    before, after = ask(TESTED), ask(TESTED, earlier=given)
    assert before.wanted_kg_per_m2 - after.wanted_kg_per_m2 == 2 * LB
    organic = ask(TESTED, earlier=given, texture=Texture.ORGANIC)
    assert organic.credit_kg_per_m2 == Fraction("1.5") * LB


def test_depth_counts_where_the_method_says_which():
    six, three = (ask(TESTED, depth_m=inches * size_of("in")) for inches in (6, 3))
    assert three.wanted_kg_per_m2 == six.wanted_kg_per_m2 / 2 == ask(TESTED).wanted_kg_per_m2 / 2
    mehlich = replace(TESTED, buffer=BufferReading(buffer=Buffer.MEHLICH, value=Fraction(6)))
    assert "states no depth" in sentences(replace(mehlich, depth_m=3 * size_of("in")))


def test_dolomite_only_where_magnesium_is_low():
    assert ask(TESTED).value.material.key == "calcitic_lime"
    assert ask(TESTED, magnesium=Found.ENOUGH).value.material.key == "calcitic_lime"
    assert ask(TESTED, magnesium=Found.LOW).value.material.key == "dolomitic_lime"


def test_dolomite_asked_for_without_a_test_is_stopped():
    question = replace(TESTED, product=LimeProduct(key="dolomitic_lime"))
    answer = advise_lime(question)
    assert [one.limit.key for one in answer.breaches] == ["dolomite_untested"]
    assert answer.lime is None
    assert lime_notices(answer, question)[0].severity is Severity.STOP


def test_epsom_salt_only_where_magnesium_is_low_and_no_dolomite_goes_on():
    right = replace(PLAIN, soil_ph=Fraction("6.5"))
    assert ask(right).epsom is None
    assert ask(right, magnesium=Found.ENOUGH).epsom is None
    assert ask(right, magnesium=Found.LOW).epsom.spreading.part_kg_per_m2 == LB
    assert ask(TESTED, magnesium=Found.LOW).epsom is None


def test_gypsum_only_where_calcium_is_low_and_no_lime_brings_it():
    right = replace(PLAIN, soil_ph=Fraction("6.5"))
    assert ask(right).gypsum is None
    assert ask(right, calcium=Found.ENOUGH).gypsum is None
    assert ask(TESTED, calcium=Found.LOW).gypsum is None
    gypsum = ask(right, calcium=Found.LOW).gypsum
    assert gypsum.spreading.part_kg_per_m2 == LB
    assert gypsum.brings(Nutrient.CA) == LB * Fraction(22, 100)
    assert gypsum.brings(Nutrient.MG) == 0


def test_ash_is_limited_by_its_lime_value_first_and_then_by_the_year():
    small = ask(soil_ph=Fraction("6.2"), texture=Texture.SAND)
    assert small.ash.spreading.part_kg_per_m2 == 2 * small.wanted_kg_per_m2
    assert small.ash.spreading.waits_kg_per_m2 == 0
    large = ask(TESTED)
    assert large.ash.part_kg == 2 * size_of("lb")
    assert large.ash.spreading.waits_kg_per_m2 > 0


def test_ash_as_the_material_stands_alone():
    answer = ask(TESTED, product=LimeProduct(key="wood_ash"))
    assert answer.lime is None
    assert answer.ash.part_kg == 2 * size_of("lb")
    assert answer.breaches == ()


def test_what_holds_for_ash_is_not_said_of_the_limestone_beside_it():
    beside = sentences(TESTED)
    assert "Wood ash burns" in beside and "This burns" not in beside
    assert "hydrated lime" not in beside
    alone = sentences(replace(TESTED, product=LimeProduct(key="wood_ash")))
    assert "This burns" in alone and "Wood ash burns" not in alone


@pytest.mark.parametrize("soil_ph", ["6.5", "6.8", "7.0"])
def test_no_ash_at_the_target_or_above(soil_ph):
    """Not from pH 7.0 on but from the bed's target."""
    assert ask(TESTED, soil_ph=Fraction(soil_ph)).ash is None


def test_acid_loving_crops_get_neither_lime_nor_ash():
    answer = ask(TESTED, use=BedUse.ACID, soil_ph=Fraction("4.2"))
    assert answer.lime is answer.ash is answer.sulfur is None
    assert "before you raise it" in sentences(
        replace(TESTED, use=BedUse.ACID, soil_ph=Fraction("4.2"))
    )


@pytest.mark.parametrize(("planted", "most"), [(True, 1), (False, 2)])
def test_sulfur_at_one_time(planted, most):
    answer = ask(use=BedUse.ACID, soil_ph=Fraction("6.8"), planted=planted)
    assert answer.sulfur.spreading.part_kg_per_m2 == most * LB
    assert answer.sulfur.spreading.waits_kg_per_m2 > 0
    assert answer.published


def test_an_ordinary_bed_above_its_target_is_left_alone():
    question = replace(PLAIN, soil_ph=Fraction("6.9"))
    answer = advise_lime(question)
    assert answer.spreads == ()
    assert "no lime and no ash" in sentences(question)


def test_within_the_slack_no_lime_yet():
    """E-2567, 1995: lime when 0.2 to 0.3 below the goal."""
    question = replace(TESTED, soil_ph=Fraction("6.4"))
    assert advise_lime(question).lime is None
    assert "no lime yet" in sentences(question)
    assert ask(TESTED, soil_ph=Fraction("6.3")).lime is not None


def test_a_container_gets_nothing():
    question = replace(TESTED, use=BedUse.CONTAINER)
    assert advise_lime(question).spreads == ()
    assert "saturated-media extract" in sentences(question)


def test_hydrated_lime_is_talked_out_of():
    question = replace(TESTED, product=LimeProduct(key="hydrated_lime"))
    assert "does not burn" in sentences(question)
    weaker = advise_lime(TESTED).lime.spreading.planned_kg_per_m2
    assert advise_lime(question).lime.spreading.planned_kg_per_m2 < weaker


def test_the_effective_value_of_a_bag_counts():
    half = replace(PURE, effective=Fraction(1, 2))
    one, other = (ask(TESTED, product=product).lime.spreading for product in (PURE, half))
    all_of = [each.planned_kg_per_m2 + each.waits_kg_per_m2 for each in (one, other)]
    assert all_of[1] == 2 * all_of[0]


def test_five_hundredths_of_lime_in_a_pail():
    """A 4-4-4 with 5 % of lime is 3.8-3.8-3.8; at 10 lb it brings 0.5 lb (computed)."""
    shares = dict.fromkeys((Nutrient.N, Nutrient.P2O5, Nutrient.K2O), Fraction(4, 100))
    mix = PailMix(
        analysis=Analysis(shares=shares), lime_share=Fraction(1, 20), rate_kg_per_m2=10 * LB
    )
    pail = ask(pail=mix).pail
    assert pail.lime_kg_per_m2 == LB / 2
    assert pail.grade.n == pail.grade.p2o5 == pail.grade.k2o == Fraction("3.8")
