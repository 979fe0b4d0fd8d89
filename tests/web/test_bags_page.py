"""The bags as pages: a label pasted, a grade alone, a material; prices in order; two windows."""

import csv
from pathlib import Path

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from halfpail.application.read_label import understand_label
from halfpail.reference.materials import material
from halfpail.web.pages.bag import label_of_material
from tests.web.reading_pages import doubled_ids, inline, read, unlabelled

TYPED = Path(__file__).with_name("bad_bags.csv").read_text(encoding="utf-8")
CASES = list(csv.DictReader(TYPED.splitlines()))
ODD = {"LONG": "9" * 10_000, "NUL": "4\x00", "BIDI": "3\u202e4"}
LABEL = """Leafy meal 7-2-3
Total Nitrogen (N) 7.0%
  1.4% Water Soluble Nitrogen
  5.6% Water Insoluble Nitrogen
Available Phosphate (P2O5) 2.0%
Soluble Potash (K2O) 3.0%
Derived from: feather meal, soybean meal, bone meal, sulfate of potash"""
HTMX = {"hx-request": "true"}


def names(page) -> list[str]:
    links = [(a.attributes["href"], a.text) for a in page.all("a")]
    return [text for to, text in links if to.startswith("/bags/") and to != "/bags/new"]


def test_without_a_garden_one_is_offered(sender):
    response = sender.client.get("/bags")
    assert response.status_code == 302 and response["Location"] == "/garden"
    assert "Start with an empty garden" in sender.page("/garden").text


def test_a_pasted_label_is_kept_as_printed(empty):
    told = empty.filled("/bags/new", name="Leafy", label=LABEL, weight="20", price="14.99")
    response = empty.send("/bags/new", told)
    assert (response.status_code, response["Location"]) == (303, "/bags")
    (kept,) = empty.shelf.bags.all()
    assert kept.value.label == LABEL
    assert kept.value.typed == {"weight": "20 lb"}
    page = empty.page("/bags")
    assert "$0.75" in page.text  # 14.99 / 20 by hand
    assert "$10.71" in page.text  # 14.99 / 20 / 0.07 by hand


def test_a_grade_alone_will_do(empty):
    empty.send("/bags/new", empty.filled("/bags/new", name="Starter", label="3-4-4"))
    assert [one.value.label for one in empty.shelf.bags.all()] == ["3-4-4"]


def test_a_material_fills_in_its_typical_analysis_and_says_so(empty):
    page = empty.page("/bags/new?material=blood_meal")
    assert page.by_id("id_name").attributes["value"] == "Blood meal"
    assert "Derived from: blood meal" in page.by_id("id_label").text
    assert "not what your bag says" in page.text
    assert "12-1.5-0" in page.by_id("understood").text


def test_every_material_of_the_table_gives_a_label_that_can_be_read(empty):
    options = empty.page("/bags/new").all("option")
    keys = [one.attributes["value"] for one in options if "_" in one.attributes["value"]]
    assert len(keys) >= 40
    for key in keys:
        told = material(key)
        assert understand_label(label_of_material(told), name=told.name).label.analysis.shares


def test_a_material_that_is_not_there_is_left_aside(empty):
    assert "typical analysis of" not in empty.page("/bags/new?material=../x").text


def test_what_was_understood_stands_beside_the_label_while_one_types(empty):
    told = empty.filled("/bags/new", label=LABEL, weight="20")
    page = read(empty.send("/bags/new", told, **HTMX))
    assert "7-2-3" in page.by_id("understood").text
    assert page.by_id("id_weight_error").text.strip() == "20 lb = 9.07 kg"
    assert page.by_id("id_name_error").text == ""  # not reached yet
    assert empty.shelf.bags.all() == ()


def test_without_a_script_a_button_shows_what_was_understood(empty):
    told = empty.filled("/bags/new", label=LABEL, weight="20", look="yes")
    page = read(empty.send("/bags/new", told))
    assert "7-2-3" in page.by_id("understood").text
    assert page.by_id("id_label").text.strip() == LABEL
    assert empty.shelf.bags.all() == ()


