"""The gate, row by row: at a limit nothing is said, a hair above it the limit speaks."""

from dataclasses import replace
from fractions import Fraction

import pytest

from halfpail.domain.safe_gate import (
    BedFacts,
    Case,
    Dose,
    Given,
    HardLimit,
    Per,
    breaches,
    cases,
    most_of,
)
from halfpail.reference.defaults import default
from halfpail.reference.hard_limits import hard_limit, hard_limits
from halfpail.reference.table_units import table_unit

HAIR = Fraction(1, 10**9)
AIM = Fraction(1, 100)
LB_PER_100 = table_unit("lb_per_100_sq_ft").size
LB_PER_ACRE = table_unit("lb_per_acre").size
# A bed of which everything is known and nothing speaks against a generous amount.
OPEN = BedFacts(
    soil_ph=Fraction("5.5"),
    target_ph=Fraction("6.5"),
    buffer_tested=True,
    planted=False,
    magnesium_low=True,
    boron_figure=True,
    boron_sensitive=False,
    usable_n_aim_kg_per_m2=AIM,
)
MAKES = {
    Case.PH_UNKNOWN: replace(OPEN, soil_ph=None),
    Case.AT_TARGET: replace(OPEN, soil_ph=Fraction("6.5")),
    Case.AT_OR_BELOW_TARGET: OPEN,
    Case.NO_BUFFER: replace(OPEN, buffer_tested=False),
    Case.ACID_BED: replace(OPEN, acid_bed=True),
    Case.FREE_LIME: replace(OPEN, free_lime=True),
    Case.PLANTED: replace(OPEN, planted=True),
    Case.P_VERY_HIGH: replace(OPEN, p_very_high=True),
    Case.MG_NOT_LOW: replace(OPEN, magnesium_low=False),
    Case.NO_BORON_FIGURE: replace(OPEN, boron_figure=False),
    Case.BORON_SENSITIVE: replace(OPEN, boron_sensitive=True),
}


def bed_of(limit: HardLimit) -> BedFacts:
    bed = MAKES[limit.when[0]] if limit.when else OPEN
    return bed if limit.from_ph is None else replace(bed, soil_ph=limit.from_ph)


def most(limit: HardLimit) -> Fraction:
    return limit.value * AIM if limit.of_aim else limit.value


def given(limit: HardLimit, amount: Fraction) -> list[Dose]:
    """The amount in one dose, or over the year in two."""
    of = Given.P2O5_TOTAL if limit.per is Per.ACCOUNT else limit.of
    if limit.per is Per.DOSE:
        return [Dose(amounts={of: amount}), Dose(amounts={of: amount / 2})]
    return [Dose(amounts={of: amount / 2}), Dose(amounts={of: amount / 2})]


def spoken(limit: HardLimit, amount: Fraction, bed: BedFacts) -> bool:
    return limit.key in {one.limit.key for one in breaches([limit], bed, given(limit, amount))}


@pytest.mark.parametrize("limit", hard_limits(), ids=lambda limit: limit.key)
def test_each_limit_speaks_a_hair_above_and_not_at_it(limit):
    bed = bed_of(limit)
    assert not spoken(limit, most(limit), bed)
    assert spoken(limit, most(limit) + HAIR, bed)


@pytest.mark.parametrize(
    "limit", [one for one in hard_limits() if one.when], ids=lambda limit: limit.key
)
def test_each_limit_is_silent_where_its_case_is_not_so(limit):
    other = OPEN
    if Case.AT_OR_BELOW_TARGET in limit.when:
        other = replace(OPEN, soil_ph=Fraction(7))
    assert not spoken(limit, most(limit) + 1, other)


def test_every_case_can_be_so():
    assert set(MAKES) == set(Case)
    for case, bed in MAKES.items():
        assert case in cases(bed)


def test_a_bed_of_which_nothing_is_known_may_get_next_to_nothing():
    bed = BedFacts()
    most_lime = most_of(hard_limits(), Given.LIME, Per.YEAR, bed)
    assert most_lime is not None
    assert most_lime[0] == LB_PER_100
    for of in (Given.SULFUR, Given.BORON_MATERIAL, Given.MAGNESIUM, Given.DOLOMITE, Given.ASH):
        found = most_of(hard_limits(), of, Per.YEAR, bed)
        assert found is not None
        assert found[0] == 0, of


def test_the_account_counts_what_was_there_and_what_leaves():
    stop = hard_limit("p2o5_surplus")
    bed = replace(OPEN, p2o5_surplus_kg_per_m2=stop.value, p2o5_removed_kg_per_m2=Fraction(1, 1000))
    at_stop = [Dose(amounts={Given.P2O5_TOTAL: Fraction(1, 1000)})]
    over = [Dose(amounts={Given.P2O5_TOTAL: Fraction(1, 1000) + HAIR})]
    assert breaches([stop], bed, at_stop) == ()
    assert [one.limit.key for one in breaches([stop], bed, over)] == ["p2o5_surplus"]


def test_a_bed_over_its_account_that_is_given_none_is_no_breach():
    stop = hard_limit("p2o5_surplus")
    bed = replace(OPEN, p2o5_surplus_kg_per_m2=stop.value * 3)
    assert breaches([stop], bed, [Dose(amounts={Given.LABEL_N: AIM})]) == ()


def test_total_nitrogen_is_held_to_the_aim_only_where_there_is_one():
    limit = hard_limit("label_n_aim")
    much = [Dose(amounts={Given.LABEL_N: 100 * AIM})]
    assert breaches([limit], replace(OPEN, usable_n_aim_kg_per_m2=None), much) == ()
    assert most_of([limit], Given.LABEL_N, Per.YEAR, BedFacts()) is None


@pytest.mark.parametrize(
    ("key", "amount", "unit"),
    [
        ("lime_no_buffer", "5", LB_PER_100),
        ("lime_dose", "10", LB_PER_100),
        ("quick_n_dose", "0.2", LB_PER_100),
        ("ash_year", "2", LB_PER_100),
        ("sulfur_bare", "2", LB_PER_100),
        ("sulfur_planted", "1", LB_PER_100),
        ("boron_most", "1", LB_PER_ACRE),
        ("p2o5_surplus", "0.5", LB_PER_100),
    ],
)
def test_limits_stand_as_decided(key, amount, unit):
    """The safe defaults of this project; ours, not published."""
    assert hard_limit(key).value == Fraction(amount) * unit


def test_shared_numbers_stand_once():
    assert hard_limit("label_n_aim").value == default("label_n_times_usable_aim").value
    assert hard_limit("lime_no_buffer_ph").from_ph == Fraction("6.3")
