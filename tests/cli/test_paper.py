"""`halfpail card`, `label-sheet`, `handout`, `calendar` and `paper`, run as a person runs them."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from halfpail.cli import paper
from halfpail.cli.main import BROKEN, REFUSED, main
from tests.documents.papers import squeezed, text_of
from tests.unit.application.worth_garden import TEXT

BAGS = ("4-4-4, $12, 25 lb, 1 scoop", "12-0-0, $9, 5 lb, 2 scoops")
FROST = ("--last-frost", "2027-05-10", "--first-frost", "2027-10-01")
DATED = ("--dated", "2027-04-01")


def halfpail(*arguments: object) -> Result:
    return CliRunner().invoke(main, [str(argument) for argument in arguments])


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A garden file of two beds."""
    path = tmp_path_factory.mktemp("garden") / "garden.toml"
    path.write_text(TEXT, encoding="utf-8")
    return path


def test_a_card_of_typed_bags(tmp_path):
    address = "http://192.168.1.20:8765/mixes"
    told = ("--rounds", 6, "--name", "Spring mix", "--address", address)
    result = halfpail("card", *BAGS, "--to", tmp_path, *told)
    assert result.exit_code == 0, result.output
    text = text_of((tmp_path / "mixing-card-1.pdf").read_bytes())
    for words in ("Spring mix", "6 rounds", "Price", "Into the pail", address):
        assert squeezed(words) in squeezed(text)


def test_prices_can_be_left_out(tmp_path):
    halfpail("card", *BAGS, "--to", tmp_path, "--no-prices")
    assert "Price" not in text_of((tmp_path / "mixing-card-1.pdf").read_bytes())


@pytest.mark.parametrize("size", ["sheet", "4x3", "A7"])
def test_labels_of_typed_bags(tmp_path, size):
    result = halfpail("label-sheet", *BAGS, "--to", tmp_path, "--size", size)
    assert result.exit_code == 0, result.output
    text = text_of((tmp_path / "pail-labels-1.pdf").read_bytes())
    assert text.count("For own use, not for sale.") == (6 if size == "sheet" else 1)


GIFT = ("--maker", "A club", "--maker-address", "1 Hill Road", "--net-weight", "10 lb")


def test_a_gift_tells_what_the_laws_ask_for(tmp_path):
    told = ("--size", "A7", "--made", "2027-04-01", "--directions", "1 cup per 10 sq ft in May")
    result = halfpail("label-sheet", *BAGS, "--to", tmp_path, *told, *GIFT)
    assert result.exit_code == 0, result.output
    text = squeezed(text_of((tmp_path / "pail-labels-1.pdf").read_bytes()))
    given = ("Net weight 10 lb", "Made by: A club, 1 Hill Road")
    for words in (*given, "Made 1 April 2027", "1 cup per 10 sq ft in May"):
        assert squeezed(words) in text
    assert "notforsale" not in text


def test_directions_are_short(tmp_path):
    result = halfpail("label-sheet", *BAGS, "--to", tmp_path, "--directions", "a " * 101)
    assert result.exit_code == REFUSED
    assert "--directions" in result.stderr


@pytest.mark.parametrize("missing", range(3))
def test_a_gift_with_half_of_it_is_refused(tmp_path, missing):
    told = [*GIFT]
    place = told.pop(2 * missing)
    told.pop(2 * missing)
    result = halfpail("label-sheet", *BAGS, "--to", tmp_path, *told)
    assert result.exit_code == REFUSED
    assert place in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_a_handout_and_its_exercise(tmp_path):
    result = halfpail("handout", *BAGS, "--to", tmp_path, "--paper", "A4", "--units", "metric")
    assert result.exit_code == 0, result.output
    assert "Answers" in text_of((tmp_path / "exercise-1.pdf").read_bytes())
    assert "in L:" in text_of((tmp_path / "handout-1.pdf").read_bytes())


