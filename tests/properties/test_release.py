"""Release keeps between nought and all, and comes sooner the longer and the warmer it lies."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from halfpail.domain.frost_calendar import Frost, FrostDates, Offsets, planting_window
from halfpail.domain.kinetics import pace
from halfpail.domain.release import Pool, ReleaseCurve, mixed, released_by_day
from halfpail.domain.soil_temperature import (
    YEAR_DAYS,
    YearWave,
    other_hemisphere,
    soil_temperature_c,
)
from halfpail.reference.release import release_kinds

SHARES = st.floats(0, 1 / 3)
POOLS = st.builds(Pool, share=SHARES, rate_per_day=st.floats(0, 0.5), q10=st.floats(1, 4))
CURVES = st.one_of(
    st.sampled_from([kind.curve for kind in release_kinds().values()]),
    st.builds(ReleaseCurve, at_once_share=SHARES, pools=st.tuples(POOLS, POOLS)),
)
TEMPERATURES = st.lists(st.floats(-30, 45), max_size=60)


@given(CURVES, TEMPERATURES)
def test_shares_rise_between_nought_and_all(curve, temperatures):
    shares = released_by_day(curve, temperatures)
    assert len(shares) == len(temperatures) + 1
    assert list(shares) == sorted(shares)
    assert shares[0] >= 0 and shares[-1] <= 1 + 1e-9


@given(CURVES, TEMPERATURES, st.floats(0, 15))
def test_warmer_soil_never_brings_less(curve, temperatures, by):
    cool = released_by_day(curve, temperatures)
    warm = released_by_day(curve, [one + by for one in temperatures])
    assert all(more >= less - 1e-12 for more, less in zip(warm, cool, strict=True))


@given(st.floats(1, 4), st.floats(-30, 45), st.floats(0, 20))
def test_the_pace_never_falls_with_warmth(q10, at, by):
    assert pace(q10, at + by, 25) >= pace(q10, at, 25) - 1e-12


@given(CURVES, CURVES, st.floats(0, 1), TEMPERATURES)
def test_a_mix_comes_between_its_parts(one, other, share, temperatures):
    both = released_by_day(mixed([(share, one), (1 - share, other)]), temperatures)
    ends = zip(
        released_by_day(one, temperatures), released_by_day(other, temperatures), strict=True
    )
    for come, (left, right) in zip(both, ends, strict=True):
        assert min(left, right) - 1e-9 <= come <= max(left, right) + 1e-9


@given(
    st.builds(
        YearWave,
        mean_c=st.floats(-5, 25),
        amplitude_c=st.floats(0, 20),
        coldest_day=st.floats(0, 364),
    ),
    st.floats(0, 365),
    st.floats(0, 3),
)
def test_the_other_hemisphere_is_half_a_year_away(wave, day, depth):
    here = soil_temperature_c(wave, day, depth, 2.2)
    there = soil_temperature_c(other_hemisphere(wave), day + YEAR_DAYS / 2, depth, 2.2)
    assert abs(here - there) < 1e-6


@given(
    st.dates(date(2020, 2, 1), date(2040, 7, 1)),
    st.integers(40, 300),
    st.integers(-90, 90),
    st.sampled_from(Frost),
)
def test_frost_dates_half_a_year_later_shift_the_calendar(last, free_days, offset, frost):
    half_a_year = timedelta(days=183)
    north = FrostDates(last=last, first=last + timedelta(days=free_days))
    south = FrostDates(last=north.last + half_a_year, first=north.first + half_a_year)
    window = Offsets(frost=frost, from_days=offset, until_days=offset + 7)
    shift = planting_window(window, south).start - planting_window(window, north).start
    assert shift == half_a_year
