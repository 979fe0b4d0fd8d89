"""`halfpail quick` and `halfpail mix` as they are typed."""

import json

import pytest
from click.testing import CliRunner, Result

from halfpail.cli.main import main

STARTER = "3-4-4, 25 lb, $12, 2 scoops"
BLOOD = "12-0-0 blood meal, 5 lb, $9, 1 scoop"


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, list(arguments))


def test_quick_tells_all_that_a_first_look_needs():
    result = run("quick", STARTER, BLOOD, "--ground", "400 sq ft")
    assert result.exit_code == 0
    for words in (
        "5.6-2.8-2.8 by weight",
        "per lb",
        "divide by",
        "The pail takes",
        "for 100 sq ft",
        "for one plant",
        "for 10 ft of row",
        "With 0.1 lb of usable N come 0.09 lb of P2O5",
        "mix and straight N (better)",
        "below your ceiling",
        "our default, not published",
    ):
        assert words in result.output


def test_quick_in_metric():
    output = run("quick", STARTER, "--ground", "37 m²", "--units", "metric").output
    answer, assumed = output.split("Taken for granted")
    assert "for 10 m²" in answer and "g per m²" in answer
    assert " lb" not in answer and "sq ft" not in answer
    assert "2.4 g per m²" in assumed


def test_quick_as_json():
    answer = json.loads(run("quick", STARTER, "--ground", "400 sq ft", "--json").output)
    assert answer["answer"]["sum"]["mix"]["analysis"]["shares"]["N"] == 0.03
    assert answer["working"]


def test_quick_says_don_t_buy():
    output = run("quick", "4-4-4, 10 lb, $30", "--ground", "400 sq ft").output
    assert "don't buy" in output


def test_quick_says_none_needed():
    compost = ("--compost", "1/2 in", "--compost-years", "3")
    output = run("quick", STARTER, "--ground", "400 sq ft", *compost).output
    assert "None of this mix is needed" in output
    assert "none needed" in output


@pytest.mark.parametrize("command", ["quick", "mix"])
def test_working(command):
    ground = ("--ground", "400 sq ft") if command == "quick" else ()
    output = run(command, STARTER, BLOOD, *ground, "--working").output
    assert "\nWorking\n-------\n    1. 3-4-4: what a scoop of 1 cup weighs" in output


def test_mix_tells_bands_and_one_scoop_more():
    output = run("mix", STARTER, BLOOD, "0-0-50", "--wish", "5-3-3").output
    assert "How far it may be off" in output
    assert "one scoop more of 0-0-50" in output
    assert "one scoop less of blood meal" in output
    assert "wish" in output


def test_mix_as_json():
    answer = json.loads(run("mix", STARTER, "--json").output)
    assert answer["chalked"]["divide"][-3:] == ["3", "4", "4"]


def test_mix_from_a_garden(tmp_path):
    garden = tmp_path / "garden.toml"
    garden.write_text(
        '[tools]\nscoop = "2 cups"\npail = "5 gal"\n'
        '[[bags]]\nname = "Starter"\nlabel = "3-4-4"\nweight = "25 lb"\nprice = "12"\n'
        '[[bags]]\nname = "Blood"\nlabel = "12-0-0"\n'
        '[[beds]]\nname = "One"\ncrop = "tomato"\nsize = "4 x 8 ft"\n',
        encoding="utf-8",
    )
    result = run("mix", "--garden", str(garden), "starter = 2")
    assert result.exit_code == 0, result.output
    assert "is 4 cups" in result.output
    assert "one scoop more of Blood" in result.output


BAD = [
    ("quick", "--ground", "400 sq ft"),
    ("quick", STARTER, "--ground", "400 parsecs"),
    ("quick", STARTER, "--ground", "-4 sq ft"),
    ("quick", "4-4, 25 lb", "--ground", "400 sq ft"),
    ("quick", STARTER, "--ground", "400 sq ft", "--scoop", "9**9**9"),
    ("quick", STARTER, "--ground", "400 sq ft", "--pail", "NaN gal"),
    ("quick", STARTER, "--ground", "400 sq ft", "--wish", "green"),
    ("quick", STARTER, "--ground", "400 sq ft", "--ceiling", "$1"),
    ("quick", STARTER, "--ground", "400 sq ft", "--compost", "deep"),
    ("quick", STARTER, "--ground", "400 sq ft", "--currency", "EUR"),
    ("mix", "4-4-4, 0 scoops"),
    ("mix",),
]


@pytest.mark.parametrize("arguments", BAD)
def test_refuses_in_plain_lines(arguments):
    result = run(*arguments)
    assert result.exit_code == 2
    assert "mend:" in result.output
    assert "Traceback" not in result.output
