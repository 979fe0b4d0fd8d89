"""Assumed numbers: those that follow from something published follow from it."""

from fractions import Fraction

import pytest

from halfpail.domain.recipe import RatioTarget
from halfpail.quantities.units import size_of
from halfpail.reference.defaults import default, defaults
from halfpail.reference.purposes import purposes
from halfpail.sources import Mark


def test_an_inch_of_compost_weighs_what_its_density_says():
    """1000 lb per cu yd (soil manual, appendix A); 100 sq ft by an inch."""
    density = 1000 * size_of("lb") / size_of("cu yd")
    litres_per_m2 = size_of("in") * 1000
    found = default("compost_inch_mass").value
    assert abs(found / (density * litres_per_m2) - 1) < Fraction(1, 100)


def test_organic_nitrogen_of_later_years_is_as_printed():
    """Cornell CSS 412, decay series: 12 % in the second year, 5 % in the third."""
    found = [default(key).value for key in ("second_year_n", "third_year_n")]
    assert found == [Fraction(12, 100), Fraction(5, 100)]


def test_rows_stand_as_printed():
    """Three 100-ft rows spaced 36 in are 900 sq ft (Growing vegetables in home gardens)."""
    rows_m2 = 3 * 100 * size_of("ft") * default("row_space").value
    assert rows_m2 == 900 * size_of("sq ft")


def test_lows_lie_below_highs():
    for one in defaults().values():
        assert one.low is None or one.low <= one.value
        assert one.high is None or one.value <= one.high


def test_what_is_assumed_says_so():
    assert default("price_ceiling").citation.mark is Mark.COMMON_PRACTICE
    assert default("blend_density").citation.mark is Mark.PROPOSAL


def test_an_unknown_default_is_refused():
    with pytest.raises(KeyError):
        default("luck")


@pytest.mark.parametrize("target", [one.target for one in purposes().values()])
def test_purposes_never_ask_for_phosphorus(target: RatioTarget):
    assert "P2O5" not in target.low
    assert "P2O5" not in target.aim
    assert target.low["K2O"] < target.aim["K2O"] < target.high["K2O"]


def test_leafy_leans_to_nitrogen_and_roots_to_potash():
    aims = {key: one.target.aim["K2O"] for key, one in purposes().items()}
    assert aims["leafy"] < aims["all_purpose"] < aims["fruiting"] < aims["roots_bulbs"]
