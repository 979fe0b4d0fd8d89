"""`halfpail release`: text, JSON, working, refusals."""

import json

import pytest
from click.testing import CliRunner

from halfpail.cli.main import REFUSED, main

SEASON = ("--last-frost", "2027-05-10", "--first-frost", "2027-10-01")


def run(*arguments: str):
    return CliRunner().invoke(main, ["release", *arguments])


def test_from_the_frost_dates():
    result = run("feather meal", *SEASON)
    assert result.exit_code == 0
    assert result.output.startswith("Nitrogen of Feather meal\n")
    assert "2027-05-10  54 °F       28%" in result.output
    assert "guessed from the frost dates" in result.output


def test_in_metric():
    assert "2027-05-10  12 °C       28%" in run("feather meal", *SEASON, "--units", "metric").output


def test_with_its_working():
    result = run("feather meal", *SEASON, "--working")
    assert "share x (1 - exp(-rate x warm days))" in result.output
    assert "soil-temperature-chapter" in result.output


def test_as_json():
    result = run("poultry litter", "--soil", "77 F", "--spread", "May 1, 2027",
                 "--until", "2027-08-29", "--json")  # fmt: skip
    answer = json.loads(result.output)
    assert round(answer["weeks"][-1]["came_share"], 2) == 0.56
    assert answer["weeks"][0]["on"] == "2027-05-01"
    assert answer["later"]["key"] == "poultry"
    assert answer["working"]


def test_twelve_months():
    months = "24, 27, 37, 49, 60, 69, 74, 72, 64, 52, 40, 29 F"
    result = run("4-4-4", "--months", months, "--spread", "2027-05-01", "--until", "2027-06-01")
    assert result.exit_code == 0
    assert "guessed" not in result.output


def test_bone_by_ph():
    result = run("bone meal", *SEASON, "--ph", "7")
    assert "about 30% of its label P2O5" in result.output
    assert "the figure is a guess" in " ".join(result.output.split())


def test_without_dates_usual_ones_stand_in_and_it_is_said():
    result = run("feather meal", "--spread", "2027-05-10")
    assert result.exit_code == 0
    assert "10 May 2027 and 1 October 2027 stand in" in " ".join(result.output.split())
    assert "2027-05-10  54 °F" in result.output


@pytest.mark.parametrize("more", [(), ("--soil", "20 C"), ("--until", "2027-08-01")])
def test_nothing_need_be_told(more):
    result = run("blood meal", *more)
    assert result.exit_code == 0
    assert "stand in." in " ".join(result.output.split())


def test_what_is_told_is_not_guessed():
    told = ("--soil", "20 C", "--spread", "2027-05-10", "--until", "2027-08-01")
    assert "stand in" not in run("blood meal", *told).output


@pytest.mark.parametrize(
    ("arguments", "place", "told"),
    [
        (("--last-frost", "2027-02-29", "--first-frost", "2027-10-01"), "--last-frost", "leap"),
        (("--last-frost", "2027-10-01", "--first-frost", "2027-05-10"), "--first-frost", "after"),
        (("--last-frost", "2027-05-10"), "--first-frost", "missing"),
        (("--soil", "20"), "--soil", "no unit"),
        ((*SEASON, "--depth", "0 in"), "--depth", "more than nought"),
        ((*SEASON, "--ph", "14"), "pH", "No garden soil"),
        ((*SEASON, "--until", "2027-01-01"), "until", "not within"),
        ((*SEASON, "--months", "20 30 F"), "months", "2 means"),
    ],
)
def test_refused_beside_its_place(arguments, place, told):
    result = run("blood meal", *arguments)
    assert result.exit_code == REFUSED
    assert place in result.stderr
    assert told in result.stderr
    assert result.stdout == ""
