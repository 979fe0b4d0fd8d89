"""A spreadsheet on the page: told back, chosen, kept once, taken back; nothing kept before."""

import sqlite3
from contextlib import closing
from datetime import date

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection

from halfpail.storage import models
from halfpail.storage.store_file import FILE_NAME
from halfpail.web import held_import
from halfpail.wiring import services
from tests.sheets.honest_files import xlsx_of
from tests.sheets.hostile_files import HOSTILE
from tests.web.reading_pages import inline, read, unlabelled

BAGS = b"product,grade,weight (lb),price\nMeal,4-4-4,25,12.49\nBlood meal,12-0-0,5,8\n"
FAULTY = BAGS + b"Bad,99-99-99,5,x\n"
TODAY = date(2027, 6, 1)


@pytest.fixture(autouse=True)
def on_a_day(monkeypatch):
    monkeypatch.setattr(held_import, "today", lambda: TODAY)


def upload(sender, raw: bytes, name: str = "bags.csv"):
    """A file sent from the page."""
    sender.client.get("/sources")
    token = sender.client.cookies["halfpail_csrf"].value
    told = {"file": SimpleUploadedFile(name, raw), "csrfmiddlewaretoken": token}
    return sender.client.post("/spreadsheet", told)


def held(sender, raw: bytes, name: str = "bags.csv") -> str:
    """The address of a file that was read."""
    response = upload(sender, raw, name)
    assert response.status_code == 303, read(response).text
    return str(response["Location"])


def keep(sender, address: str, **chosen: str):
    return sender.send(address, {**sender.filled(address, **chosen), "keep": "yes"})


def bag_names(sender) -> list[str]:
    return [kept.value.name for kept in sender.shelf.bags.all()]


def all_that_is_kept(sender) -> list[object]:
    shelf = sender.shelf
    drawers = (shelf.bags, shelf.beds, shelf.mixes, shelf.seasons)
    return [
        *([(kept.key, kept.value) for kept in drawer.all()] for drawer in drawers),
        [kept.value for kept in shelf.diary.all()],
    ]


def test_the_bags_page_leads_there_and_a_template_is_offered(empty):
    assert "/spreadsheet" in [a.attributes["href"] for a in empty.page("/bags").all("a")]
    for address in ("/spreadsheet/to-fill-in.xlsx", "/spreadsheet/to-fill-in.zip"):
        raw = empty.client.get(address).content
        sheets = services().sheets.read(raw, "template").sheets
        assert [sheet.name for sheet in sheets][1:] == ["Bags", "Beds", "Soil tests", "Diary"]
        assert "nothing to keep" in empty.page(held(empty, raw)).text


def test_without_a_garden_one_is_offered(sender):
    assert sender.client.get("/spreadsheet")["Location"] == "/garden"


def test_bags_are_told_back_kept_and_taken_back(empty):
    address = held(empty, BAGS)
    assert bag_names(empty) == []
    page = empty.page(address)
    assert page.all("h1")[0].text == "bags.csv"
    assert "2 rows: 2 new" in page.text and "Keep 2 rows" in page.text
    assert keep(empty, address).status_code == 303
    assert bag_names(empty) == ["Meal", "Blood meal"]
    assert "From this file: 2 bags." in empty.page(address).text
    start = empty.page("/spreadsheet")
    assert "bags.csv: 2 bags" in start.text
    assert address in [a.attributes["href"] for a in start.all("a")]
    assert empty.send(f"{address}/take-back", {}).status_code == 303
    assert bag_names(empty) == []
    assert "The garden is as it was" in empty.page(address).text


def test_a_double_tap_keeps_once_and_takes_back_once(empty):
    address = held(empty, BAGS)
    told = {**empty.filled(address), "keep": "yes"}
    assert [empty.send(address, told).status_code for _ in range(3)] == [303, 200, 200]
    assert bag_names(empty) == ["Meal", "Blood meal"]
    for _ in range(2):
        assert empty.send(f"{address}/take-back", {}).status_code == 303
    assert bag_names(empty) == []
    assert len(empty.shelf.bags.bin()) == 2


def test_the_rows_survive_a_reload_and_a_new_start(empty):
    address = held(empty, BAGS)
    first = empty.page(address).text
    assert empty.page(address).text == first


def test_faulty_rows_are_told_and_left_out(empty):
    address = held(empty, FAULTY)
    text = empty.page(address).text
    assert "3 rows: 2 new, 1 that cannot be used" in text
    assert "row 4, price: it says “x”. x is not a sum of money. Write it as 12.99." in text
    assert "Keep 2 rows, leave out 1" in text
    keep(empty, address)
    assert bag_names(empty) == ["Meal", "Blood meal"]


