"""A wish as it is typed: one of a grade, a ratio and a purpose."""

from fractions import Fraction

import pytest

from halfpail.application.read_target import (
    GRADE_WITHIN,
    purpose_target,
    ratio_target,
    read_target,
)
from halfpail.domain.matter import Nutrient
from halfpail.domain.recipe import GradeTarget, PerNitrogen, RatioTarget
from halfpail.findings import Refusal

GRADE = {
    Nutrient.N: Fraction(4),
    Nutrient.P2O5: Fraction(3),
    Nutrient.K2O: Fraction(4),
}


def place_of(refusal: pytest.ExceptionInfo[Refusal]) -> str:
    return refusal.value.faults[0].place


def test_a_grade_has_one_tolerance_for_each_number_that_is_not_free() -> None:
    target = read_target(GRADE, None, None, "0.3", ("P2O5",))
    assert isinstance(target, GradeTarget)
    assert target.percent == {"N": 4, "K2O": 4}
    assert target.tolerance == {"N": Fraction(3, 10), "K2O": Fraction(3, 10)}


def test_without_a_word_our_default_tolerance_holds() -> None:
    target = read_target(GRADE, None, None, None, ())
    assert isinstance(target, GradeTarget)
    assert set(target.tolerance.values()) == {GRADE_WITHIN}


def test_a_ratio_is_to_nitrogen() -> None:
    target = read_target(None, "3:1:2", None, "1/2", ())
    assert isinstance(target, RatioTarget)
    assert target.aim == {"P2O5": Fraction(1, 3), "K2O": Fraction(2, 3)}
    assert target.low == {"P2O5": 0, "K2O": Fraction(1, 6)}
    assert target.high == {"P2O5": Fraction(5, 6), "K2O": Fraction(7, 6)}
    assert target.per is PerNitrogen.LABEL


def test_a_purpose_counts_usable_nitrogen_and_never_asks_for_phosphorus() -> None:
    target = purpose_target("fruiting")
    assert target.per is PerNitrogen.USABLE
    assert set(target.aim) == set(target.low) == {"K2O"}
    assert purpose_target("no_phosphorus").high["P2O5"] < 1


@pytest.mark.parametrize("text", ["3-1", "3-1-2-1", "", "a-b-c", "0-1-2", "3--1-2", "nan-1-1"])
def test_what_is_no_ratio_is_refused(text: str) -> None:
    with pytest.raises(Refusal) as refusal:
        ratio_target(text, Fraction(1))
    assert place_of(refusal) == "--ratio"


def test_one_wish_at_a_time() -> None:
    for ratio, purpose in ((None, None), ("3-1-2", "leafy")):
        with pytest.raises(Refusal) as refusal:
            read_target(None, ratio, purpose, None, ())
        assert place_of(refusal) == "wish"


def test_unknown_purposes_and_odd_tolerances_are_refused() -> None:
    with pytest.raises(Refusal) as refusal:
        read_target(None, None, "cactus", None, ())
    assert place_of(refusal) == "--purpose"
    with pytest.raises(Refusal) as refusal:
        read_target(GRADE, None, None, "-1", ())
    assert place_of(refusal) == "--within"
