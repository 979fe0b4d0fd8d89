"""`halfpail need`, run as a person runs it."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from halfpail.cli.main import main
from halfpail.wiring import sample_garden_text

TEST = ("--test", "extractant=Olsen", "--test", "P=12 ppm")


def halfpail(*arguments: object) -> Result:
    return CliRunner().invoke(main, ["need", *(str(argument) for argument in arguments)])


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample garden as a file."""
    path = tmp_path_factory.mktemp("garden") / "garden.toml"
    path.write_text(sample_garden_text(), encoding="utf-8")
    return path


def test_all_beds_stand_in_one_table_with_what_to_mind(file):
    page = halfpail(file).stdout
    assert "Cabbage family" in page and "none" in page
    assert "STOP: Cabbage family: Phosphorus is very high" in page
    assert page.count("No soil test") == 1


def test_one_bed_is_told_whole_with_its_working(file):
    page = halfpail(file, "cabbage family", "--working").stdout
    for part in ("Ranges", "Soil test", "Rutgers", "Phosphorus account", "Working", "verified"):
        assert part in page


def test_a_pot_is_told_by_its_mix_and_never_by_its_ground(file):
    page = halfpail(file, "Two half barrels by the gate").stdout
    assert "30 gal of bought mix" in page
    assert "saturated-media" in page
    assert "per 100 sq ft" not in page


def test_a_bed_may_be_told_on_the_line():
    page = halfpail("--crop", "tomato", "--area", "4 x 30 ft", *TEST).stdout
    assert "120 sq ft with tomatoes" in page
    assert "California" in page


def test_two_crops_on_the_line_share_the_bed():
    page = halfpail("--crop", "pea", "--crop", "beet", "--area", "50 sq ft").stdout
    assert "peas on 50 %, beets on 50 %" in page


def test_any_key_of_a_bed_may_be_told_on_the_line():
    told = ("--also", "water_depth=12 in", "--also", "water_nitrate=10 ppm")
    page = halfpail("--crop", "tomato", "--area", "100 sq ft", *told).stdout
    assert "nitrate in the water" in page


def test_metric_units_are_kept_to():
    page = halfpail("--crop", "tomato", "--area", "10 m2", "--units", "metric", *TEST).stdout
    assert "g per m²" in page
    assert " lb per" not in page


def test_json_names_its_units(file):
    beds = json.loads(halfpail(file, "--json").stdout)
    cabbage = next(bed for bed in beds if bed["bed"] == "Cabbage family")
    phosphorus = next(need for need in cabbage["needs"] if need["nutrient"] == "P2O5")
    assert phosphorus["cap_kg_per_m2"] == 0
    assert cabbage["soil"][0]["class"] == "very high"
    assert cabbage["p2o5_stop_kg_per_m2"] > 0


@pytest.mark.parametrize(
    ("told", "place", "remedy"),
    [
        (("--test", "P"), "--test", "KEY=VALUE"),
        (("--test", "P=12 ppm", "--test", "P=13 ppm"), "--test", "Give it once"),
        (("--test", "P=12 ppm"), "bed.soil_test.extractant", "Mehlich-3 ICP"),
        (("--test", "pH=14"), "bed.soil_test.pH", "Check the report"),
        (("--test", "Q=14"), "bed.soil_test.Q", "Known"),
        (("--also", "colour=red"), "bed.colour", "Known"),
        (("--container", "9000 gal"), "bed.container", "Check the unit"),
    ],
)
def test_what_cannot_be_is_refused_beside_its_place(told, place, remedy):
    result = halfpail("--crop", "tomato", "--area", "100 sq ft", *told)
    assert result.exit_code == 2
    assert f"{place}: " in result.stderr
    assert remedy in result.stderr


def test_an_unknown_crop_is_refused_with_near_ones():
    result = halfpail("--crop", "tomatto", "--area", "100 sq ft")
    assert result.exit_code == 2
    assert "tomato" in result.stderr


def test_an_unknown_bed_is_refused_with_the_nearest(file):
    result = halfpail(file, "Cabage family")
    assert result.exit_code == 2
    assert "Cabbage family" in result.stderr


def test_a_file_and_a_bed_on_the_line_are_refused_together(file):
    assert halfpail(file, "--crop", "pea").exit_code == 2


def test_nothing_told_is_refused():
    result = halfpail()
    assert result.exit_code == 2
    assert "crop is missing" in result.stderr