def test_a_draft_is_there_after_the_phone_slept_and_gone_when_saved(empty):
    told = empty.filled("/bags/new", name="Half typed", label="3-4-4", weight="20")
    empty.send("/bags/new", told, **HTMX)
    page = empty.page("/bags/new")
    assert "not saved yet" in page.text
    assert page.by_id("id_name").attributes["value"] == "Half typed"
    assert page.by_id("id_token").attributes["value"] == told["token"]
    empty.send("/bags/new", told)
    assert "not saved yet" not in empty.page("/bags/new").text


def test_a_draft_can_be_forgotten(empty):
    empty.send("/bags/new", empty.filled("/bags/new", name="No"), **HTMX)
    assert empty.send("/bags/new/forget", {}).status_code == 303
    assert empty.page("/bags/new").by_id("id_name").attributes.get("value", "") == ""


def test_a_draft_sent_late_by_the_browser_is_no_second_bag(empty):
    told = empty.filled("/bags/new", name="Once", label="3-4-4")
    empty.send("/bags/new", told)
    empty.send("/bags/new", told, **HTMX)
    assert empty.page("/bags/new").by_id("id_name").attributes.get("value", "") == ""


def test_a_double_tap_adds_one_bag(empty):
    told = empty.filled("/bags/new", name="Twice", label="3-4-4")
    answers = [empty.send("/bags/new", told).status_code for _ in range(3)]
    assert answers == [303, 303, 303]
    assert len(empty.shelf.bags.all()) == 1


def test_two_bags_cannot_share_a_name(empty):
    for status in (303, 422):
        told = empty.filled("/bags/new", name="Same", label="3-4-4")
        response = empty.send("/bags/new", told)
        assert response.status_code == status
    assert "name" in read(response).by_id("id_name_error").text


def test_there_are_enough_cases():
    assert len(CASES) >= 40


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case['field']}: {case['typed'][:30]}")
def test_it_is_refused_at_its_field_and_stays(empty, case):
    field = case["field"]
    typed = ODD.get(case["typed"], case["typed"].replace("\\n", "\n"))
    told = empty.filled("/bags/new", **{"name": "Bag", "label": "3-4-4", field: typed})
    response = empty.send("/bags/new", told)
    assert response.status_code == 422
    page = read(response)
    said = page.by_id(f"id_{field}_error").text
    assert said.strip() and case["told"] in said
    assert page.by_id("id_token").attributes["value"] == told["token"]
    if field != "label" and case["typed"] not in ODD:
        assert page.by_id(f"id_{field}").attributes.get("value", "") == typed
    assert empty.shelf.bags.all() == ()


@pytest.mark.parametrize("name", ["<script>alert(1)</script>", "{{7*7}}", "بذور", "🪱", "' OR 1=1"])
def test_a_name_is_text_and_nothing_else(empty, name):
    empty.send("/bags/new", empty.filled("/bags/new", name=name, label="3-4-4"))
    for address in ("/bags", "/bags/1", "/mixes"):
        html = empty.client.get(address).content.decode()
        assert "<script>alert" not in html
        assert name in read(empty.client.get(address)).text


def test_a_kept_bag_opens_in_the_words_it_was_typed_in(sample):
    kept = sample.shelf.bags.all()[0]
    page = sample.page(f"/bags/{kept.key}")
    assert page.by_id("id_weight").attributes["value"] == "25 lb"
    assert "feather meal" in page.by_id("id_label").text
    told = sample.filled(f"/bags/{kept.key}")
    assert sample.send(f"/bags/{kept.key}", told).status_code == 303
    after = sample.shelf.bags.get(kept.key)
    assert (after.value, after.version) == (kept.value, kept.version + 1)


def test_every_bag_of_the_sample_can_be_saved_as_it_is(sample):
    for kept in sample.shelf.bags.all():
        told = sample.filled(f"/bags/{kept.key}")
        assert sample.send(f"/bags/{kept.key}", told).status_code == 303
        assert sample.shelf.bags.get(kept.key).value == kept.value


