"""`halfpail recipe` as it is typed."""

import json

import pytest
from click.testing import CliRunner, Result

from halfpail.cli.main import main

BAGS = (
    "4-4-4, 25 lb, $12",
    "0-0-50 potash, 5 lb, $14",
    "12-0-0 blood meal, 5 lb, $9",
    "3-4-6 tomato, 20 lb, $12.49",
)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["recipe", *arguments])


def test_a_grade_as_chalked_with_choices_and_other_bags() -> None:
    result = run(*BAGS, "--wish", "5-3-5", "--within", "1")
    assert result.exit_code == 0
    for words in (
        "The best recipe (the cheapest)",
        "divide by",
        "wish",
        "cheapest",
        "closest",
        "Other bags that would do",
        "every recipe was tried",
        "P2O5 with 0.1",
        "dust mask",
    ):
        assert words in result.output


def test_a_bag_that_is_the_wish() -> None:
    output = run(*BAGS, "--wish", "4-4-4", "--within", "0").output
    assert "exactly as wished" in output
    assert "$0.48 per lb" in output


def test_a_purpose_and_its_working() -> None:
    output = run(*BAGS, "--purpose", "fruiting", "--closest", "--working").output
    assert "The best recipe (the closest)" in output
    assert "of usable N" in output
    assert "beside their wish" in output


def test_metric_and_json() -> None:
    output = run(*BAGS, "--ratio", "3-1-2", "--units", "metric").output
    assert "per kg of usable N" in output
    answer = json.loads(run(*BAGS, "--ratio", "3-1-2", "--json").output)
    best = answer["recipe"]["best"]
    assert sum(best["recipe"]["scoops"].values()) <= 12
    assert len(answer["recipe"]["curve"]) >= 2
    assert answer["working"]


def test_no_recipe_says_what_is_in_the_way_and_what_would_help() -> None:
    result = run(*BAGS, "--wish", "9-1-8", "--within", "0.2", "--most-bags", "2")
    assert result.exit_code == 1
    for words in ("cannot all be met", "at most 2 bags", "would help", "Allow", "The nearest"):
        assert words in result.output
    answer = json.loads(run(*BAGS, "--wish", "9-1-8", "--within", "0.2", "--json").output)
    assert answer["in_the_way"]


def test_limits_and_bags_to_avoid_are_kept() -> None:
    output = run(*BAGS, "--wish", "5-3-5", "--within", "1", "--avoid", "Potash", "--json").output
    scoops = json.loads(output)["recipe"]["best"]["recipe"]["scoops"]
    assert "potash" not in scoops
    one = run(*BAGS, "--wish", "4-4-4", "--within", "1", "--most-bags", "1", "--json").output
    assert all(
        len(choice["recipe"]["scoops"]) == 1 for choice in json.loads(one)["recipe"]["curve"]
    )


@pytest.mark.parametrize(
    ("arguments", "place"),
    [
        ((), "wish"),
        (("--wish", "5-3-5", "--purpose", "leafy"), "wish"),
        (("--purpose", "cactus"), "--purpose"),
        (("--ratio", "0-1-1"), "--ratio"),
        (("--wish", "5-3-5", "--avoid", "nothing"), "bags to avoid"),
        (("--wish", "5-3-5", "--most-scoops", "0"), "most scoops"),
        (("--wish", "5-3-5", "--within", "NaN"), "--within"),
    ],
)
def test_what_cannot_be_is_refused(arguments: tuple[str, ...], place: str) -> None:
    result = run(*BAGS, *arguments)
    assert result.exit_code == 2
    assert place in result.output
    assert "Traceback" not in result.output
