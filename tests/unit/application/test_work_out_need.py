"""A need follows its crops, its soil test and what came before, and never passes its stops."""

from dataclasses import replace
from fractions import Fraction

import pytest

from halfpail.application.explain_need import need_working, soil_p_next_year
from halfpail.application.need_notices import need_notices
from halfpail.application.need_question import (
    CropPlan,
    Manure,
    NeedQuestion,
    NitrogenSources,
    Water,
)
from halfpail.application.work_out_need import WorkedNeed, work_out_need, year_most
from halfpail.domain.bed import Ground, History, NeedRange
from halfpail.domain.lime_method import Buffer
from halfpail.domain.phosphorus_account import PhosphorusYear
from halfpail.domain.soil_class import SoilClass
from halfpail.domain.soil_test import (
    BufferReading,
    Element,
    Extractant,
    Scale,
    SoilFigure,
    SoilTest,
)
from halfpail.findings import Severity
from halfpail.quantities.units import size_of
from halfpail.reference.crops import crop_group, crops
from halfpail.reference.hard_limits import hard_limit
from halfpail.reference.harvests import expected_yields, food_composition
from halfpail.reference.table_units import table_unit

PER_100 = table_unit("lb_per_100_sq_ft").size
PER_ACRE = table_unit("lb_per_acre").size
BED = Fraction(10)
ICP = Extractant.MEHLICH_3_ICP


def figure(element: Element, value: int | str, extractant: Extractant = ICP) -> SoilFigure:
    return SoilFigure(element=element, extractant=extractant, value=Fraction(value))


def report(*figures: SoilFigure, **rest: object) -> SoilTest:
    return SoilTest(figures=figures, **rest)  # type: ignore[arg-type]  # a shorthand of the tests


def worked(*names: str, **rest: object) -> WorkedNeed:
    """The need of a bed of crops in equal shares."""
    plans = tuple(CropPlan(crop=name, share=Fraction(1, len(names))) for name in names)
    told: dict[str, object] = {"area_m2": BED, "crops": plans, **rest}
    return work_out_need(NeedQuestion(**told))  # type: ignore[arg-type]  # a shorthand of the tests


def need(found: WorkedNeed, nutrient: str) -> NeedRange:
    one = found.need(nutrient)
    assert one is not None
    return one


def sentences(found: WorkedNeed) -> str:
    return " ".join(notice.sentence for notice in need_notices(found))


# ---- crops


def test_every_crop_has_a_need_and_at_least_fifty_a_harvest_that_can_be_reckoned():
    for key in crops():
        found = worked(key)
        assert [one.nutrient for one in found.needs] == ["N", "P2O5", "K2O"]
    assert len(crops()) >= 50
    assert len(set(food_composition()) & set(expected_yields())) >= 50


def test_without_a_test_the_ranges_of_the_group_hold():
    group = crop_group("medium").ranges
    found = worked("tomato")
    assert found.needs == (group.n, group.p2o5_fed, group.k2o)
    assert "No soil test" in sentences(found)


def test_virgin_ground_and_compost_keep_their_rules():
    virgin = worked("tomato", ground=Ground(history=History.VIRGIN))
    assert need(virgin, "P2O5").aim > 0
    compost = Ground(compost_m_per_year=size_of("in") / 2, compost_years=3)
    assert need(worked("tomato", ground=compost), "P2O5").cap == 0


def test_crops_share_a_bed_by_their_ground():
    heavy, light = worked("potato"), worked("carrot")
    both = worked("potato", "carrot")
    assert need(both, "N").aim == (need(heavy, "N").aim + need(light, "N").aim) / 2
    assert both.removed.p2o5 == (heavy.removed.p2o5 + light.removed.p2o5) / 2


def test_crops_that_follow_each_other_add_up_to_the_year_s_most():
    plans = (CropPlan(crop="spinach"), CropPlan(crop="cabbage", succession=2))
    found = work_out_need(NeedQuestion(area_m2=BED, crops=plans))
    assert need(found, "N").most == year_most()
    assert need(found, "N").aim == year_most()
    assert "no bed is planned above" in sentences(found)


def test_beans_beside_cabbage_are_to_be_fed_apart():
    assert "feed each part" in sentences(worked("bean", "cabbage"))


def test_a_gardener_s_own_yield_comes_first():
    plan = CropPlan(crop="tomato", yield_kg_per_m2=Fraction(6))
    own = work_out_need(NeedQuestion(area_m2=BED, crops=(plan,)))
    usual = worked("tomato")
    assert own.removed.k2o / usual.removed.k2o == 6 / expected_yields()["tomato"].good


def test_an_unknown_crop_is_no_guess():
    with pytest.raises(KeyError):
        worked("triffid")