def test_the_whole_paper_of_a_garden(tmp_path, file):
    result = halfpail("paper", file, "--to", tmp_path, *FROST, *DATED)
    assert result.exit_code == 0, result.output
    made = {path.name for path in tmp_path.iterdir()}
    assert {"feeding-sheet.pdf", "season-list.pdf", "buying-list.pdf", "season.ics"} <= made
    text = text_of((tmp_path / "feeding-sheet.pdf").read_bytes())
    assert "North" in text
    assert "2027" in text


def test_what_was_planned_is_remembered_while_the_garden_is_the_same(tmp_path, monkeypatch):
    file, memory = tmp_path / "garden.toml", tmp_path / "found.json"
    file.write_text(TEXT, encoding="utf-8")

    def printed_into(name: str) -> dict[str, bytes]:
        told = ("--to", tmp_path / name, *FROST, *DATED, "--remember", memory)
        result = halfpail("paper", file, *told)
        assert result.exit_code == 0, result.output
        return {path.name: path.read_bytes() for path in (tmp_path / name).iterdir()}

    def no_plan(_: object) -> None:
        raise AssertionError("it was planned anew")

    first = printed_into("first")
    monkeypatch.setattr(paper, "plan_or_exit", no_plan)
    assert printed_into("again") == first
    file.write_text(TEXT.replace("40 sq ft", "60 sq ft"), encoding="utf-8")
    assert halfpail("paper", file, "--to", tmp_path, "--remember", memory).exit_code == BROKEN


def test_a_memory_with_something_missing_is_left_aside(tmp_path, file):
    memory = tmp_path / "found.json"
    halfpail("paper", file, "--to", tmp_path, "--remember", memory)
    whole = json.loads(memory.read_text(encoding="utf-8"))
    for missing in ("plan", "feeds", "notices"):
        memory.write_text(json.dumps({key: whole[key] for key in whole if key != missing}))
        assert halfpail("paper", file, "--to", tmp_path, "--remember", memory).exit_code == 0
        assert set(json.loads(memory.read_text(encoding="utf-8"))) == set(whole)


@pytest.mark.parametrize("junk", ["", "junk", "{}", '{"of": 3}', "[]"])
def test_a_memory_that_is_none_is_left_aside(tmp_path, file, junk):
    memory = tmp_path / "found.json"
    memory.write_text(junk, encoding="utf-8")
    result = halfpail("paper", file, "--to", tmp_path, "--remember", memory)
    assert result.exit_code == 0, result.output
    assert json.loads(memory.read_text(encoding="utf-8"))["plan"]


def test_a_calendar_is_brought_up_to_date(tmp_path, file):
    path = tmp_path / "season.ics"
    for first_frost in ("2027-10-01", "2027-10-08"):
        frost = ("--last-frost", "2027-05-10", "--first-frost", first_frost)
        result = halfpail("calendar", file, *frost, *DATED, "--to", path)
        assert result.exit_code == 0, result.output
    text = path.read_text(encoding="utf-8")
    assert text.count("SUMMARY:Take soil samples") == 1
    assert "SEQUENCE:1" in text


@pytest.mark.parametrize(
    ("arguments", "place"),
    [
        (("card",), "BAG"),
        (("card", *BAGS, "--address", "javascript:alert(1)"), "--address"),
        (("card", *BAGS, "--address", "http://" + "a" * 200), "--address"),
        (("card", *BAGS, "--dated", "05/06/2027"), "--dated"),
        (("paper", *FROST[:2]), "--first-frost"),
    ],
)
def test_what_cannot_be_right_is_refused(tmp_path, arguments, place):
    result = halfpail(*arguments, "--to", tmp_path)
    assert result.exit_code == REFUSED
    assert place in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_a_calendar_needs_frost_dates(file):
    result = halfpail("calendar", file)
    assert result.exit_code == REFUSED
    assert "--last-frost" in result.stderr


def test_a_folder_that_is_a_file_is_refused(tmp_path):
    path = tmp_path / "taken"
    path.write_text("mine", encoding="utf-8")
    result = halfpail("card", *BAGS, "--to", path / "below")
    assert result.exit_code == REFUSED
    assert path.read_text(encoding="utf-8") == "mine"
