"""Wrong garden files: every fault is told with its place, what was read and how to mend it."""

import tomllib
from pathlib import Path

import pytest

from halfpail.findings import Fault, Refusal
from halfpail.garden_file.reader import read_file, read_text

TABLE = tomllib.loads((Path(__file__).parent / "bad_gardens.toml").read_text("utf-8"))
RIGHT: str = TABLE["right"]


def faults_of(text: str) -> tuple[Fault, ...]:
    """Every fault of a text, with lines."""
    try:
        entry = read_text(text)
    except Refusal as refusal:
        return refusal.faults
    return entry.in_order(entry.faults)


def spoilt(wrong: dict[str, str]) -> str:
    """The text of one wrong garden."""
    if "whole" in wrong:
        return str(wrong["whole"])
    assert RIGHT.count(wrong["instead_of"]) == 1
    return RIGHT.replace(wrong["instead_of"], wrong["put"])


def test_the_right_garden_has_no_fault():
    assert faults_of(RIGHT) == ()


@pytest.mark.parametrize("wrong", TABLE["wrong"], ids=lambda wrong: wrong["case"])
def test_fault_is_told_with_place_and_remedy(wrong):
    faults = faults_of(spoilt(wrong))
    told = [fault for fault in faults if fault.place == wrong["place"]]
    assert told, [fault.place for fault in faults]
    assert wrong["read"] in told[0].read
    assert wrong["remedy"] in told[0].remedy
    assert told[0].sentence.endswith(".")
    if "whole" not in wrong:
        assert len(faults) <= 4


def test_the_slips_that_matter_most_are_all_tried():
    """Soil figures and dates that would do harm if they were taken as they stand."""
    slips = {
        "a soil pH that no soil has",
        "a buffer pH above eight",
        "ppm and lb/acre in one report",
        "lb/acre typed as ppm, seen by the CEC",
        "a figure without its extractant",
        "a sample of no depth",
        "harvest before planting",
        "the 29th of February of a year that has none",
        "frost dates reversed",
    }
    assert slips <= {wrong["case"] for wrong in TABLE["wrong"]}
    assert len(TABLE["wrong"]) == len({wrong["case"] for wrong in TABLE["wrong"]}) >= 75


def test_all_faults_are_told_at_once_from_top_to_bottom():
    text = RIGHT
    for good, bad in (("2 cups", "2 cupz"), ("25 lb", "25"), ("11.99", "x"), ("4 x 12", "4 x")):
        text = text.replace(good, bad)
    places = [fault.place for fault in faults_of(text)]
    assert places == [
        "tools.scoop (line 4)",
        "bags[1].weight (line 14)",
        "bags[1].price (line 15)",
        "beds[1].size (line 20)",
    ]


def test_lists_in_lists_without_end_are_refused():
    assert "deep" in faults_of("a = " + "[" * 5000)[0].sentence


def test_numbers_without_end_are_refused():
    assert faults_of(RIGHT.replace("mixes = 1", "mixes = 1" + "0" * 5000))


def test_a_file_that_is_not_there_is_refused(tmp_path):
    with pytest.raises(Refusal, match="cannot be opened"):
        read_file(tmp_path / "none.toml")


def test_a_folder_is_refused(tmp_path):
    with pytest.raises(Refusal, match="cannot be opened"):
        read_file(tmp_path)


def test_a_file_too_long_is_refused(tmp_path):
    path = tmp_path / "long.toml"
    path.write_bytes(b"#" * 200_001)
    with pytest.raises(Refusal, match="longer than 200 kB"):
        read_file(path)


def test_a_file_in_another_alphabet_is_refused_with_its_line(tmp_path):
    path = tmp_path / "latin.toml"
    path.write_bytes(b'name = "ours"\n# caf\xe9\n')
    with pytest.raises(Refusal) as refused:
        read_file(path)
    assert "(line 2)" in refused.value.faults[0].place


def test_a_byte_order_mark_does_no_harm(tmp_path):
    path = tmp_path / "marked.toml"
    path.write_bytes(b"\xef\xbb\xbf" + RIGHT.encode())
    assert read_file(path).faults == ()
