"""Usable shares against the measurements they rest on."""

from fractions import Fraction
from itertools import pairwise

import pytest

from halfpail.reference.usable_nitrogen import (
    unnamed_nitrogen,
    unnamed_shares,
    unnamed_source,
    usable_shares,
)


@pytest.mark.parametrize(
    ("key", "low", "high", "read"),
    [
        # Journal of Environmental Quality 49(2):483, 2020: formulations in 84 days.
        ("granular_organics", 35, 55, ("low", "high")),
        # HortTechnology 2006: feather meal 60 % in 8 weeks, mean at 25 C 66 %.
        ("fast_meals", 60, 66, ("low", "typical")),
        # Cornell CSS 412, decay series, first year: 25 to 35 %; poultry 55 %.
        ("raw_manure", 25, 35, ("low", "high")),
        ("raw_poultry_manure", 55, 55, ("low", "high")),
        # HortScience 2000: manure compost 7 %, plant compost 2 %.
        ("manure_compost", 7, 15, ("low", "high")),
        ("plant_compost", 0, 2, ("low", "typical")),
    ],
)
def test_shares_are_as_measured(key, low, high, read):
    share = usable_shares(key).share
    assert [getattr(share, side) * 100 for side in read] == [low, high]


def test_alfalfa_follows_the_line_for_cover_crops():
    """PNW 636: none at 1.5 % N, 35 lb per ton of dry matter at 3.5 % N, a straight line between."""
    percent = Fraction("2.5")
    usable_lb_per_ton = 35 * (percent - Fraction("1.5")) / 2
    total_lb_per_ton = percent * 20
    assert usable_shares("plant_meals_low_n").share.typical == usable_lb_per_ton / total_lb_per_ton


def test_bands_of_unnamed_nitrogen_leave_no_gap():
    bands = unnamed_nitrogen()
    assert bands[0].above == 0
    assert bands[-1].to == 1
    assert all(lower.to == upper.above for lower, upper in pairwise(bands))


@pytest.mark.parametrize(
    ("percent", "typical"), [("0", 45), ("6", 45), ("6.01", 60), ("15", 60), ("15.5", 100)]
)
def test_a_bag_is_read_by_its_nitrogen(percent, typical):
    assert unnamed_shares(Fraction(percent) / 100).share.typical * 100 == typical


@pytest.mark.parametrize("share", [Fraction(-1, 100), Fraction(4)])
def test_a_percent_is_no_share(share):
    with pytest.raises(ValueError, match="between 0 and 1"):
        unnamed_shares(share)


def test_what_a_label_calls_insoluble_is_no_salt():
    """Above 15 % N all counts, but the part a label says is insoluble still counts as a blend."""
    rich = unnamed_source(Fraction(21, 100))
    assert rich.of_all.low == 1
    assert rich.of_insoluble == usable_shares("granular_organics").share