# ---- phosphorus and potassium by class


def test_nothing_very_high_is_fed():
    found = worked("tomato", soil_test=report(figure(Element.P, 70), figure(Element.K, 140)))
    for nutrient in ("P2O5", "K2O"):
        assert need(found, nutrient).cap == need(found, nutrient).most == 0
    stops = [one for one in need_notices(found) if one.severity is Severity.STOP]
    assert len(stops) == 2


def test_at_optimum_what_the_harvest_takes_is_given_back():
    found = worked("tomato", soil_test=report(figure(Element.P, 50), figure(Element.K, 100)))
    assert need(found, "P2O5").aim == found.removed.p2o5
    assert need(found, "K2O").aim == found.removed.k2o


def test_at_high_nothing_is_aimed_at_and_no_more_than_the_harvest_allowed():
    test = report(figure(Element.P, 40, Extractant.OLSEN))
    phosphorus = need(worked("tomato", soil_test=test), "P2O5")
    assert phosphorus.aim == 0
    assert phosphorus.cap == phosphorus.most == worked("tomato").removed.p2o5


def test_a_low_bed_is_built_up_within_the_account_s_stop():
    found = worked("tomato", soil_test=report(figure(Element.P, 10)))
    phosphorus = need(found, "P2O5")
    assert phosphorus.aim > found.removed.p2o5
    assert phosphorus.cap == found.stop_kg_per_m2


def test_a_figure_no_table_reads_changes_nothing():
    found = worked("tomato", soil_test=report(figure(Element.S, 12)))
    assert found.needs == worked("tomato").needs
    assert "no table here reads it" in sentences(found)


def test_another_region_s_table_is_reached_by_an_equation_with_a_caution():
    test = report(figure(Element.P, 60), region="midwest")
    found = worked("tomato", soil_test=test)
    reading = found.soil.of(Element.P)
    assert reading.conversion.key == "ohio_icp"
    assert reading.table.region == "Midwest"
    assert "an equation of its own region" in sentences(found)


def test_morgan_stays_morgan_whatever_region_is_chosen():
    test = report(figure(Element.P, 3, Extractant.MORGAN), region="midwest")
    found = worked("tomato", soil_test=test)
    assert found.soil.of(Element.P).table.region == "New York"
    assert found.soil.of(Element.P).conversion is None
    assert "Morgan is never converted" in sentences(found)


@pytest.mark.parametrize(("ppm", "found"), [(99, SoilClass.LOW), (101, SoilClass.OPTIMUM)])
def test_midwest_potassium_goes_by_the_cec(ppm, found):
    """Between the printed points, 85 at CEC 4 and 115 at CEC 16: 100 at CEC 10."""
    test = report(figure(Element.K, ppm), cec=Fraction(10), region="midwest")
    assert worked("tomato", soil_test=test).soil.class_of(Element.K) is found


def test_a_chosen_region_s_own_rate_is_used_for_its_crop():
    """Ontario, eggplant: Olsen 12 and potassium 110 give 230 P2O5 and 100 K2O kg/ha."""
    figures = (
        figure(Element.P, 12, Extractant.OLSEN),
        figure(Element.K, 110, Extractant.AMMONIUM_ACETATE),
    )
    found = worked("eggplant", soil_test=report(*figures, region="ontario"))
    per_ha = table_unit("kg_per_ha").size
    assert need(found, "P2O5").aim == 230 * per_ha
    assert need(found, "K2O").aim == 100 * per_ha


def test_a_published_rate_beyond_the_stop_is_shown_and_not_used():
    test = report(figure(Element.P, 2, Extractant.OLSEN), region="ontario")
    found = worked("eggplant", soil_test=test)
    assert need(found, "P2O5").most <= found.stop_kg_per_m2
    assert "published, not used" in sentences(found)


def test_a_published_nought_is_none_at_all():
    test = report(figure(Element.P, 70, Extractant.OLSEN), region="ontario")
    assert need(worked("eggplant", soil_test=test), "P2O5").cap == 0


def test_an_index_of_north_carolina_has_its_own_classes():
    index = SoilFigure(element=Element.P, extractant=ICP, value=Fraction(120), scale=Scale.INDEX)
    assert need(worked("tomato", soil_test=report(index)), "P2O5").cap == 0


# ---- calcium, magnesium, boron


def test_low_calcium_and_magnesium_are_given_where_no_lime_is_due():
    figures = (figure(Element.CA, 300), figure(Element.MG, 30))
    found = worked("tomato", soil_test=report(*figures, ph=Fraction("6.6")))
    assert need(found, "Ca").aim > 0
    assert need(found, "Mg").aim > 0
    sour = worked("tomato", soil_test=report(*figures, ph=Fraction("5.4")))
    assert sour.need("Ca") is None
    assert sour.need("Mg") is None
    assert "lime comes first" in sentences(sour)


