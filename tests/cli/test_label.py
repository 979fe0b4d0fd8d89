"""`halfpail label`: text, JSON, standard input, refusals."""

import json

import pytest
from click.testing import CliRunner

from halfpail.cli.main import REFUSED, main
from tests.unit.domain.test_label_reading import MADE_UP


def run(*arguments: str, typed: str | None = None):
    return CliRunner().invoke(main, ["label", *arguments], input=typed)


def test_the_three_numbers():
    result = run("3-4-4")
    assert result.exit_code == 0
    assert result.output.startswith("3-4-4  N-P2O5-K2O")


@pytest.mark.parametrize("arguments", [(), ("-",)])
def test_from_standard_input(arguments):
    result = run(*arguments, typed=MADE_UP)
    assert result.exit_code == 0
    assert "Made of: Ammonium sulfate, Gypsum, Potassium sulfate" in result.output
    lines = [line.split() for line in result.output.splitlines()]
    assert lines[5] == ["Ammoniacal", "Nitrogen", "5"]
    assert ["Sulfur", "(S)", "15"] in lines


def test_as_json():
    answer = json.loads(run("--json", typed=MADE_UP).output)
    assert answer["grade"] == "5-8-10"
    assert answer["percent"] == {"N": 5, "P2O5": 8, "K2O": 10, "Ca": 8, "Mg": 1, "S": 15}
    assert answer["nitrogen_forms_percent"] == {"ammoniacal": 5}
    assert answer["materials"][0] == "ammonium_sulfate"
    assert answer["notices"] == []


def test_elemental_with_its_working():
    result = run("0-4-0", "--elemental", "--working")
    assert "4 % x 141.943 / 61.948 = 9.165 % P2O5" in result.output


def test_a_bad_label_is_told_line_by_line():
    result = run("10-10-10\nTotal Nitrogne 5%\nMagnesium (Mn) 2%")
    assert result.exit_code == REFUSED
    assert "2 things need mending" in result.stderr
    assert "line 2: This line is not understood." in result.stderr
    assert "Traceback" not in result.output + result.stderr


def test_notices_stand_on_the_page():
    assert "Caution: Not counted" in run("3-4-4\nHumic acids 3%").output
