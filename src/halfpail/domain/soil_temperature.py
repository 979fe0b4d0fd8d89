"""Soil temperature through the year: a wave that comes later and flatter the deeper one digs.

The surface follows one sine a year, the soil has one diffusivity at all depths and times, and far
down it is always at the yearly mean. Sines have no exact value, so this is worked in floats.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import accumulate, pairwise
from math import atan2, cos, exp, hypot, pi, sin, sqrt

YEAR_DAYS = 365.0
_SECONDS_A_DAY = 86_400
_DAYS_IN_MONTH = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


@dataclass(frozen=True, slots=True, kw_only=True)
class YearWave:
    """Temperature at the surface through the year.

    `mean_c` of the year [°C], `amplitude_c` half of the warmest less the coldest daily mean [°C],
    and `coldest_day` the day of the year on which it is coldest [days].
    """

    mean_c: float
    amplitude_c: float
    coldest_day: float


def damping_depth_m(diffusivity_m2_per_s: float, period_days: float = YEAR_DAYS) -> float:
    """Depth at which the wave has shrunk to 1/e, 37 % [m]: d = sqrt(D x period / pi).

    `diffusivity_m2_per_s` is the thermal diffusivity D [m²/s], `period_days` the length of the
    wave [days]. A soil of 0.5e-6 m²/s damps the daily wave in 11.7 cm (Oklahoma State University,
    Rain or Shine, section 13.4).

    Raises:
        ValueError: diffusivity or period is not above nought.

    >>> round(damping_depth_m(0.5e-6, period_days=1), 3)
    0.117
    """
    if diffusivity_m2_per_s <= 0 or period_days <= 0:
        raise ValueError("diffusivity and period must be above nought")
    return sqrt(diffusivity_m2_per_s * _SECONDS_A_DAY * period_days / pi)


def soil_temperature_c(wave: YearWave, day: float, depth_m: float, damping_m: float) -> float:
    """Temperature on a day of the year at a depth [°C].

    T = mean + amplitude x exp(-z/d) x sin(2 pi (t - t0)/365 - z/d - pi/2), with the depth z
    `depth_m` [m], the damping depth d `damping_m` [m], the day t and the coldest day t0 (Oklahoma
    State University, soil temperature toolkit).

    Raises:
        ValueError: the depth is below nought, or the damping depth not above it.

    >>> wave = YearWave(mean_c=12, amplitude_c=12, coldest_day=30)
    >>> round(soil_temperature_c(wave, 200, 0.1, damping_depth_m(0.5e-6)), 2)
    23.09
    """
    if depth_m < 0 or damping_m <= 0:
        raise ValueError("a depth is not below nought, and a damping depth is above it")
    lag = depth_m / damping_m
    turn = 2 * pi * (day - wave.coldest_day) / YEAR_DAYS
    return wave.mean_c + wave.amplitude_c * exp(-lag) * sin(turn - lag - pi / 2)


def day_of_year(day: date) -> int:
    """The day of the year [days], from 1; the day after 28 February is 60 in every year.

    >>> day_of_year(date(2027, 3, 1)), day_of_year(date(2028, 3, 1))
    (60, 60)
    """
    common = min(day.day, _DAYS_IN_MONTH[day.month - 1]) if day.month == 2 else day.day
    return sum(_DAYS_IN_MONTH[: day.month - 1]) + common


def other_hemisphere(wave: YearWave) -> YearWave:
    """The same wave half a year later.

    >>> other_hemisphere(YearWave(mean_c=12, amplitude_c=12, coldest_day=30)).coldest_day
    212.5
    """
    return replace(wave, coldest_day=(wave.coldest_day + YEAR_DAYS / 2) % YEAR_DAYS)


def warmer(wave: YearWave, by_c: float) -> YearWave:
    """The same wave, warmer all year by so much [°C]: soil under air, for one.

    >>> warmer(YearWave(mean_c=9, amplitude_c=12, coldest_day=20), 1).mean_c
    10
    """
    return replace(wave, mean_c=wave.mean_c + by_c)


def wave_of_months(means_c: Sequence[float]) -> YearWave:
    """The wave nearest to twelve monthly means, January first [°C].

    The mean of a month is the mean of the wave over its days, so that a pure wave is found again.

    Raises:
        ValueError: there are not twelve means.

    >>> wave = wave_of_months([-5, -3, 2, 9, 15, 20, 22, 21, 17, 10, 4, -2])
    >>> round(wave.mean_c, 1), round(wave.amplitude_c, 1), round(wave.coldest_day)
    (9.2, 13.5, 19)
    """
    if len(means_c) != len(_DAYS_IN_MONTH):
        raise ValueError("a year has twelve monthly means")
    rows = [(1.0, *_month_of_the_wave(start, end)) for start, end in _months()]
    mean, along, across = _least_squares(rows, means_c)
    coldest = atan2(-across, -along) / (2 * pi) * YEAR_DAYS
    return YearWave(mean_c=mean, amplitude_c=hypot(along, across), coldest_day=coldest % YEAR_DAYS)


def wave_of_frost_dates(
    last: date, first: date, frost_day_mean_c: float, amplitude_c: float
) -> YearWave:
    """A wave of air temperature from the frost dates alone.

    The middle of the frost-free season is taken as the warmest day, and the mean of the day on
    the average frost dates as `frost_day_mean_c` [°C]; `amplitude_c` is that of the year [°C].

    >>> wave = wave_of_frost_dates(date(2027, 5, 1), date(2027, 10, 1), 12, 13)
    >>> round(wave.mean_c, 1), round(wave.coldest_day)
    (8.7, 15)
    """
    free_days = (first - last).days
    warmest = day_of_year(last) + free_days / 2
    mean = frost_day_mean_c - amplitude_c * cos(pi * free_days / YEAR_DAYS)
    return YearWave(
        mean_c=mean,
        amplitude_c=amplitude_c,
        coldest_day=(warmest - YEAR_DAYS / 2) % YEAR_DAYS,
    )


def _months() -> list[tuple[float, float]]:
    """Start and end of each month, where day t is the middle of that day."""
    ends = [0.5 + days for days in accumulate(_DAYS_IN_MONTH, initial=0)]
    return list(pairwise(ends))


def _month_of_the_wave(start: float, end: float) -> tuple[float, float]:
    """Means of the cosine and the sine of the year between two days."""
    turn = 2 * pi / YEAR_DAYS
    cosine = (sin(turn * end) - sin(turn * start)) / (turn * (end - start))
    sine = (cos(turn * start) - cos(turn * end)) / (turn * (end - start))
    return cosine, sine


def _least_squares(
    rows: Sequence[Sequence[float]], wanted: Sequence[float]
) -> tuple[float, float, float]:
    """The three factors that bring the rows nearest to what is wanted, by normal equations."""
    normal = [[sum(row[i] * row[j] for row in rows) for j in range(3)] for i in range(3)]
    right = [sum(row[i] * value for row, value in zip(rows, wanted, strict=True)) for i in range(3)]
    for pivot in range(3):
        for below in range(pivot + 1, 3):
            times = normal[below][pivot] / normal[pivot][pivot]
            right[below] -= times * right[pivot]
            normal[below] = [
                low - times * high for low, high in zip(normal[below], normal[pivot], strict=True)
            ]
    found = [0.0, 0.0, 0.0]
    for i in (2, 1, 0):
        known = sum(normal[i][j] * found[j] for j in range(i + 1, 3))
        found[i] = (right[i] - known) / normal[i][i]
    return found[0], found[1], found[2]
