"""The beds as pages: size, crops, soil test; what each should get with its working; lime."""

import csv
from pathlib import Path

import pytest
from click.testing import CliRunner
from django.db import connection
from django.test.utils import CaptureQueriesContext

from halfpail.cli.main import main
from tests.web.reading_pages import doubled_ids, inline, read, unlabelled

TYPED = Path(__file__).with_name("bad_beds.csv").read_text(encoding="utf-8")
CASES = list(csv.DictReader(TYPED.splitlines()))
ODD = {"LONG": "9" * 10_000, "NUL": "4\x00", "BIDI": "3\u202e4"}
HTMX = {"hx-request": "true"}
TOMATOES = {"name": "North", "size": "4 x 30 ft", "crops-1-crop": "tomato"}
SHEET = {
    "soil_test-extractant": "Mehlich-3 ICP",
    "soil_test-P": "48",
    "soil_test-K": "88 ppm",
    "soil_test-pH": "5.4",
    "soil_test-buffer": "SMP",
    "soil_test-buffer_pH": "6.5",
    "soil_test-organic_matter": "3.8",
    "soil_test-depth": "6 in",
}


def add(browser, **typed: str):
    return browser.send("/beds/new", browser.filled("/beds/new", **typed))


def test_a_size_and_a_crop_will_do(empty):
    assert add(empty, **TOMATOES).status_code == 303
    (kept,) = empty.shelf.beds.all()
    assert (kept.value.name, kept.value.crop) == ("North", "tomato")
    assert "120 sq ft" in empty.page("/beds").text  # 4 ft x 30 ft by hand


@pytest.mark.parametrize(
    ("told", "area"),
    [
        ({"size": "48"}, "48 sq ft"),
        ({"size": "4 x 12"}, "48 sq ft"),
        ({"size": "4 ft x 12 ft"}, "48 sq ft"),
        ({"size": "", "row": "50 ft", "row_width": "3 ft"}, "150 sq ft"),
        ({"size": "", "row": "50", "row_width": "3"}, "150 sq ft"),
        ({"size": "10 m²"}, "108 sq ft"),
    ],
)
def test_the_size_is_told_in_any_of_three_ways(empty, told, area):
    assert add(empty, **{**TOMATOES, **told}).status_code == 303
    assert area in empty.page("/beds").text


def test_crops_share_a_bed_and_follow_each_other(empty):
    crops = {"crops-1-crop": "pea", "crops-1-share": "1/2"}
    crops |= {"crops-3-crop": "lettuce", "crops-3-share": "1/2", "crops-3-succession": "1"}
    add(empty, **TOMATOES | crops)
    (kept,) = empty.shelf.beds.all()
    assert [(one.crop, one.share * 2) for one in kept.value.crops] == [("pea", 1), ("lettuce", 1)]
    page = empty.page("/beds/1")
    assert page.by_id("id_crops-2-crop").attributes["value"] == "lettuce"
    assert "open" in page.by_id("crops").attributes


def test_a_fault_of_a_later_crop_stands_in_its_row(empty):
    crops = {"crops-1-share": "1/2", "crops-3-crop": "unicorn", "crops-3-share": "1/2"}
    page = read(add(empty, **TOMATOES | crops))
    assert "not in the table" in page.by_id("id_crops-3-crop_error").text


def test_the_page_says_what_the_command_says(empty):
    """One use case behind both faces."""
    page = read(empty.send("/beds/new", empty.filled("/beds/new", **TOMATOES, **SHEET), **HTMX))
    test = [f"--test={key.removeprefix('soil_test-')}={value}" for key, value in SHEET.items()]
    test = [one + " ppm" if one == "--test=P=48" else one for one in test]
    asked = ["need", "--crop", "tomato", "--area", "4 x 30 ft", *test]
    said = CliRunner().invoke(main, asked).output
    shown = page.by_id("understood").text
    ranges = [row.split()[1:4] for row in said.splitlines() if row.startswith("  K2O ")]
    figures = [one for one in ranges if len(one) == 3]
    assert figures
    for least, aim, most in figures:
        assert f"{least} {aim} {most}" in " ".join(shown.split())


def test_lime_is_told_with_a_ph_and_its_working(empty):
    add(empty, **TOMATOES, **SHEET)
    page = empty.page("/beds/1")
    assert "The soil has pH 5.4" in page.text
    assert page.by_id("lime-working").tag == page.by_id("need-working").tag == "details"


def test_without_a_ph_nothing_is_said_of_lime(empty):
    add(empty, **TOMATOES)
    assert "once the soil pH is filled in" in empty.page("/beds/1").text


