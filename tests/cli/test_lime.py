"""`halfpail lime`: text, JSON, units, and many questions refused beside their place."""

import json
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from halfpail.cli.main import REFUSED, main
from halfpail.wiring import sample_garden_text

BAD = tomllib.loads((Path(__file__).parent / "bad_lime_questions.toml").read_text("utf-8"))["asked"]
USUAL = {"ph": "5.4", "ground": "100 sq ft", "texture": "loam"}


def run(*flags: str, **options: str) -> Result:
    asked = {**USUAL, **options}
    words = [
        word
        for name, value in asked.items()
        if value
        for word in (f"--{name.replace('_', '-')}", value)
    ]
    return CliRunner().invoke(main, ["lime", *words, *flags])


def halfpail(*words: str) -> Result:
    return CliRunner().invoke(main, ["lime", *words])


def said(result: Result) -> str:
    return " ".join(result.output.split())


@pytest.mark.parametrize("bad", BAD, ids=lambda bad: bad["id"])
def test_what_cannot_be_so_is_refused_beside_its_place(bad):
    result = run(**bad["options"])
    assert result.exit_code == REFUSED, result.output
    told = " ".join(result.stderr.split())
    assert f"* {bad['place']}: " in told
    assert bad["says"] in told
    assert "mend:" in told


def test_every_fault_is_told_at_once():
    result = run(ph="14", buffer="9", **{"buffer-kind": "smp"}, depth="1 in")
    assert "3 things need mending" in result.stderr


def test_without_a_buffer_test_the_answer_is_careful():
    answer = said(run())
    assert "by careful rate for loam, without a buffer test" in answer
    assert "at most 5 lb per 100 sq ft. Test again next year" in answer
    assert "Published, not used" in answer


def test_a_buffer_test_names_its_method():
    answer = said(run(buffer="6.0", **{"buffer-kind": "Sikora"}))
    assert "by Sikora buffer, Oregon 2025" in answer
    assert "2, 6 months apart" in answer


def test_a_remembered_method_says_so():
    assert "written here from memory" in said(run(buffer="6.6", **{"buffer-kind": "smp"}))


def test_the_pail_and_its_grade():
    answer = said(run(mix="4-4-4"))
    assert "With 5 % of lime in it a 4-4-4 is 3.8-3.8-3.8" in answer
    assert "it brings 0.5 lb per 100 sq ft of lime" in answer
    assert "spread the same day" in answer


def test_blossom_end_rot_is_mostly_water():
    assert "Blossom-end rot is mostly uneven water" in said(run())


def test_a_container_gets_no_field_table():
    answer = run(use="container")
    assert "STOP: Lime tables and field tests do not hold for containers" in said(answer)
    assert "Nothing." in answer.output


@pytest.mark.parametrize(
    ("figure", "lime"), [("70 lb per acre", "dolomitic"), ("90 lb/acre", "calcitic")]
)
def test_magnesium_by_its_figure(figure, lime):
    assert f"Ground limestone, {lime}" in run(magnesium=figure).output


def test_metric():
    answer = run(units="metric", ground="3 m²").output
    assert "g per m²" in answer
    assert "sq ft" not in answer.replace("per 100 sq ft", "")


def test_working_can_be_repeated_with_a_pencil():
    options = {"ph": "5.0", "target": "6.0", "buffer": "6.3", "buffer-kind": "mehlich"}
    answer = run("--working", **options).output
    assert "(6.6 - 6.3) x 4 = 1.2 meq per 100 cm3" in answer
    assert "1.2 x (6 - 5) / (6.6 - 5) tons per acre" in answer
    assert "ncda-buffer" in answer


@pytest.mark.parametrize(
    ("kind", "buffer", "line"),
    [
        ("acidity", "9.7", "9.7 x 840 lb per acre"),
        ("acidity", "3", "acidity of 3 is not above 4: 2000 lb per acre"),
        ("smp", "6.8", "to pH 6.5: 60.4 - 0.87 x 68 tons per acre"),
        ("sikora", "6.0", "buffer pH 6 to pH 6.4: 3.5 tons per acre"),
        ("adams-evans", "7.6", "8000 x (8 - 7.6)"),
    ],
)
def test_each_method_chalks_its_sum(kind, buffer, line):
    answer = run("--working", ph="5.0", buffer=buffer, **{"buffer-kind": kind})
    assert line in answer.output