def test_kept_names_stay_as_they_are_or_take_the_word_of_the_file(sample):
    before = all_that_is_kept(sample)
    (blood,) = [one.value for one in sample.shelf.bags.all() if one.value.name == "Blood meal"]
    address = held(sample, BAGS)
    assert "1 new, 1 here already, but different" in sample.page(address).text
    chosen = {**sample.filled(address), "sheet-0-over": "on", "look": "yes"}
    assert sample.send(address, chosen)["Location"] == address
    assert "Keep 2 rows" in sample.page(address).text
    keep(sample, address, **{"sheet-0-over": "on"})
    (after,) = [one.value for one in sample.shelf.bags.all() if one.value.name == "Blood meal"]
    assert (after.price, after.list_price) == (8, blood.list_price)
    sample.send(f"{address}/take-back", {})
    assert all_that_is_kept(sample) == before


def test_choices_changed_with_the_same_tap_are_looked_at_first(sample):
    address = held(sample, BAGS)
    response = keep(sample, address, **{"sheet-0-over": "on"})
    assert response.status_code == 409
    assert "Look once more" in read(response).text and "Keep 2 rows" in read(response).text
    assert "Meal" not in bag_names(sample)


def test_another_window_may_have_changed_the_garden_meanwhile(sample):
    address = held(sample, BAGS)
    told = {**sample.filled(address), "keep": "yes"}
    new = sample.filled("/bags/new", name="Meal", label="3-3-3")
    assert sample.send("/bags/new", new).status_code == 303
    response = sample.send(address, told)
    assert response.status_code == 409
    assert "2 here already, but different" in read(response).text
    assert [one.value.label for one in sample.shelf.bags.all() if one.value.name == "Meal"] == [
        "3-3-3"
    ]


def test_what_was_changed_since_stays_when_the_rest_is_taken_back(empty):
    address = held(empty, BAGS)
    keep(empty, address)
    key = empty.shelf.bags.all()[0].key
    changed = empty.filled(f"/bags/{key}", price="11")
    assert empty.send(f"/bags/{key}", changed).status_code == 303
    empty.send(f"{address}/take-back", {})
    assert bag_names(empty) == ["Meal"]
    assert "they stay as they are now: Meal." in empty.page(address).text


def test_the_table_and_the_columns_can_be_chosen(empty):
    address = held(empty, b"a,b,c\nMeal,4-4-4,x\n")
    assert "No heads are known here" in empty.page(address).text
    empty.send(address, {**empty.filled(address), "sheet-0-table": "Bags", "look": "yes"})
    columns = {"sheet-0-column-0": "name", "sheet-0-column-1": "label"}
    empty.send(address, {**empty.filled(address), **columns, "look": "yes"})
    assert "1 row: 1 new" in empty.page(address).text
    both = {**empty.filled(address), "sheet-0-column-2": "label", "look": "yes"}
    empty.send(address, both)
    assert empty.filled(address)["sheet-0-column-2"] == ""


def test_a_file_can_be_forgotten_and_old_ones_are(empty):
    address = held(empty, BAGS)
    empty.send(f"{address}/forget", {})
    assert empty.client.get(address)["Location"] == "/spreadsheet"
    addresses = [held(empty, BAGS) for _ in range(held_import.MOST_HELD + 1)]
    assert empty.client.get(addresses[0])["Location"] == "/spreadsheet"
    assert len(models.Draft.objects.filter(form__startswith="spreadsheet")) == held_import.MOST_HELD


@pytest.mark.parametrize("token", ["nothing", "x" * 200, "1"])
def test_an_unknown_address_leads_to_the_start(empty, token):
    assert empty.client.get(f"/spreadsheet/{token}").status_code == 303
    assert empty.send(f"/spreadsheet/{token}", {"keep": "yes"}).status_code == 303
    assert empty.send(f"/spreadsheet/{token}/take-back", {}).status_code == 303


def test_nothing_is_changed_without_a_token_or_by_looking(empty):
    address = held(empty, BAGS)
    for where in (address, f"{address}/take-back", f"{address}/forget", "/spreadsheet"):
        assert empty.client.post(where, {"keep": "yes"}).status_code == 403
    for where in ("take-back", "forget"):
        assert empty.client.get(f"{address}/{where}").status_code == 405
    assert bag_names(empty) == []


def test_no_file_and_no_rows_are_told_kindly(empty):
    page = read(empty.send("/spreadsheet", {}))
    assert page.title.startswith("Error: ") and "Choose a file first." in page.text


