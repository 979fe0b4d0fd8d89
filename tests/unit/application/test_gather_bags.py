"""Several lines together."""

from fractions import Fraction

import pytest

from halfpail.application.gather_bags import gather_bags
from halfpail.findings import Refusal
from tests.unit.domain.bags import bag

CUP = Fraction("0.2365882365")
SHELF = {"Blood meal": bag("Blood meal", 12), "Starter": bag("Starter", 3, 4, 4)}


def told(*lines: str, **more: object) -> tuple[list[tuple[str, Fraction | int]], list[str]]:
    gathered = gather_bags(lines, CUP, **more)  # type: ignore[arg-type]  # any field may be given
    parts = [(part.bag.name, part.scoops) for part in gathered.parts]
    return parts, [one.name for one in gathered.others]


def test_without_scoops_each_gets_one():
    assert told("3-4-4", "5-1-1") == ([("3-4-4", 1), ("5-1-1", 1)], [])


def test_without_scoops_beside_scoops_it_stays_out():
    assert told("3-4-4, 2 scoops", "5-1-1") == ([("3-4-4", 2)], ["5-1-1"])


def test_two_of_one_name_are_two_bags():
    parts, _ = told("3-4-4, 2 scoops, $9, 5 lb", "3-4-4, 1 scoop, $12, 5 lb")
    assert parts == [("3-4-4", 2), ("3-4-4 (2)", 1)]


@pytest.mark.parametrize("line", ["blood meal, 2 scoops", "Blood meal = 2", "Blood meal: 2"])
def test_takes_a_bag_from_the_shelf(line):
    assert told(line, shelf=SHELF) == ([("Blood meal", 2)], ["Starter"])


def test_the_shelf_and_a_new_bag():
    parts, others = told("Starter, 1 scoop", "0-0-50, 1 scoop", shelf=SHELF)
    assert parts == [("Starter", 1), ("0-0-50", 1)]
    assert others == ["Blood meal"]


@pytest.mark.parametrize(
    ("lines", "places"),
    [
        ([], ["bags"]),
        (["3-4-4, 0 scoops"], ["bags"]),
        (["3-4-4, 2 stones 5", "x"], ["bag 1", "bag 2"]),
        (["103-4-4"], ["bag 1, label"]),
    ],
)
def test_refuses_every_line_at_once(lines, places):
    with pytest.raises(Refusal) as refused:
        gather_bags(lines, CUP)
    assert [fault.place for fault in refused.value.faults] == places


def test_a_name_that_is_not_on_the_shelf():
    with pytest.raises(Refusal) as refused:
        gather_bags(["Bone, 2"], CUP, shelf=SHELF)
    (fault,) = refused.value.faults
    assert "Blood meal" in fault.remedy
