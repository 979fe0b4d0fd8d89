"""How the share of nitrogen that has come is reached, step by step."""

from collections.abc import Iterator, Sequence
from math import exp

from halfpail.application.find_curve import BagCurve
from halfpail.domain.release import Pool, released_by_day, warm_days
from halfpail.reference.release import ReleaseKind
from halfpail.working import Step, Working

_POOL_NAMES = ("fast pool", "slow pool")


def release_working(curve: BagCurve, temperatures_c: Sequence[float]) -> Working:
    """The steps from a curve and the days it lies in the soil [°C] to the share that has come."""
    steps = [*_soluble_step(curve)]
    for kind in curve.kinds:
        steps += _kind_steps(kind, temperatures_c)
    came = released_by_day(curve.curve, temperatures_c)[-1]
    parts = "the parts" if len(curve.kinds) == 1 else "the parts of each, counted the same"
    steps.append(
        Step(
            reason=f"What has come after {len(temperatures_c)} days: at once, and {parts}.",
            sum=f"{100 * came:.1f} % of all nitrogen",
        )
    )
    return tuple(steps)


def _soluble_step(curve: BagCurve) -> Iterator[Step]:
    if curve.soluble_share is not None:
        yield Step(
            reason="The label says how much of the nitrogen is soluble; that comes at once.",
            sum=f"{100 * curve.soluble_share:.0f} % at once, the rest as follows",
        )


def _kind_steps(kind: ReleaseKind, temperatures_c: Sequence[float]) -> Iterator[Step]:
    yield Step(
        reason=f"{kind.meaning}: at once.",
        sum=f"{100 * kind.curve.at_once_share:.0f} % of its nitrogen",
        citation=kind.citation,
    )
    for name, pool in zip(_POOL_NAMES, kind.curve.pools, strict=True):
        if pool.share:
            yield _pool_step(f"{kind.meaning}: {name}", pool, kind, temperatures_c)


def _pool_step(name: str, pool: Pool, kind: ReleaseKind, temperatures_c: Sequence[float]) -> Step:
    warm = warm_days(temperatures_c, pool.q10, kind.curve.reference_c)
    came = 1 - exp(-pool.rate_per_day * warm)
    return Step(
        reason=f"{name}, share x (1 - exp(-rate x warm days)). A warm day is one at "
        f"{kind.curve.reference_c:.0f} °C; 10 °C less make it {pool.q10:g} times slower.",
        sum=f"{len(temperatures_c)} days do as much as {warm:.1f} warm days\n"
        f"{100 * pool.share:.0f} % x (1 - exp(-{pool.rate_per_day:g} x {warm:.1f}))"
        f" = {100 * pool.share * came:.1f} %",
        citation=kind.citation,
    )
