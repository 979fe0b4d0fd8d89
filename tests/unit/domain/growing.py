"""A made-up bed of four days and made-up foods, for the tests of dates and doses."""

from datetime import date
from fractions import Fraction

from halfpail.domain.feeding_times import Food, GrowingSeason
from halfpail.domain.release import ALL_AT_ONCE, ReleaseCurve

SHORT_SEASON = GrowingSeason(
    start=date(2027, 6, 1),
    planted=date(2027, 6, 2),
    harvest=date(2027, 6, 4),
    temperatures_c=(25.0,) * 4,
    wanted_kg_per_m2=(0.0, 0.001, 0.002, 0.003),
)


def food(
    key: str,
    measures: int,
    curve: ReleaseCurve = ALL_AT_ONCE,
    *,
    quick: bool = True,
    until: date | None = None,
) -> Food:
    """A food of which each measure brings a gram of nitrogen to a square metre."""
    gram = Fraction(1, 1000)
    return Food(
        key=key,
        measures=measures,
        n_kg_per_m2=gram,
        quick_n_kg_per_m2=gram if quick else Fraction(0),
        curve=curve,
        until=until,
    )
