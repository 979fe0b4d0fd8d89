"""No way to feed passes a limit, and each goes as far as it may."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from halfpail.application.answer_first import limits_without_test
from halfpail.application.feed_ground import AIM, Way, feed
from halfpail.domain.bed import Fit, Ground, History
from halfpail.quantities.units import size_of
from tests.unit.domain.bags import bag

LB_PER_100_SQ_FT = size_of("lb") / (100 * size_of("sq ft"))
LIMITS = limits_without_test(Ground())
BLOOD = bag("blood", 12, usable="0.66")


def pounds(rate_kg_per_m2: Fraction) -> float:
    return round(float(rate_kg_per_m2 / LB_PER_100_SQ_FT), 4)


def test_a_salt_alone_goes_up_to_the_aim():
    """Aim 0.18 lb usable N per 100 sq ft (ranges of an untested bed): 0.18 / 0.46 = 0.391 lb."""
    way = feed([bag("urea", 46)], LIMITS, spare_phosphorus=False)
    assert pounds(way.portions[0].rate_kg_per_m2) == 0.3913
    assert way.portions[0].stopped_by == AIM
    assert (way.n_fit, way.p2o5_fit) == (Fit.RIGHT, Fit.RIGHT)


def test_label_nitrogen_is_at_most_one_and_a_half_times_the_aim():
    """1.5 x 0.18 = 0.27 lb label N, so 0.27 / 4 % = 6.75 lb of a 4-4-0 at 45 %."""
    way = feed([bag("blend", 4, 4, usable="0.45")], LIMITS, spare_phosphorus=False)
    assert pounds(way.portions[0].rate_kg_per_m2) == 6.75
    assert pounds(way.given.n) == 0.1215
    assert pounds(way.given.p2o5) == 0.27
    assert way.p2o5_fit is Fit.TOO_MUCH


def test_beside_a_straight_source_phosphorus_stays_at_what_a_bed_loses():
    """0.05 lb P2O5 / 4 % = 1.25 lb of the blend, the rest of the nitrogen from the meal."""
    foods = [bag("blend", 4, 4, usable="0.45"), BLOOD]
    way = feed(foods, LIMITS, spare_phosphorus=True)
    assert pounds(way.portions[0].rate_kg_per_m2) == 1.25
    assert pounds(way.given.p2o5) == 0.05
    assert (way.p2o5_fit, way.n_fit) == (Fit.RIGHT, Fit.RIGHT)
    assert way.p2o5_surplus == 0
    assert way.years_to_stop is None


def test_compost_for_years_leaves_nitrogen_only():
    """Half an inch a year for three years means nitrogen only until tested."""
    fed = limits_without_test(Ground(compost_m_per_year=size_of("in") / 2, compost_years=3))
    way = feed([bag("blend", 4, 4, 4), BLOOD], fed, spare_phosphorus=True)
    assert [portion.food.key for portion in way.portions] == ["blood"]


def test_ground_never_fed_may_have_more_phosphorus():
    """0.20 lb P2O5 per 100 sq ft once on virgin ground."""
    virgin = limits_without_test(Ground(history=History.VIRGIN))
    way = feed([bag("blend", 4, 4)], virgin, spare_phosphorus=True)
    assert pounds(way.given.p2o5) == 0.18  # its nitrogen stops it first


@pytest.mark.parametrize(("usable", "doses"), [("0.10", 1), ("0.11", 2), ("0.21", 3)])
def test_quick_nitrogen_comes_in_doses_of_a_tenth_of_a_pound(usable, doses):
    """None above 0.10 lb quick N per 100 sq ft in one dose (ranges of an untested bed)."""
    aim = Fraction(usable) * LB_PER_100_SQ_FT
    limits = replace(
        LIMITS,
        n=replace(LIMITS.n, aim=aim, most=aim),
        label_n_most=aim,
    )
    salt = bag("salt", 10)
    quick = replace(salt, usable_n=replace(salt.usable_n, quick=salt.usable_n.label))
    assert feed([quick], limits, spare_phosphorus=False).doses == doses


def test_a_food_without_nitrogen_goes_up_to_the_aims_only():
    """K2O 0 / 0.10 / 0.25 and P2O5 0 / 0 / 0.05 lb per 100 sq ft on fed ground."""
    potash = feed([bag("potash", 0, 0, 50)], LIMITS, spare_phosphorus=False)
    assert pounds(potash.given.k2o) == 0.10
    assert not feed([bag("bone", 0, 20)], LIMITS, spare_phosphorus=True).portions
    assert not feed([bag("sand")], LIMITS, spare_phosphorus=True).portions


def test_years_to_the_stop():
    """A surplus of 0.27 - 0.05 = 0.22 lb a year reaches 0.5 lb in the third year."""
    way = feed([bag("blend", 4, 4, usable="0.45")], LIMITS, spare_phosphorus=False)
    assert way.years_to_stop == 3


percent = st.integers(0, 40)


@given(percent, percent, percent, st.integers(1, 10), st.booleans())
def test_no_way_passes_a_limit(n, p2o5, k2o, tenths, spare):
    food = bag("food", n, p2o5, k2o, usable=Fraction(tenths, 10))
    way = feed([food, BLOOD], LIMITS, spare_phosphorus=spare)
    _within(way, spare)


def _within(way: Way, spare: bool) -> None:
    given_, limits = way.given, LIMITS
    assert given_.n <= limits.n.aim
    assert given_.n_high <= limits.n.most
    assert given_.label_n <= limits.label_n_most
    assert given_.k2o <= limits.k2o.most
    assert not spare or given_.p2o5_total <= limits.p2o5.most
    assert way.doses * limits.quick_n_per_dose >= given_.quick_n