def test_enough_calcium_asks_for_none():
    assert worked("tomato", soil_test=report(figure(Element.CA, 900))).need("Ca") is None


def test_boron_needs_a_figure_a_crop_that_answers_and_none_that_suffers():
    low = report(figure(Element.B, "0.3"))
    assert worked("broccoli").need("B") is None
    boron = need(worked("broccoli", soil_test=low), "B")
    assert boron.cap == hard_limit("boron_most").value == PER_ACRE
    assert worked("broccoli", "bean", soil_test=low).need("B") is None
    assert worked("rose", soil_test=low).need("B") is None
    assert "do not bear it" in sentences(worked("broccoli", "bean", soil_test=low))


# ---- nitrogen that comes of itself


def test_organic_matter_is_credited_above_three_per_cent_up_to_its_most():
    def credit(percent: int) -> Fraction:
        test = report(organic_matter_share=Fraction(percent, 100))
        found = worked("sweet corn", soil_test=test)
        return found.nitrogen_before.aim - need(found, "N").aim

    assert credit(3) == 0
    assert 0 < credit(4) < credit(5)
    assert credit(9) == credit(20) == Fraction(15, 100) * PER_100


def test_humus_and_the_decay_of_compost_are_never_both_credited():
    ground = Ground(compost_m_per_year=size_of("in") / 2, compost_years=3)
    test = report(organic_matter_share=Fraction(9, 100))
    both = worked("sweet corn", ground=ground, soil_test=test)
    names = [one.name for one in both.credits]
    assert names == ["organic matter of the soil"]
    assert [one.name for one in worked("sweet corn", ground=ground).credits] != []


def test_a_legume_before_leaves_half_out_where_organic_matter_is_high():
    """Midwest: the side-dress half may be left out after a legume above 3 % organic matter."""
    legume = NitrogenSources(legume_before=True)
    rich = worked(
        "sweet corn",
        nitrogen=legume,
        soil_test=report(organic_matter_share=Fraction(301, 10_000)),
    )
    names = [one.name for one in rich.credits]
    assert "legume before" in names
    poor = worked("sweet corn", nitrogen=legume)
    assert poor.credits == ()
    assert "After a legume" in sentences(poor)


def test_nitrogen_never_falls_below_nought():
    water = Water(depth_m=Fraction(1), nitrate_n_ppm=Fraction(60))
    found = worked("carrot", nitrogen=NitrogenSources(water=water))
    assert need(found, "N").least == need(found, "N").aim == need(found, "N").most == 0


def test_older_manure_than_the_series_brings_nothing():
    old = Manure(series="poultry", years_ago=5, organic_n_kg_per_m2=Fraction(1))
    assert worked("tomato", nitrogen=NitrogenSources(manure=(old,))).credits == ()


def test_ammonium_counts_in_its_own_year_only():
    def given(years_ago: int) -> Fraction:
        manure = Manure(
            series="poultry",
            years_ago=years_ago,
            organic_n_kg_per_m2=Fraction(1, 1000),
            ammonium_n_kg_per_m2=Fraction(1, 1000),
        )
        found = worked("sweet corn", nitrogen=NitrogenSources(manure=(manure,)))
        return found.credits[0].rate_kg_per_m2

    assert given(0) == Fraction(155, 100_000)
    assert given(1) == Fraction(12, 100_000)


# ---- containers


def test_a_container_goes_by_its_volume_whatever_ground_it_covers():
    wide = worked("tomato", container_l=Fraction(50), area_m2=Fraction(2))
    narrow = worked("tomato", container_l=Fraction(50), area_m2=Fraction(1, 5))
    for nutrient in ("N", "K2O"):
        assert need(wide, nutrient).aim * 2 == need(narrow, nutrient).aim / 5


def test_a_field_test_changes_nothing_in_a_container():
    field = report(figure(Element.P, 200), figure(Element.K, 400))
    with_test = worked("tomato", container_l=Fraction(50), soil_test=field)
    assert with_test.needs == worked("tomato", container_l=Fraction(50)).needs
    assert "saturated-media" in sentences(with_test)


def test_a_rich_extract_of_bought_mix_means_none():
    media = Extractant.SATURATED_MEDIA
    test = report(
        figure(Element.NITRATE, 320, media),
        figure(Element.P, 30, media),
        figure(Element.K, 80, media),
    )
    found = worked("tomato", container_l=Fraction(50), soil_test=test)
    assert need(found, "N").cap == need(found, "P2O5").cap == 0
    assert need(found, "K2O").aim > 0


