"""Each family of demands and rows says its inequality."""

from fractions import Fraction

import pytest

from halfpail.blending.families import (
    as_programme,
    grade_band,
    misses_of_grade,
    misses_of_ratio,
    ratio_least,
    ratio_most,
)
from halfpail.blending.programme import Programme
from halfpail.blending.scoops import total
from tests.unit.blending.problems import fractions, problem, within

MASS = fractions("0.5", 1)
SHARE = fractions("0.04", "0.10")


def test_a_grade_band_is_by_weight() -> None:
    """2 x 0.5 kg of 4 % and 1 kg of 10 % are 7 %; the band of 6 +- 1 just reaches it."""
    least, most = grade_band("N", Fraction(6), Fraction(1), SHARE, MASS)
    assert total(most.per_scoop, (2, 1)) == 0
    assert total(most.per_scoop, (2, 2)) > 0
    assert total(least.per_scoop, (2, 1)) < 0 < total(least.per_scoop, (1, 0))
    assert (least.because, most.because) == ("at least 5 % N", "at most 7 % N")


def test_a_ratio_is_between_contents() -> None:
    content, nitrogen = fractions(0, 2), fractions(1, 1)
    least = ratio_least("K2O", Fraction(1), content, nitrogen)
    most = ratio_most("K2O", Fraction(1), content, nitrogen)
    assert total(least.per_scoop, (1, 1)) == 0 == total(most.per_scoop, (1, 1))
    assert total(least.per_scoop, (2, 1)) > 0 > total(most.per_scoop, (2, 1))


def test_misses_are_signed_distances_times_what_divides_them() -> None:
    assert misses_of_grade(Fraction(6), SHARE, MASS) == fractions(-1, 4)
    assert misses_of_ratio(Fraction(1, 2), fractions(0, 2), fractions(1, 1)) == fractions(
        "-0.5", "1.5"
    )


def holds(programme: Programme, point: tuple[float, ...]) -> list[str]:
    """Names of the rows a point breaks."""
    sums = {row.name: sum(point[at] * f for at, f in row.terms) for row in programme.rows}
    return [
        row.name
        for row in programme.rows
        if not row.at_least - 1e-12 <= sums[row.name] <= row.at_most + 1e-12
    ]


@pytest.mark.parametrize(
    ("point", "broken"),
    [
        ((3, 1, 0, 1, 1, 0), []),
        ((3, 1, 0, 1, 0, 0), ["eight opened"]),
        ((1, 1, 0, 1, 1, 0), ["most N"]),
        ((1, 0, 1, 1, 0, 1), ["least N", "four apart from none"]),
        ((0, 0, 0, 0, 0, 0), ["something", "something"]),
        ((6, 2, 0, 1, 1, 0), ["most scoops"]),
        ((9, 3, 0, 1, 1, 1), ["four opened", "most scoops", "most bags", "four apart from none"]),
    ],
)
def test_rows_of_the_programme(point: tuple[float, ...], broken: list[str]) -> None:
    apart = frozenset({frozenset({"none", "four"})})
    posed = problem(demands=within("0.5"), most_bags=2, apart=apart)
    assert holds(as_programme(posed), point) == broken


def test_rows_without_a_reason_are_never_in_question() -> None:
    reasons = {row.because for row in as_programme(problem(demands=within("1"))).rows}
    assert reasons == {"", "not too much N", "enough N", "at most 6 scoops", "at most 3 bags"}