def test_every_kind_goes_in_at_once_and_comes_out_at_once(empty):
    before = all_that_is_kept(empty)
    raw = xlsx_of(
        [["bag", "label", "weight (lb)", "price", "in the shed (lb)"], ["Meal", "4-4-4", 25, 9, 7]],
        [["bed", "crop", "size"], ["North", "tomato", "4 x 12 ft"]],
        [["plot", "method", "P (ppm)", "pH"], ["North", "Mehlich-3 ICP", 42, 6.3]],
        [
            ["day", "what", "bed", "bag", "scoops", "note"],
            [date(2027, 5, 1), "fed", "North", "Meal", 2, ""],
            [date(2027, 5, 2), "noted", "", "", None, "rain"],
        ],
    )
    address = held(empty, raw, "garden.xlsx")
    keep(empty, address)
    assert "1 bag, 1 bed and 2 lines of the diary" in empty.page(address).text
    (bed,) = empty.shelf.beds.all()
    assert bed.value.soil_test.figures[0].value == 42
    fed, _ = (kept.value for kept in empty.shelf.diary.all())
    assert (fed.of, fed.scoops) == ("Meal", 2)
    (bag,) = empty.shelf.bags.all()
    shed_kg = bag.value.shed_kg
    assert (
        shed_kg
        == services()
        .read_bag_row({"name": "a", "label": "4-4-4", "in_shed": "7 lb"}, "", empty.shelf.garden())
        .shed_kg
    )
    empty.send(f"{address}/take-back", {})
    assert all_that_is_kept(empty) == before
    assert empty.shelf.bags.bin()[0].value.shed_kg == shed_kg


def test_no_hostile_file_leaves_anything_behind(empty):
    before, rows = all_that_is_kept(empty), models.Draft.objects.count()
    for name, (build, why) in HOSTILE.items():
        response = upload(empty, build(), "bags.xlsx")
        assert response.status_code == 422, name
        page = read(response)
        assert page.title.startswith("Error: ")
        assert why.sentence in page.text and why.remedy in page.text, name
    assert all_that_is_kept(empty) == before
    assert models.Draft.objects.count() == rows


def test_names_of_harm_are_shown_as_they_are(empty):
    raw = '"<script>alert(1)</script>\u202e",grade\n"<b>{{7*7}}</b>",4-4-4\n'.encode()
    address = held(empty, b"bag" + raw[raw.index(b",grade") :], "\u202e<script>.csv")
    page = empty.page(address)
    assert "<b>{{7*7}}</b>" in page.text and not page.all("b")
    assert page.all("h1")[0].text == "<script>.csv"
    assert inline(page) == [] and unlabelled(page) == []


@pytest.mark.parametrize("told", [{}, {"sheet-0-table": "Gardens"}, {"sheet-99-table": "Bags"}])
def test_odd_choices_do_no_harm(empty, told):
    address = held(empty, BAGS)
    odd = {**told, "sheet-0-column-0": "__class__", "sheet-0-column-x": "name", "look": "yes"}
    assert empty.send(address, odd).status_code == 303
    assert empty.page(address)


def test_a_store_in_use_keeps_nothing_and_the_file_waits(empty):
    address = held(empty, BAGS)
    told = {**empty.filled(address), "keep": "yes"}
    connection.cursor().execute("PRAGMA busy_timeout = 20")
    assert services().folder
    with closing(sqlite3.connect(services().folder / FILE_NAME)) as other:
        other.execute("BEGIN IMMEDIATE")
        response = empty.send(address, told)
        assert response.status_code == 503 and "try again" in read(response).text
        other.rollback()
    assert bag_names(empty) == []
    assert empty.send(address, told).status_code == 303
    assert bag_names(empty) == ["Meal", "Blood meal"]


def test_a_full_disk_keeps_all_or_nothing(empty):
    names = [f"Meal {at}" for at in range(150)]
    lines = "\n".join(f"{name},4-4-4 {'of a long label ' * 20}" for name in names)
    address = held(empty, f"bag,label\n{lines}\n".encode())
    told = {**empty.filled(address), "keep": "yes"}
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA page_count")
        cursor.execute(f"PRAGMA max_page_count = {cursor.fetchone()[0] + 4}")
        response = empty.send(address, told)
        assert response.status_code == 507 and "The disk is full" in read(response).text
        assert bag_names(empty) == []
        cursor.execute("PRAGMA max_page_count = 1000000")
    assert empty.send(address, told).status_code == 303
    assert bag_names(empty) == names