def test_an_extract_of_bought_mix_tells_nothing_of_a_bed():
    test = report(figure(Element.P, 30, Extractant.SATURATED_MEDIA))
    found = worked("tomato", soil_test=test)
    assert found.soil is None
    assert "nothing of a bed of soil" in sentences(found)


# ---- the phosphorus account


def year(number: int, pounds: str) -> PhosphorusYear:
    return PhosphorusYear(year=number, given_kg_per_m2=Fraction(pounds) * PER_100)


def test_earlier_years_narrow_the_stop_until_it_is_the_harvest_alone():
    stops = [
        worked("tomato", years=(year(2024, pounds),)).stop_kg_per_m2
        for pounds in ("0", "0.2", "0.5", "0.9")
    ]
    assert stops == sorted(stops, reverse=True)
    assert stops[-1] == stops[-2] == worked("tomato").removed.p2o5
    full = worked("tomato", years=(year(2024, "0.9"),))
    assert need(full, "P2O5").cap <= full.stop_kg_per_m2
    assert "reached its stop" in sentences(full)


def test_the_test_to_be_expected_follows_the_years_after_it():
    """20 lb P2O5 an acre beyond the harvest is 1 ppm (after the tri-state guide)."""
    years = (
        PhosphorusYear(year=2023, given_kg_per_m2=400 * PER_ACRE),
        PhosphorusYear(year=2024, given_kg_per_m2=40 * PER_ACRE),
    )
    found = worked("tomato", soil_test=report(figure(Element.P, 30), year=2023), years=years)
    assert [line.expected_mg_per_kg for line in found.account] == [None, 32]
    same = found.removed.p2o5
    assert soil_p_next_year(found, same) == 32
    assert soil_p_next_year(found, Fraction(0)) < 32


# ---- what is told


def test_the_working_names_each_step_and_who_says_so():
    figures = [figure(one, 100) for one in (Element.P, Element.K, Element.CA, Element.MG)]
    buffer = BufferReading(buffer=Buffer.SMP, value=Fraction("6.5"))
    found = worked("tomato", soil_test=report(*figures, buffer=buffer), years=(year(2025, "0.1"),))
    text = " ".join(f"{step.reason} {step.sum}" for step in need_working(found))
    for words in ("medium group", "harvest of fruit", "Rutgers", "CEC by the sum", "account, 2025"):
        assert words in text
    assert sum(1 for step in need_working(found) if step.citation) > 6


def test_ways_to_compare_are_of_their_own_kind():
    bray = report(figure(Element.P, 20, Extractant.BRAY_1))
    ways = {one.way for one in worked("tomato", soil_test=bray).comparisons}
    assert any("70 lb P an acre" in way for way in ways)
    icp = report(figure(Element.P, 20))
    assert not any("70 lb P" in one.way for one in worked("tomato", soil_test=icp).comparisons)


def test_every_published_nitrogen_says_which_it_means():
    for key in ("tomato", "eggplant", "cabbage", "spring_bulbs", "rose", "bean"):
        for one in worked(key).comparisons:
            assert one.nutrient != "N" or one.basis


def test_the_two_methods_stand_side_by_side():
    """Removal and a quarter of the gap to Rutgers' optimum, 35.5 ppm, at 20 lb an acre a ppm."""
    found = worked("tomato", soil_test=report(figure(Element.P, 15)))
    by_removal = next(one for one in found.comparisons if one.nutrient == "P2O5")
    lift = Fraction("20.5") * 20 * PER_ACRE / 4
    assert by_removal.low == found.removed.p2o5 + lift


def test_a_deep_sample_is_doubted():
    test = report(figure(Element.P, 30), depth_m=size_of("ft"))
    assert "the tables are made for" in sentences(worked("tomato", soil_test=test))
    shallow = replace(test, depth_m=size_of("ft") / 2)
    assert "tables are made for" not in sentences(worked("tomato", soil_test=shallow))


def test_an_equation_of_north_carolina_is_shown_at_its_index():
    """Table 2.4, equation 14 at an index of 40: 0.0116 x 1600 - 2.75 x 40 + 150 lb an acre."""
    index = SoilFigure(element=Element.P, extractant=ICP, value=Fraction(40), scale=Scale.INDEX)
    found = worked("tomato", soil_test=report(index, p_equation=14))
    shown = next(one for one in found.comparisons if "equation 14" in one.way)
    assert shown.low == Fraction("58.56") * PER_ACRE
    misprint = worked("tomato", soil_test=report(index, p_equation=22))
    assert next(one for one in misprint.comparisons if "equation 22" in one.way).reason
