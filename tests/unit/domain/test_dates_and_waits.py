"""Frost dates in both hemispheres, and raw manure."""

from datetime import date, timedelta
from fractions import Fraction

import pytest

from halfpail.domain.cover_crop import plant_available
from halfpail.domain.frost_calendar import (
    Frost,
    FrostDates,
    Offsets,
    latest_sowing,
    planting_window,
)
from halfpail.domain.kinetics import half_life, q10_between
from halfpail.domain.manure_interval import Treatment, too_soon
from halfpail.domain.nitrate_test import NitrateLine, read_nitrate_test
from halfpail.domain.uptake import Habit, Stages, stretched, taken_up

NORTH = FrostDates(last=date(2027, 4, 22), first=date(2027, 10, 10))
SOUTH = FrostDates(last=date(2027, 10, 22), first=date(2028, 4, 10))
LINE = NitrateLine(low_mg_per_kg=Fraction(20), high_mg_per_kg=Fraction(25))


def test_half_a_year_later_in_the_south():
    for offsets in (Offsets(frost=frost, from_days=-28, until_days=12) for frost in Frost):
        north, south = planting_window(offsets, NORTH), planting_window(offsets, SOUTH)
        assert south.start - north.start == timedelta(days=183)
        assert south.until - south.start == north.until - north.start


def test_the_hemisphere_is_told_by_the_season():
    assert not NORTH.southern
    assert SOUTH.southern


def test_an_open_window_has_no_end():
    offsets = Offsets(frost=Frost.LAST, from_days=0, until_days=None)
    assert planting_window(offsets, NORTH).until is None


@pytest.mark.parametrize(
    ("last", "first"),
    [
        (date(2027, 10, 10), date(2027, 4, 22)),
        (date(2027, 4, 22), date(2027, 4, 22)),
        (date(2027, 4, 22), date(2028, 4, 30)),
    ],
)
def test_frost_dates_that_are_no_season(last, first):
    with pytest.raises(ValueError, match="follows the last of spring"):
        FrostDates(last=last, first=first)


def test_sowing_for_autumn_counts_back_from_the_first_frost():
    assert latest_sowing(NORTH, 50, 14) == date(2027, 8, 7)


@pytest.mark.parametrize("days", [0, 89, 90, 119, 120])
@pytest.mark.parametrize("wait", [90, 120])
def test_raw_manure_waits_to_the_day(days, wait):
    spread = date(2027, 5, 1)
    harvest = spread + timedelta(days=days)
    against = too_soon(Treatment.RAW, wait, spread, harvest)
    assert (against is None) == (days >= wait)
    if against is not None:
        assert against.harvest_from - spread == harvest - against.spread_by
        assert too_soon(Treatment.RAW, wait, against.spread_by, harvest) is None
        assert too_soon(Treatment.RAW, wait, spread, against.harvest_from) is None


@pytest.mark.parametrize("treatment", [Treatment.COMPOSTED, Treatment.HEATED])
def test_only_raw_manure_waits(treatment):
    assert too_soon(treatment, 120, date(2027, 5, 1), date(2027, 5, 2)) is None


def test_what_is_not_known_counts_as_raw():
    assert too_soon(Treatment.UNKNOWN, 120, date(2027, 5, 1), date(2027, 5, 2)) is not None


def test_figures_that_cannot_be():
    with pytest.raises(ValueError, match="above nought"):
        half_life(0)
    with pytest.raises(ValueError, match="two temperatures"):
        q10_between(0.1, 10, 0.2, 10)
    with pytest.raises(ValueError, match="not below nought"):
        read_nitrate_test(Fraction(-1), LINE)
    line = [(Fraction(15, 1000), Fraction(0)), (Fraction(35, 1000), Fraction(35, 2000))]
    with pytest.raises(ValueError, match="last point"):
        plant_available(line, Fraction(7, 100))
    with pytest.raises(ValueError, match="after planting"):
        stretched(Stages(initial_days=1, development_days=1, middle_days=1, late_days=1), 0)


@pytest.mark.parametrize("habit", Habit)
def test_uptake_runs_from_nought_to_all(habit):
    stages = Stages(initial_days=30, development_days=40, middle_days=40, late_days=25)
    shares = [taken_up(stages, habit, day) for day in range(-5, 150)]
    assert shares == sorted(shares)
    assert shares[5] == 0
    assert shares[-1] == 1
    assert taken_up(stages, habit, 30) < 0.03
