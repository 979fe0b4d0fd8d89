"""How the nitrogen of a material comes: at once, from a fast pool, from a slow pool.

Each pool empties at a rate that follows the warmth of the soil; what is in no pool does not come
in the years looked at. Worked in floats: exponentials have no exact value.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import exp

from halfpail.domain.kinetics import pace


@dataclass(frozen=True, slots=True, kw_only=True)
class Pool:
    """Part of the nitrogen that comes at one rate.

    `share` of all nitrogen [0-1], `rate_per_day` at the reference temperature, and `q10`.
    """

    share: float
    rate_per_day: float
    q10: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleaseCurve:
    """How the nitrogen of one material comes; rates hold at `reference_c` [°C].

    `at_once_share` of all nitrogen [0-1] is there from the first day.
    """

    at_once_share: float
    pools: tuple[Pool, ...]
    reference_c: float = 25.0

    def __post_init__(self) -> None:
        """Refuse shares and rates that no material can have."""
        shares = [self.at_once_share, *(pool.share for pool in self.pools)]
        if min(shares) < 0 or sum(shares) > 1 + 1e-9:
            raise ValueError("shares of nitrogen lie between 0 and 1 and add up to at most 1")
        if any(pool.rate_per_day < 0 or pool.q10 <= 0 for pool in self.pools):
            raise ValueError("a rate is not below nought, and a Q10 is above it")


ALL_AT_ONCE = ReleaseCurve(at_once_share=1.0, pools=())


def released_by_day(curve: ReleaseCurve, temperatures_c: Iterable[float]) -> tuple[float, ...]:
    """Share of the nitrogen that has come at the start, and after each day [0-1].

    `temperatures_c` are the means of the days, from the day of spreading on [°C].

    >>> curve = ReleaseCurve(at_once_share=0.1, pools=(Pool(share=0.9, rate_per_day=0.1, q10=2),))
    >>> [round(share, 3) for share in released_by_day(curve, [25, 25])]
    [0.1, 0.186, 0.263]
    """
    days = tuple(temperatures_c)
    came = [_pool_by_day(pool, days, curve.reference_c) for pool in curve.pools]
    return tuple(
        curve.at_once_share + sum(pool[day] for pool in came) for day in range(len(days) + 1)
    )


def released_at(curve: ReleaseCurve, days: float, temperature_c: float) -> float:
    """Share that has come after so many days at one temperature [days, °C; 0-1].

    >>> fast, slow = (Pool(share=0.3, rate_per_day=0.049, q10=2),
    ...               Pool(share=0.56, rate_per_day=0.002, q10=1))
    >>> curve = ReleaseCurve(at_once_share=0.14, pools=(fast, slow))
    >>> round(released_at(curve, 120, 25), 2)
    0.56
    """
    return curve.at_once_share + sum(
        pool.share * (1 - exp(-pool.rate_per_day * days * _pace(pool, temperature_c, curve)))
        for pool in curve.pools
    )


def warm_days(temperatures_c: Iterable[float], q10: float, reference_c: float) -> float:
    """Thermal time: days at the reference temperature that do the same as these days [days].

    >>> warm_days([25, 15, 15], 2, 25)
    2.0
    """
    return sum(pace(q10, one, reference_c) for one in temperatures_c)


def mixed(curves: Sequence[tuple[float, ReleaseCurve]]) -> ReleaseCurve:
    """The curve of several materials together, each with its share of the nitrogen [0-1].

    Raises:
        ValueError: the shares do not add up to one, or the reference temperatures differ.

    >>> half = ReleaseCurve(at_once_share=0.5, pools=())
    >>> mixed([(0.5, half), (0.5, ALL_AT_ONCE)]).at_once_share
    0.75
    """
    references = {curve.reference_c for _, curve in curves if curve.pools}
    if abs(sum(share for share, _ in curves) - 1) > 1e-9 or len(references) > 1:
        raise ValueError("shares add up to one, at one reference temperature")
    return ReleaseCurve(
        at_once_share=sum(share * curve.at_once_share for share, curve in curves),
        pools=tuple(
            Pool(share=share * pool.share, rate_per_day=pool.rate_per_day, q10=pool.q10)
            for share, curve in curves
            for pool in curve.pools
        ),
        reference_c=references.pop() if references else ALL_AT_ONCE.reference_c,
    )


def _pool_by_day(pool: Pool, days_c: Sequence[float], reference_c: float) -> list[float]:
    warm = accumulate((pace(pool.q10, one, reference_c) for one in days_c), initial=0.0)
    return [pool.share * (1 - exp(-pool.rate_per_day * days)) for days in warm]


def _pace(pool: Pool, temperature_c: float, curve: ReleaseCurve) -> float:
    return pace(pool.q10, temperature_c, curve.reference_c)
