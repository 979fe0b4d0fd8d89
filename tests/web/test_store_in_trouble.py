"""Trouble with the store as the pages tell it, made for real: a full disk, a lock, a lost file."""

from collections.abc import Iterator

import pytest
from django.db import connection

from tests.web.asking import mix
from tests.web.in_trouble import held_by_another
from tests.web.reading_pages import read

LONG = "3-4-4\n" + "\n".join(f"a line of no figures, number {line}" for line in range(80))


@pytest.fixture
def full_disk(sample) -> Iterator[None]:
    """SQLite may not take another page, as on a disk without room."""
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA page_count")
        pages = cursor.fetchone()[0]
        cursor.execute(f"PRAGMA max_page_count = {pages}")
        yield
        cursor.execute("PRAGMA max_page_count = 1000000")


@pytest.fixture
def locked(sample) -> Iterator[None]:
    """Another program writes and does not end."""
    with held_by_another():
        yield


def fill_up(sample) -> None:
    """Use up what is left of the last pages."""
    for number in range(100):
        told = sample.filled("/bags/new", name=f"Filler {number}", label=LONG)
        if sample.send("/bags/new", told).status_code != 303:
            return
    raise AssertionError("the disk was not full after all")


def test_on_a_full_disk_the_entry_stays_and_all_else_can_be_seen(sample, full_disk):
    fill_up(sample)
    kept = sample.shelf.bags.all()
    told = sample.filled("/bags/new", name="One more", label=LONG)
    response = sample.send("/bags/new", told)
    page = read(response)
    assert response.status_code == 503
    assert "The disk is full" in page.by_id("id_name_error").text
    assert page.by_id("id_name").attributes["value"] == "One more"
    assert sample.shelf.bags.all() == kept
    assert sample.page("/bags").text.count("Filler") == len(kept) - 14


def test_what_no_form_holds_is_told_on_a_page_of_its_own(sample, locked):
    response = sample.send("/bags/1/remove", {"version": "1"})
    assert response.status_code == 503
    assert "Wait a moment and try again" in response.content.decode()


def test_a_locked_store_keeps_the_entry_on_the_page(sample, locked):
    told = sample.filled("/beds/1", name="Renamed")
    response = sample.send("/beds/1", told)
    assert response.status_code == 503
    assert read(response).by_id("id_name").attributes["value"] == "Renamed"
    assert sample.shelf.beds.get(1).value.name != "Renamed"


@pytest.mark.parametrize(
    ("page", "address", "box", "typed"),
    [
        ("/bags/1", "/bags/1", "name", "Typed meanwhile"),
        ("/settings", "/settings", "name", "Typed meanwhile"),
        (mix(Blood_meal=2), "/mixes/keep", "name", "Typed meanwhile"),
        ("/season", "/season/plan", "budget", "77"),
        ("/diary/write/note", "/diary/write/note", "note", "Typed meanwhile"),
    ],
)
def test_no_form_loses_what_was_typed_while_the_store_is_locked(
    sample, locked, page, address, box, typed
):
    told = {**sample.filled(page), box: typed, "mixes": "1"}
    response = sample.send(address, told)
    answer = read(response)
    assert response.status_code == 503
    assert "Wait a moment and try again" in answer.text
    kept = answer.by_id(f"id_{box}")
    assert typed in (kept.attributes.get("value", ""), kept.text.strip())


def test_what_was_understood_is_told_though_no_draft_can_be_kept(sample, locked):
    told = sample.filled("/bags/new", name="Looked at", label="5-5-5")
    response = sample.send("/bags/new", {**told, "look": "1"})
    assert response.status_code == 200
    assert read(response).by_id("id_name").attributes["value"] == "Looked at"


@pytest.mark.parametrize("address", ["/bags/99", "/beds/99", "/bags/99999999999999999999"])
def test_what_is_not_there_is_told(sample, address):
    assert sample.client.get(address).status_code == 404


def test_what_was_removed_in_another_window_is_told(sample):
    told = sample.filled("/bags/1", price="5")
    sample.send("/bags/1/remove", {"version": "1"})
    response = sample.send("/bags/1", told)
    assert response.status_code == 404
    assert "removed lies in the bin" in response.content.decode()


def test_a_garden_that_can_only_be_looked_at_says_so(sample):
    assert "can only be looked at" not in sample.page("/bags").text
    sample.store.read_only = True
    assert "can only be looked at" in sample.page("/bags").text