def test_of_two_windows_the_second_sees_both(sample):
    key = sample.shelf.bags.all()[0].key
    mine = sample.filled(f"/bags/{key}", price="5.00")
    theirs = sample.filled(f"/bags/{key}", price="7.00")
    assert sample.send(f"/bags/{key}", theirs).status_code == 303
    response = sample.send(f"/bags/{key}", mine)
    page = read(response)
    assert response.status_code == 409
    told = page.by_id("told").text
    assert "5.00" in told and "7" in told
    assert page.by_id("id_price").attributes["value"] == "5.00"
    assert sample.shelf.bags.get(key).value.price == 7
    again = {**mine, "version": page.by_id("id_version").attributes["value"]}
    assert sample.send(f"/bags/{key}", again).status_code == 303
    assert sample.shelf.bags.get(key).value.price == 5


def test_what_is_removed_can_be_put_back(sample):
    kept = sample.shelf.bags.all()[0]
    sample.send(f"/bags/{kept.key}/remove", {"version": str(kept.version)})
    page = sample.page("/bags")
    assert kept.value.name not in names(page)
    assert kept.value.name in page.by_id("bin").text
    assert sample.client.get(f"/bags/{kept.key}").status_code == 404
    sample.send(f"/bags/{kept.key}/put-back", {})
    assert kept.value.name in names(sample.page("/bags"))


@pytest.mark.parametrize("version", ["", "0", "x", "-1", "9" * 5000])
def test_a_bag_that_was_not_seen_is_not_removed(sample, version):
    count = len(sample.shelf.bags.all())
    sample.send("/bags/1/remove", {"version": version})
    assert len(sample.shelf.bags.all()) == count


@pytest.mark.parametrize("by", ["price", "n", "p2o5", "k2o", "usable"])
def test_the_cheapest_comes_first(sample, by):
    page = sample.page(f"/bags?by={by}")
    column = {"price": "a lb", "usable": "a lb usable N"}.get(by, f"a lb {by.upper()}")
    cells = [one.text for one in page.all("td", **{"data-heading": column})]
    prices = [float(text[1:]) for text in cells if text]
    assert prices == sorted(prices) and len(prices) > 5
    assert all(not text for text in cells[len(prices) :])


@pytest.mark.parametrize("by", ["nonsense", "__class__", "", "9" * 5000])
def test_an_odd_order_is_left_aside(sample, by):
    assert len(names(sample.page(f"/bags?by={by}"))) == len(sample.shelf.bags.all())


def test_the_same_stuff_is_grouped(sample):
    told = sample.filled("/bags/new", name="Other blood", label="12-0-0\nDerived from: blood meal")
    sample.send("/bags/new", {**told, "weight": "5 lb", "price": "20"})
    assert "Blood meal, Other blood: made of the same ingredients" in sample.page("/bags").text


def test_queries_do_not_grow_with_bags(sample):
    def queries() -> int:
        with CaptureQueriesContext(connection) as caught:
            sample.page("/bags")
        return len(caught)

    sample.page("/bags")
    before = queries()
    for number in range(20):
        told = sample.filled("/bags/new", name=f"Bag {number}", label="3-4-4")
        sample.send("/bags/new", told)
    sample.page("/bags")  # what was said of the bags is shown once
    assert queries() == before <= 6


@pytest.mark.parametrize("address", ["/garden", "/bags", "/bags/new", "/bags/1"])
def test_the_page_is_whole(sample, address):
    page = read(sample.client.get(address, follow=True))
    assert unlabelled(page) == [] and doubled_ids(page) == [] and inline(page) == []


@pytest.mark.parametrize(
    "address",
    [f"/bags/{rest}" for rest in ("new", "1", "1/remove", "1/put-back", "1/forget", "new/forget")],
)
def test_a_change_needs_a_token(sample, address):
    before = sample.shelf.bags.all()
    assert sample.client.post(address, {"name": "x", "label": "3-4-4"}).status_code == 403
    assert sample.shelf.bags.all() == before


@pytest.mark.parametrize("address", ["/bags/1/remove", "/bags/1/put-back", "/garden/start"])
def test_a_change_is_never_made_by_an_address(sample, address):
    assert sample.client.get(address).status_code == 405