def test_a_table_row_is_named():
    options = {"buffer": "9.7", "buffer-kind": "acidity", "method": "acidity_pa_table"}
    assert "table row 9.7, column to pH 6.5" in run("--working", **options).output


def test_earlier_lime_and_depth_are_chalked():
    options = {"lime-given": "5 lb per 100 sq ft", "months-ago": "6", "depth": "3 in"}
    answer = run("--working", buffer="6.0", **{"buffer-kind": "sikora"}, **options)
    assert "(100 - 8 x 6) %" in answer.output
    assert "x 3 / 6 in" in answer.output


def test_sulfur_for_an_acid_bed():
    answer = said(run("--working", use="acid", ph="6.5"))
    assert "Sulfur, pellets or prills" in answer
    assert "1 lb per 100 sq ft" in answer
    assert "vinegar" in answer
    assert "from pH 6.5 to 5.2" in answer


def test_ash_as_the_material():
    answer = said(run(material="wood ash"))
    assert "Wood ash, as below." in answer
    assert "up to 2 lb per 100 sq ft this year, 2 lb on the bed; no lime beside it" in answer


def test_only_the_nearest_row_of_each_published_table_is_shown():
    shown = run(use="acid", ph="6.2").output.split("Published, not used")[1].split("Mind")[0]
    assert shown.count("sulfur-newsletter") == 1
    assert "pH 6.5 to 4.5" in shown


def test_free_lime_stops_sulfur():
    answer = said(run("--free-lime", use="acid", ph="6.9"))
    assert "STOP: No sulfur" in answer
    assert "Sulfur, pellets" not in answer


def test_low_calcium_and_magnesium_at_the_right_ph():
    answer = said(run("--working", ph="6.5", calcium="low", magnesium="low"))
    assert "Gypsum 1 lb per 100 sq ft" in answer
    assert "Epsom salt 1 lb per 100 sq ft" in answer


def test_as_json():
    answer = json.loads(run("--json", buffer="6.0", **{"buffer-kind": "sikora"}).output)
    assert answer["answer"]["need"]["method"]["key"] == "sikora"
    assert answer["answer"]["breaches"] == []
    assert set(answer["on_the_bed_kg"]) == {"calcitic_lime", "wood_ash"}
    assert answer["working"]
    assert any(one["severity"] == "note" for one in answer["notices"])


def test_fineness_of_a_bag_is_counted():
    """Cornell's ENV steps: 9.2 + 12 + 60 = 81.2 %, times CCE 92 = 74.7 %."""
    options = {"cce": "92", "passing": "20:98, 60:75, 100:60"}
    answer = run("--working", buffer="6.3", **{"buffer-kind": "sikora"}, **options)
    assert "92 % x 81.2 % = 74.7 %" in answer.output


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("garden") / "garden.toml"
    path.write_text(sample_garden_text(), encoding="utf-8")
    return path


def test_all_beds_of_a_garden_by_their_soil_tests(sample):
    page = said(halfpail(str(sample)))
    assert "Squash and pumpkins 5.4 6.5 Ground limestone, dolomitic" in page
    assert "Cabbage family 6.8 6.5 nothing" in page
    assert "No pH, so nothing to be spread for it: Peppers and eggplants" in page
    assert "Two half barrels by the gate." in page


def test_one_bed_of_a_garden_is_the_same_as_told_on_the_line(sample):
    of_file = json.loads(halfpail(str(sample), "squash and pumpkins", "--json").stdout)
    words = (
        "--ph 5.4 --buffer 6.5 --buffer-kind smp --texture loam --cec 8.1 --calcium low "
        "--magnesium low"
    )
    told = (*words.split(), "--ground", "144 sq ft")
    on_line = json.loads(halfpail(*told, "--json").stdout)
    assert of_file["on_the_bed_kg"] == on_line["on_the_bed_kg"] != {}


@pytest.mark.parametrize(
    ("bed", "sentence"),
    [("Squash and pumpkin", "Did you mean Squash and pumpkins?"), ("Salad bed", "tells no pH")],
)
def test_a_bed_without_an_answer_is_refused_beside_its_name(sample, bed, sentence):
    refused = halfpail(str(sample), bed)
    assert refused.exit_code == 2
    assert sentence in said(refused)


def test_without_a_garden_the_ph_and_the_ground_are_asked():
    refused = halfpail("--texture", "loam")
    assert refused.exit_code == 2
    assert "--ph" in said(refused) and "--ground" in said(refused)