def test_a_bare_figure_is_meant_in_ppm_and_comes_back_so(empty):
    add(empty, **TOMATOES, **SHEET)
    page = empty.page("/beds/1")
    assert page.by_id("id_soil_test-P").attributes["value"] == "48 ppm"
    assert page.by_id("id_size").attributes["value"] == "4 x 30 ft"


def test_what_no_box_shows_is_kept(sample):
    """Earlier years, dates and ranges typed in a garden file outlive a change on the page."""
    for kept in sample.shelf.beds.all():
        address = f"/beds/{kept.key}"
        response = sample.send(address, sample.filled(address))
        assert response.status_code == 303, read(response).by_id("told").text
        after = sample.shelf.beds.get(kept.key).value
        for name in ("years", "needs", "planted", "nitrogen", "soil_test", "area_m2", "given"):
            was, now = getattr(kept.value, name), getattr(after, name)
            assert len(was) == len(now) if name == "years" else was == now


def test_there_are_enough_cases():
    assert len(CASES) >= 50


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case['field']}: {case['typed'][:30]}")
def test_it_is_refused_at_a_field_and_stays(empty, case):
    field, typed = case["field"], ODD.get(case["typed"], case["typed"])
    told = empty.filled("/beds/new", **TOMATOES | SHEET | {field: typed})
    response = empty.send("/beds/new", told)
    assert response.status_code == 422
    page = read(response)
    said = [one.text for one in page.all("p", **{"class": "error"})]
    assert said and any(case["told"] in one for one in said)
    if case["typed"] not in ODD and field not in ("history", "soil_test-texture"):
        assert page.by_id(f"id_{field}").attributes.get("value", "") == typed
    assert empty.shelf.beds.all() == ()


def test_a_double_tap_adds_one_bed(empty):
    told = empty.filled("/beds/new", **TOMATOES)
    assert [empty.send("/beds/new", told).status_code for _ in range(2)] == [303, 303]
    assert len(empty.shelf.beds.all()) == 1


def test_a_draft_of_a_kept_bed_is_there_again(sample):
    told = sample.filled("/beds/1", size="5 x 30 ft")
    sample.send("/beds/1", told, **HTMX)
    page = sample.page("/beds/1")
    assert "not saved yet" in page.text
    assert page.by_id("id_size").attributes["value"] == "5 x 30 ft"
    sample.send("/beds/1/forget", {})
    assert sample.page("/beds/1").by_id("id_size").attributes["value"] == "4 x 30 ft"


def test_a_draft_sent_late_by_the_browser_does_not_come_back_after_saving(sample):
    told = sample.filled("/beds/1", size="5 x 30 ft")
    sample.send("/beds/1", told)
    sample.send("/beds/1", told, **HTMX)
    assert "not saved yet" not in sample.page("/beds/1").text


def test_of_two_windows_the_second_sees_both(sample):
    mine, theirs = sample.filled("/beds/1", size="100"), sample.filled("/beds/1", size="200")
    assert sample.send("/beds/1", theirs).status_code == 303
    response = sample.send("/beds/1", mine)
    told = read(response).by_id("told").text
    assert response.status_code == 409
    assert "100" in told and "200" in told


def test_what_is_removed_can_be_put_back(sample):
    kept = sample.shelf.beds.all()[0]
    sample.send("/beds/1/remove", {"version": str(kept.version)})
    assert kept.value.name in sample.page("/beds").by_id("bin").text
    sample.send("/beds/1/put-back", {})
    assert sample.shelf.beds.get(1).value == kept.value


def test_queries_do_not_grow_with_beds(sample):
    def queries() -> int:
        with CaptureQueriesContext(connection) as caught:
            sample.page("/beds")
        return len(caught)

    before = queries()
    for number in range(20):
        add(sample, **{**TOMATOES, "name": f"Bed {number}"})
    sample.page("/beds")
    assert queries() == before <= 6


@pytest.mark.parametrize("address", ["/beds", "/beds/new", "/beds/1", "/beds/4", "/beds/9"])
def test_the_page_is_whole(sample, address):
    page = read(sample.client.get(address))
    assert unlabelled(page) == [] and doubled_ids(page) == [] and inline(page) == []
    for form in page.all("form"):
        live = form.attributes.get("hx-select-oob", "").split(",")
        ids = {one.attributes.get("id") for one in page.elements}
        assert {one[1:] for one in live if one} <= ids


@pytest.mark.parametrize("address", ["/beds/new", "/beds/1", "/beds/1/remove", "/beds/1/forget"])
def test_a_change_needs_a_token(sample, address):
    before = sample.shelf.beds.all()
    assert sample.client.post(address, TOMATOES).status_code == 403
    assert sample.shelf.beds.all() == before
