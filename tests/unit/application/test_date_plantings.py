"""Planting dates of every crop, north and south."""

from datetime import date, timedelta

import pytest

from halfpail.application.date_plantings import date_plantings
from halfpail.domain.frost_calendar import FrostDates
from halfpail.findings import Refusal
from halfpail.reference.crops import crops

NORTH = FrostDates(last=date(2027, 4, 22), first=date(2027, 10, 10))
HALF_A_YEAR = timedelta(days=183)
SOUTH = FrostDates(last=NORTH.last + HALF_A_YEAR, first=NORTH.first + HALF_A_YEAR)


def test_tomatoes_where_the_last_frost_is_on_22_april():
    """Planting vegetables, University of Illinois Extension, 2017: 25 April to 10 May."""
    window = date_plantings("tomatoes", NORTH).outdoors
    assert (window.start, window.until) == (date(2027, 4, 25), date(2027, 5, 10))


@pytest.mark.parametrize("crop", crops())
def test_every_crop_is_dated_half_a_year_later_in_the_south(crop):
    north, south = date_plantings(crop, NORTH), date_plantings(crop, SOUTH)
    assert north.outdoors is not None
    for window, later in ((north.outdoors, south.outdoors), (north.indoors, south.indoors)):
        if window is not None:
            assert later.start - window.start == HALF_A_YEAR
            assert later.until - window.until == HALF_A_YEAR


def test_autumn_sowing_leaves_time_to_ripen_before_the_frost():
    """Radish, 22 to 40 days (H-912, North Dakota State University), and our 14 days more."""
    assert NORTH.first - date_plantings("radish", NORTH).latest == timedelta(days=40 + 14)


def test_a_crop_nobody_knows():
    with pytest.raises(Refusal) as caught:
        date_plantings("moonflower", NORTH)
    assert caught.value.faults[0].place == "crop"
