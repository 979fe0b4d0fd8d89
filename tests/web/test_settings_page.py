"""Settings, backups and garden files as pages."""

import csv
from pathlib import Path
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from halfpail.wiring import sample_garden_text, services
from tests.web.reading_pages import doubled_ids, inline, read, unlabelled

TYPED = Path(__file__).with_name("bad_settings.csv").read_text(encoding="utf-8")
CASES = list(csv.DictReader(TYPED.splitlines()))
ODD = {"LONG": "9" * 10_000, "NUL": "4\x00", "BIDI": "3\u202e4"}
FROST = {"climate-last_frost": "10 May 2027", "climate-first_frost": "2027-10-01"}
BROKEN = sample_garden_text().replace('weight = "25 lb"', 'weight = "25 cups"', 1)
FILES = {
    "empty": b"",
    "not toml": b"name = ",
    "not text": b"\xff\xfe\x00",
    "no scoop": b"name = 'x'",
    "wrong weight": BROKEN.encode(),
    "wrong label": sample_garden_text().replace('"3-5-3"', '"99-99-99"').encode(),
    "unknown crop": sample_garden_text().replace('crop = "cabbage"', 'crop = "unicorn"').encode(),
    "deep": b"a = " + b"[" * 5000 + b"]" * 5000,
    "long": b"#" * 200_001,
    "nul": b"name = 'a\x00'",
    "a picture": b"\x89PNG\r\n\x1a\n" + bytes(range(256)),
}


def about(browser: Any) -> Any:
    return browser.store.gardens.all()[-1].value


def upload(browser, content: bytes, name: str = "garden.toml"):
    told = {"file": SimpleUploadedFile(name, content)}
    return browser.send("/garden/import", told)


def test_what_is_changed_holds_on_the_other_pages(sample):
    told = sample.filled("/settings", **{"tools-scoop": "1", "preferences-units": "metric"} | FROST)
    assert sample.send("/settings", told).status_code == 303
    kept = about(sample).about
    assert kept.climate.frost.free_days == 144  # 10 May to 1 October, counted on a calendar
    assert "a kg" in sample.page("/bags").text
    assert sample.page("/settings").by_id("id_tools-scoop").attributes["value"] == "1 cup"
    assert len(sample.shelf.bags.all()) == 14


def test_the_sample_can_be_saved_as_it_is(sample):
    before = about(sample)
    assert sample.send("/settings", sample.filled("/settings")).status_code == 303
    assert about(sample).about == before.about


MONTHS_F = "24 27 36 47 58 67 71 69 62 51 40 29"


def test_what_is_known_of_the_warmth_is_kept_in_the_words_it_was_typed_in(sample):
    more = {"climate-months": f"{MONTHS_F} F", "climate-soil_depth": "3"}
    assert sample.send("/settings", sample.filled("/settings", **FROST | more)).status_code == 303
    climate = about(sample).about.climate
    assert climate.months_c[0] == pytest.approx((24 - 32) / 1.8)  # by the definition of °F
    assert climate.frost.free_days == 144 and climate.depth_m == pytest.approx(0.0762)
    page = sample.page("/settings")
    box = page.by_id("id_climate-months").attributes["value"]
    assert box == ", ".join(f"{word} F" for word in MONTHS_F.split())
    assert page.by_id("id_climate-soil_depth").attributes["value"] == "3 in"
    assert "At a depth of 3 in the soil is taken to be" in page.text
    before = about(sample).about
    assert sample.send("/settings", sample.filled("/settings")).status_code == 303
    assert about(sample).about == before  # saved again as it is shown, to the last digit


def test_the_warmth_goes_out_in_a_garden_file_and_comes_in_again(sample):
    more = {"climate-months": "-4 -3 2.5 8 14 19 22 21 17 11 4 -2 C"}
    sample.send("/settings", sample.filled("/settings", **FROST | more))
    entry = about(sample).about
    text = services().write_garden(entry)
    assert '"2.5 C"' in text
    assert services().read_garden_text(text).climate == entry.climate


def test_a_bare_number_is_meant_in_the_gardens_units(sample):
    told = sample.filled("/settings", **{"preferences-units": "metric"})
    sample.send("/settings", told)
    sample.send("/settings", sample.filled("/settings", **{"climate-soil_temperature": "20"}))
    assert about(sample).about.climate.steady_c == 20
    assert "20 °C in mid January" in sample.page("/settings").text


def test_a_southern_garden_is_warm_in_january(sample):
    south = {"climate-last_frost": "2026-09-20", "climate-first_frost": "2027-05-01"}
    assert sample.send("/settings", sample.filled("/settings", **south)).status_code == 303
    words = sample.page("/settings").text.partition("the soil is taken to be ")[2]
    degrees = [int(one.split()[0]) for one in words.partition(".")[0].split(", ")]
    assert degrees[0] > degrees[2] + 20


def test_a_depth_alone_is_told_to_count_for_nothing(sample):
    none = {"climate-last_frost": "", "climate-first_frost": "", "climate-soil_depth": "4"}
    response = sample.send("/settings", sample.filled("/settings", **none))
    page = read(response)
    assert response.status_code == 422
    assert "counts only with" in page.by_id("id_climate-soil_depth_error").text
    assert "open" in page.all("details", **{"class": "more"})[0].attributes


