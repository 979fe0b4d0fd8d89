"""How many mixes are enough, from plans given by hand."""

from fractions import Fraction

import pytest

from halfpail.application.count_mixes import fewest_mixes, plans_by_mixes
from halfpail.application.ports import SeasonEffort
from halfpail.domain.season import SeasonPlan, Unmet
from tests.unit.application.seasons import TakingByMixes, a_bag, a_plan_of, a_season, at_least

SEASON = a_season([a_bag("meal", "0.1", "0")], [at_least("east", "0.1")])
NO = Unmet(sentence="No.", proven=True)


def plans(**given: SeasonPlan | Unmet) -> dict[int, SeasonPlan | Unmet]:
    return {1: given["one"], 2: given["two"], 3: given["three"]}


def test_each_number_of_mixes_is_solved_once() -> None:
    engine = TakingByMixes(plans(one=a_plan_of("9"), two=a_plan_of("8"), three=a_plan_of("7")))
    plans_by_mixes(SEASON, engine, SeasonEffort())
    assert [problem.mixes for problem in engine.asked] == [1, 2, 3]


def test_a_plan_with_fewer_mixes_is_one_with_more() -> None:
    engine = TakingByMixes(
        plans(one=a_plan_of("9", "5"), two=a_plan_of("12", "6"), three=a_plan_of("8", "7"))
    )
    found = plans_by_mixes(SEASON, engine, SeasonEffort())
    two = found[2]
    assert isinstance(two, SeasonPlan)
    assert two.value == 9


def test_what_no_plan_with_more_mixes_beats_none_with_fewer_does() -> None:
    engine = TakingByMixes(
        plans(one=a_plan_of("9", "5"), two=a_plan_of("8", "6"), three=a_plan_of("8", "7"))
    )
    found = plans_by_mixes(SEASON, engine, SeasonEffort())
    assert [one.bound for one in found.values() if isinstance(one, SeasonPlan)] == [7, 7, 7]


@pytest.mark.parametrize(
    ("values", "saves", "enough"),
    [
        (("10.40", "10.20", "10"), None, 1),  # within a twentieth of 10
        (("10.60", "10.20", "10"), None, 2),
        (("10.60", "10.20", "10"), "0.10", 3),
        (("10.60", "10.20", "10"), "1", 1),
        (("10", "10", "10"), "0", 1),
    ],
)
def test_the_fewest_within_the_amount_are_enough(
    values: tuple[str, str, str], saves: str | None, enough: int
) -> None:
    given = {mixes: a_plan_of(value) for mixes, value in enumerate(values, start=1)}
    assert fewest_mixes(given, None if saves is None else Fraction(saves)) == enough


def test_a_number_without_a_plan_is_never_enough() -> None:
    assert fewest_mixes(plans(one=NO, two=a_plan_of("9"), three=a_plan_of("9"))) == 2
    assert fewest_mixes(plans(one=NO, two=NO, three=NO)) == 3
