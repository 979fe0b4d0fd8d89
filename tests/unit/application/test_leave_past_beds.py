"""A season planned from a day on: beds that can no longer be fed are left out, and told."""

from datetime import date

import pytest

from halfpail.application.leave_past_beds import leave_past_beds
from halfpail.findings import Refusal
from tests.unit.application.test_date_season import opened

EARLY = 'planted = "2027-04-20"\nharvest = "2027-07-01"'


def test_a_bed_is_left_out_after_the_last_day_to_feed_it():
    """Two weeks before harvest, our default."""
    garden = opened(EARLY)
    assert leave_past_beds(garden, date(2027, 6, 17)) == garden
    left = leave_past_beds(garden, date(2027, 6, 18))
    assert [bed.name for bed in left.garden.beds] == ["South"]
    assert [one.bed.name for one in left.beds] == ["South"]
    assert left.notices[0].sentence.startswith("North: the last day to feed is past")


def test_a_bed_of_unknown_dates_stays():
    garden = opened(climate="")
    assert leave_past_beds(garden, date(2099, 1, 1)) == garden


def test_a_garden_without_a_bed_left_is_refused():
    with pytest.raises(Refusal) as refused:
        leave_past_beds(opened(EARLY), date(2028, 1, 1))
    assert refused.value.faults[0].place == "from"
    assert refused.value.faults[0].read == "2028-01-01"