def test_the_household_brings_its_cautions(sample):
    assert "Cautions for this household" not in sample.page("/settings").text
    sample.send("/settings", sample.filled("/settings", pets="on"))
    text = sample.page("/settings").text
    assert "Dogs and cats eat meals" in text and "out of the reach of children" not in text


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case['field']}: {case['typed'][:30]}")
def test_it_is_refused_at_its_field_and_stays(sample, case):
    field, typed = case["field"], ODD.get(case["typed"], case["typed"])
    before = about(sample)
    told = sample.filled("/settings", **FROST | {field: typed})
    response = sample.send("/settings", told)
    assert response.status_code == 422
    said = read(response).by_id(f"id_{field}_error").text
    assert said.strip() and case["told"] in said
    assert about(sample) == before


def test_there_are_enough_cases():
    assert len(CASES) >= 30 and len(FILES) >= 10


def test_of_two_windows_the_second_sees_both(sample):
    mine = sample.filled("/settings", name="Mine")
    theirs = sample.filled("/settings", name="Theirs")
    assert sample.send("/settings", theirs).status_code == 303
    response = sample.send("/settings", mine)
    told = read(response).by_id("told").text
    assert response.status_code == 409 and "Mine" in told and "Theirs" in told


def test_a_backup_brings_back_what_was_there(sample):
    assert sample.send("/settings/backup", {}).status_code == 303
    sample.send("/bags/1/remove", {"version": "1"})
    page = sample.page("/settings")
    names = [box.attributes["value"] for box in page.all("input", name="name", type="hidden")]
    assert sample.send("/settings/restore", {"name": names[0]}).status_code == 303
    assert sample.shelf.bags.get(1).value.name == "All-purpose meal blend"
    assert sample.page("/settings").text.count("Restore") > page.text.count("Restore")


@pytest.mark.parametrize("name", ["", "../../etc/passwd", "halfpail.sqlite3", "x" * 5000, "\x00"])
def test_only_a_backup_of_the_page_is_restored(sample, name):
    response = sample.send("/settings/restore", {"name": name})
    assert response.status_code == 503 and len(sample.shelf.bags.all()) == 14


def test_the_file_written_is_the_garden(sample):
    response = sample.client.get("/files/garden.toml")
    assert response["Content-Disposition"] == 'attachment; filename="garden.toml"'
    entry = services().read_garden_text(response.content.decode())
    sample_garden = services().read_sample_garden()
    assert entry.faults == ()
    assert [bag.label for bag in entry.bags] == [bag.label for bag in sample_garden.bags]
    assert [bed.area_m2 for bed in entry.beds] == [bed.area_m2 for bed in sample_garden.beds]
    assert entry.tools == sample_garden.tools and entry.preferences == sample_garden.preferences


def test_a_file_is_kept_only_when_one_says_so(sender):
    response = upload(sender, sample_garden_text().encode())
    page = read(response)
    assert response.status_code == 200 and "14 bags and 13 beds" in page.text
    assert sender.store.gardens.all() == ()
    (token,) = [box.attributes["value"] for box in page.all("input", name="token")]
    for _ in range(2):  # a double tap
        assert sender.send("/garden/import/confirm", {"token": token}).status_code == 303
    assert len(sender.store.gardens.all()) == 1 and sender.store.gardens.bin() == ()
    written = sender.client.get("/files/garden.toml").content.decode()
    again = services().read_garden_text(written)
    assert again.bags == tuple(services().read_sample_garden().bags)


@pytest.mark.parametrize("content", FILES.values(), ids=FILES.keys())
def test_a_faulty_file_is_told_and_never_kept(sample, content):
    before = sample.store.gardens.all()
    response = upload(sample, content)
    assert response.status_code == 422
    page = read(response)
    assert page.title.startswith("Error: ") and len(page.by_id("told").text) > 60
    assert sample.store.gardens.all() == before


def test_what_was_not_looked_at_cannot_be_confirmed(sample):
    before = sample.store.gardens.all()
    for token in ("", "nothing-of-this-name", "../x", "\x00", "a" * 5000):
        response = sample.send("/garden/import/confirm", {"token": token})
        assert (response.status_code, response["Location"]) == (303, "/garden/import")
    assert sample.store.gardens.all() == before


def test_the_garden_before_can_be_put_back(sample):
    sample.send("/settings", sample.filled("/settings", name="Before"))
    token = read(upload(sample, sample_garden_text().encode())).all("input", name="token")[0]
    sample.send("/garden/import/confirm", {"token": token.attributes["value"]})
    assert about(sample).about.name != "Before"
    sample.send("/settings/gardens/1/put-back", {})
    assert about(sample).about.name == "Before"


@pytest.mark.parametrize("address", ["/settings", "/garden/import"])
def test_the_page_is_whole(sample, address):
    page = read(sample.client.get(address))
    assert unlabelled(page) == [] and doubled_ids(page) == [] and inline(page) == []


@pytest.mark.parametrize(
    "address",
    [
        "/settings",
        "/settings/backup",
        "/settings/restore",
        "/garden/import",
        "/garden/import/confirm",
        "/settings/gardens/1/put-back",
    ],
)
def test_a_change_needs_a_token(sample, address):
    before = sample.store.gardens.all()
    assert sample.client.post(address, {"name": "x"}).status_code == 403
    assert sample.store.gardens.all() == before
