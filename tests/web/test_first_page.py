"""The first answer as a page: rows without a script, an answer in the address, faults at fields."""

from urllib.parse import parse_qs, urlsplit

import pytest
from click.testing import CliRunner

from halfpail.cli.main import main
from tests.web.asking import BLOOD, STARTER, first
from tests.web.reading_pages import read

FRAGMENT = {"hx-request": "true"}


def test_a_newcomer_sees_a_form_and_no_fault(client):
    page = read(client.get("/"))
    assert page.by_id("id_1-grade").attributes["inputmode"] == "text"
    assert "There is a problem" not in page.text
    assert "What it is" in page.text and "Ground to feed" in page.text


def test_the_example_is_an_address_and_answers(client):
    (example,) = [a for a in read(client.get("/")).all("a") if a.text == "Show me an example."]
    page = read(client.get(example.attributes["href"]))
    assert "by weight" in page.by_id("answer").text


def test_the_page_says_what_the_command_says(client):
    """One use case behind both faces: every sentence and figure of the command is on the page."""
    page = read(client.get(first(STARTER, BLOOD)))
    lines = ["3-4-4, 25 lb, $12, 2 scoops", "12-0-0 blood meal, 5 lb, $9, 1 scoop"]
    said = CliRunner().invoke(main, ["quick", *lines, "--ground", "400 sq ft"]).output
    on_page = page.text
    for sentence in (
        "5.6-2.8-2.8 by weight, $0.87 per lb; on a label it would be 5-2-2.",
        "With 0.1 lb of usable N come 0.09 lb of P2O5.",
        "The mix alone would reach the phosphorus stop in 6 years.",
        "The pail takes 13 rounds",
        "7 lb 2 oz",
        "13 1/2 cups",
        "$35.56 per lb",
    ):
        assert sentence in " ".join(said.split())
        assert sentence in on_page


def test_phosphorus_comes_first(client):
    page = read(client.get(first(STARTER, BLOOD)))
    titles = [one.text for one in page.all("h2")]
    assert titles.index("Phosphorus first") < titles.index("The sum as chalked")


def test_the_advised_year_is_said_in_one_line(client):
    page = read(client.get(first(STARTER, BLOOD)))
    assert "A year on 400 sq ft: 7 lb 2 oz of the mix and 5 lb 10 oz of blood meal" in page.text


def test_each_working_can_be_opened(client):
    page = read(client.get(first(STARTER, BLOOD)))
    for key, words in (
        ("mix-working", "what a scoop of 1 cup weighs"),
        ("limits-working", "Usable N for crops of a medium need"),
        ("years-working", "whole bags"),
    ):
        working = page.by_id(key)
        assert working.tag == "details" and words in working.text


@pytest.mark.parametrize(("asked", "rows"), [("", 2), ("3", 3), ("20", 20), ("21", 20), ("-1", 2)])
def test_rows_are_added_by_a_button(client, asked, rows):
    page = read(client.get(f"/?rows={asked}&1-grade=3-4-4"))
    assert len(page.all("legend")) - 2 == rows  # the other two choose units, light or dark
    assert page.by_id("id_1-grade").attributes["value"] == "3-4-4"


def test_a_row_that_is_filled_in_is_shown(client):
    page = read(client.get("/?9-grade=3-4-4&ground=400"))
    assert page.by_id("id_9-grade").attributes["value"] == "3-4-4"


def test_rows_left_blank_are_left_out(client):
    page = read(client.get(first({}, STARTER)))
    assert "3-4-4 by weight" in page.by_id("answer").text


def test_a_fault_is_told_at_its_field_and_at_the_top_and_what_was_typed_stays(client):
    response = client.get(first({**STARTER, "weight": "25 cups"}, ground="4 x"))
    page = read(response)
    assert response.status_code == 422
    assert "Cup measures volume, but weight is wanted" in page.by_id("id_1-weight_error").text
    assert page.by_id("id_1-weight").attributes["value"] == "25 cups"
    assert page.by_id("id_ground_error").text.strip()
    summary = page.all("section", id="told")[0].text
    assert "Bag 1, Weight" in summary and "Ground to feed" in summary
    links = [a.attributes["href"] for a in page.all("a")]
    assert {"#id_1-weight", "#id_ground"} <= set(links)
    assert page.by_id("id_1-weight").attributes["aria-invalid"] == "true"


def test_a_label_that_cannot_be_is_told_at_its_row(client):
    page = read(client.get(first(STARTER, {"grade": "60-30-30"})))
    assert page.by_id("id_2-grade_error").text.strip()
    assert not page.by_id("id_1-grade_error").text.strip()


def test_leaving_a_field_does_not_blame_what_is_not_reached_yet(client):
    page = read(client.get("/?1-grade=3-4-4&ground=", headers=FRAGMENT))
    assert not page.by_id("id_ground_error").text.strip()
    assert "when the ground" in page.by_id("answer").text


def test_leaving_a_field_tells_what_is_wrong_in_it(client):
    response = client.get("/?1-grade=3-4-4&1-weight=25+cups&ground=", headers=FRAGMENT)
    page = read(response)
    assert response.status_code == 200  # the page is not finished, so it is not refused
    assert page.by_id("id_1-weight_error").text.strip()
    assert not page.by_id("id_ground_error").text.strip()


def test_what_changes_while_one_types_is_on_the_page(client):
    page = read(client.get("/"))
    (form,) = [one for one in page.all("form") if "hx-get" in one.attributes]
    ids = {one.attributes.get("id") for one in page.elements}
    live = {part[1:] for part in form.attributes["hx-select-oob"].split(",")}
    assert len(live) > 10 and live <= ids


def test_a_number_keeps_the_unit_it_was_typed_in(client):
    """A kept address must not turn 400 sq ft into 400 square metres."""
    client.cookies["units"] = "metric"
    page = read(client.get(first(STARTER, ground="400", units="US")))
    assert "(sq ft)" in page.text
    assert "A year on 37.2 m²" in page.text
    assert "A year on 400 m²" in read(client.get(first(STARTER, ground="400"))).text


def test_what_was_read_is_said_back(client):
    page = read(client.get(first({**STARTER, "weight": "2½"}, ground="4 x 8 ft")))
    assert page.by_id("id_1-weight_error").text == "2 1/2 lb = 1.13 kg "
    assert "4 ft x 8 ft = 2.97 m²" in page.by_id("id_ground_error").text


def test_metric_pages_tell_metric(client):
    client.cookies["units"] = "metric"
    answer = read(client.get(first(STARTER, ground="37"))).by_id("answer").text
    assert "g per m²" in answer
    assert "lb per 100 sq ft" not in answer and "per lb" not in answer


def test_the_bags_go_along_to_the_other_pages(client):
    page = read(client.get(first(STARTER, BLOOD)))
    (link,) = [a for a in page.all("a") if a.text == "Change its scoops"]
    carried = parse_qs(urlsplit(link.attributes["href"]).query)
    assert carried["2-name"] == ["blood meal"] and carried["1-scoops"] == ["2"]
    mixed = read(client.get(link.attributes["href"]))
    assert "5.6-2.8-2.8 by weight" in mixed.text
