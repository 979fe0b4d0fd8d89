"""Small problems in scoops for the tests of this floor."""

from fractions import Fraction

from halfpail.blending.scoops import Demand, ScoopProblem


def fractions(*figures: int | str) -> tuple[Fraction, ...]:
    return tuple(Fraction(figure) for figure in figures)


def problem(
    *,
    demands: tuple[Demand, ...] = (),
    most_scoops: int = 6,
    most_bags: int = 3,
    apart: frozenset[frozenset[str]] = frozenset(),
) -> ScoopProblem:
    """Three bags of a pound a scoop: 4 % N at 1, 8 % N at 3, no N at 0; wished are 5 % N."""
    return ScoopProblem(
        bags=("four", "eight", "none"),
        demands=demands,
        cost=fractions(1, 3, 0),
        cost_per=fractions(1, 1, 1),
        misses=(fractions(-1, 3, -5),),
        miss_per=fractions(1, 1, 1),
        most_scoops=most_scoops,
        most_bags=most_bags,
        apart=apart,
    )


def within(points: str) -> tuple[Demand, ...]:
    """The wished 5 % N may be off by so many points."""
    off = Fraction(points)
    high = tuple(miss - off for miss in fractions(-1, 3, -5))
    low = tuple(-miss - off for miss in fractions(-1, 3, -5))
    return (
        Demand(name="most N", nutrient="N", because="not too much N", per_scoop=high),
        Demand(name="least N", nutrient="N", because="enough N", per_scoop=low),
    )
