"""Pools against a numerical integration of their equation, and curves no material has."""

from collections.abc import Callable

import pytest

from halfpail.domain.kinetics import pace
from halfpail.domain.release import (
    ALL_AT_ONCE,
    Pool,
    ReleaseCurve,
    mixed,
    released_at,
    released_by_day,
    warm_days,
)
from halfpail.domain.soil_temperature import YearWave, damping_depth_m, soil_temperature_c
from halfpail.reference.release import release_kinds

STEPS_A_DAY = 24
WAVE = YearWave(mean_c=11, amplitude_c=12, coldest_day=25)
DAMPING = damping_depth_m(0.5e-6)


def soil(day: float) -> float:
    return soil_temperature_c(WAVE, day, 0.1, DAMPING)


def runge_kutta(pool: Pool, reference_c: float, warmth: Callable[[float], float], days: int):
    """What is left of a pool of one, day by day: dP/dt = -k f(T(t)) P, fourth order."""

    def slope(at: float, left: float) -> float:
        return -pool.rate_per_day * pace(pool.q10, warmth(at), reference_c) * left

    step, left, kept = 1 / STEPS_A_DAY, 1.0, [1.0]
    for number in range(days * STEPS_A_DAY):
        at = number * step
        first = slope(at, left)
        second = slope(at + step / 2, left + step / 2 * first)
        third = slope(at + step / 2, left + step / 2 * second)
        fourth = slope(at + step, left + step * third)
        left += step / 6 * (first + 2 * second + 2 * third + fourth)
        if (number + 1) % STEPS_A_DAY == 0:
            kept.append(left)
    return kept


@pytest.mark.parametrize("key", release_kinds())
def test_release_through_the_year_agrees_with_the_integrated_equation(key):
    """Daily means at noon against the equation in continuous time, over a season."""
    curve, days, start = release_kinds()[key].curve, 200, 90
    worked = released_by_day(curve, [soil(start + day + 0.5) for day in range(days)])
    left = [
        runge_kutta(pool, curve.reference_c, lambda at: soil(start + at), days)
        for pool in curve.pools
    ]
    for day in range(0, days + 1, 25):
        integrated = curve.at_once_share + sum(
            pool.share * (1 - kept[day]) for pool, kept in zip(curve.pools, left, strict=True)
        )
        assert worked[day] == pytest.approx(integrated, abs=2e-5)


def test_steady_warmth_is_the_closed_form():
    curve = release_kinds()["blood"].curve
    assert released_by_day(curve, [18.0] * 30)[-1] == pytest.approx(released_at(curve, 30, 18.0))


def test_frost_stops_it():
    pool = Pool(share=0.5, rate_per_day=0.1, q10=2)
    curve = ReleaseCurve(at_once_share=0.2, pools=(pool,))
    assert set(released_by_day(curve, [0.0, -5.0, -20.0])) == {0.2}


def test_the_pace_has_no_step_where_the_rule_ends():
    assert pace(2, 5.0, 25) == pytest.approx(pace(2, 4.9999, 25), abs=1e-4)
    assert pace(2, 0.0001, 25) == pytest.approx(0, abs=1e-4)


def test_a_warm_day_counts_one():
    assert warm_days([25.0] * 7, 3, 25) == 7


@pytest.mark.parametrize(
    ("at_once", "pool"),
    [
        (-0.1, Pool(share=0.5, rate_per_day=0.1, q10=2)),
        (0.6, Pool(share=0.5, rate_per_day=0.1, q10=2)),
        (0.1, Pool(share=0.5, rate_per_day=-0.1, q10=2)),
        (0.1, Pool(share=0.5, rate_per_day=0.1, q10=0)),
    ],
)
def test_a_curve_that_no_material_has(at_once, pool):
    with pytest.raises(ValueError, match=r"share|rate"):
        ReleaseCurve(at_once_share=at_once, pools=(pool,))


def test_curves_are_mixed_by_their_nitrogen():
    blood, quick = release_kinds()["blood"].curve, ALL_AT_ONCE
    both = mixed([(0.25, quick), (0.75, blood)])
    apart = 0.25 + 0.75 * released_at(blood, 40, 15)
    assert released_at(both, 40, 15) == pytest.approx(apart)


def test_half_a_mix_is_none():
    with pytest.raises(ValueError, match="add up to one"):
        mixed([(0.5, ALL_AT_ONCE)])
    warm = ReleaseCurve(
        at_once_share=0, pools=(Pool(share=1, rate_per_day=1, q10=2),), reference_c=20
    )
    with pytest.raises(ValueError, match="one reference"):
        mixed([(0.5, release_kinds()["blood"].curve), (0.5, warm)])
