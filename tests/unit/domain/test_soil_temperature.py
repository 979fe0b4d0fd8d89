"""The wave of the year: found again from its months, and refused where it cannot be."""

from datetime import date
from math import cos, pi

import pytest

from halfpail.domain.soil_temperature import (
    YEAR_DAYS,
    YearWave,
    damping_depth_m,
    day_of_year,
    other_hemisphere,
    soil_temperature_c,
    wave_of_frost_dates,
    wave_of_months,
)

MONTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def daily(wave: YearWave, day: float) -> float:
    return soil_temperature_c(wave, day, 0, 1)


def monthly_means(wave: YearWave) -> list[float]:
    """Means of the days of each month, by plain adding up."""
    means, day = [], 1
    for length in MONTHS:
        means.append(sum(daily(wave, day + one) for one in range(length)) / length)
        day += length
    return means


@pytest.mark.parametrize("coldest", [5, 28, 120, 210, 300])
def test_a_wave_is_found_again_from_its_months(coldest):
    wave = YearWave(mean_c=11.5, amplitude_c=9, coldest_day=coldest)
    found = wave_of_months(monthly_means(wave))
    assert found.mean_c == pytest.approx(11.5, abs=0.01)
    assert found.amplitude_c == pytest.approx(9, abs=0.01)
    assert found.coldest_day == pytest.approx(coldest, abs=0.1)


def test_eleven_months_are_no_year():
    with pytest.raises(ValueError, match="twelve"):
        wave_of_months([1.0] * 11)


def test_the_coldest_day_is_the_coldest():
    wave = YearWave(mean_c=10, amplitude_c=12, coldest_day=30)
    assert min(range(1, 366), key=lambda day: daily(wave, day)) == 30


def test_half_a_year_later_in_the_south():
    wave = YearWave(mean_c=10, amplitude_c=12, coldest_day=30)
    south = other_hemisphere(wave)
    for day in range(0, 365, 20):
        assert daily(south, day + YEAR_DAYS / 2) == pytest.approx(daily(wave, day))


def test_the_frost_dates_have_the_mean_that_was_said():
    last, first = date(2027, 5, 1), date(2027, 10, 1)
    wave = wave_of_frost_dates(last, first, 12, 13)
    assert daily(wave, day_of_year(last)) == pytest.approx(12, abs=0.01)
    assert daily(wave, day_of_year(first)) == pytest.approx(12, abs=0.01)
    middle = day_of_year(last) + (first - last).days / 2
    assert daily(wave, middle) == pytest.approx(wave.mean_c + 13, abs=0.01)


def test_frost_dates_half_a_year_later_give_the_wave_half_a_year_later():
    north = wave_of_frost_dates(date(2027, 5, 1), date(2027, 10, 1), 12, 13)
    south = wave_of_frost_dates(date(2027, 10, 30), date(2028, 4, 1), 12, 13)
    assert south.coldest_day - north.coldest_day == pytest.approx(182, abs=1)


def test_deep_down_it_is_always_the_mean():
    wave = YearWave(mean_c=10, amplitude_c=12, coldest_day=30)
    assert soil_temperature_c(wave, 100, 40, 2) == pytest.approx(10, abs=1e-6)


def test_the_lag_grows_with_depth():
    """One damping depth down the coldest day comes 365 / 2 pi days later, and 37 % as strong."""
    wave = YearWave(mean_c=0, amplitude_c=1, coldest_day=30)
    for day in (10.0, 100.0, 250.0):
        turn = 2 * pi * (day - 30) / YEAR_DAYS
        expected = -cos(turn - 1) / 2.718281828
        assert soil_temperature_c(wave, day, 2, 2) == pytest.approx(expected)


@pytest.mark.parametrize(("diffusivity", "period"), [(0, 365), (-1e-7, 365), (5e-7, 0)])
def test_no_soil_conducts_nothing(diffusivity, period):
    with pytest.raises(ValueError, match="above nought"):
        damping_depth_m(diffusivity, period)


@pytest.mark.parametrize(("depth", "damping"), [(-0.1, 2), (0.1, 0)])
def test_no_depth_is_above_the_ground(depth, damping):
    with pytest.raises(ValueError, match="not below nought"):
        soil_temperature_c(YearWave(mean_c=0, amplitude_c=1, coldest_day=1), 1, depth, damping)


def test_the_29th_of_february_shares_a_day():
    assert day_of_year(date(2028, 2, 29)) == day_of_year(date(2028, 2, 28)) == 59
    assert day_of_year(date(2028, 12, 31)) == 365
