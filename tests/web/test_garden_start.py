"""The first visit: a sample in one click and out again, an empty garden, a first answer kept."""

import pytest

from tests.web.asking import BLOOD, STARTER, first
from tests.web.reading_pages import read


def hidden(page) -> dict[str, str]:
    kept = [one for one in page.all("form") if one.attributes.get("class") == "keep"]
    assert kept
    at = page.elements.index(kept[0])
    boxes = [one for one in page.elements[at:] if one.attributes.get("type") == "hidden"]
    told = {box.attributes["name"]: box.attributes["value"] for box in boxes}
    return {name: value for name, value in told.items() if name[0].isdigit() or name == "ground"}


def test_the_first_page_offers_both_and_then_no_more(sender):
    assert "Start with an empty garden" in sender.page("/").text
    sender.send("/garden/start", {"with": "empty"})
    assert "Start with an empty garden" not in sender.page("/").text


def test_without_a_store_nothing_is_offered(client):
    assert "Start with an empty garden" not in read(client.get("/")).text


def test_the_sample_is_marked_on_every_page_and_goes_in_one_click(sample):
    for address in ("/", "/bags", "/bags/1", "/beds", "/beds/1", "/mixes", "/settings"):
        assert "everything in it is invented" in sample.page(address).text
    assert sample.send("/garden/remove-sample", {}).status_code == 303
    assert sample.store.gardens.all() == ()
    assert "invented." not in sample.page("/garden").text.split("Look around")[0]


def test_a_garden_of_ones_own_is_never_removed_as_a_sample(sender):
    sender.send("/garden/start", {"with": "empty"})
    sender.send("/garden/remove-sample", {})
    assert len(sender.store.gardens.all()) == 1


@pytest.mark.parametrize("choice", ["sample", "empty", "", "x" * 5000])
def test_a_double_tap_starts_one_garden(sender, choice):
    sender.send("/garden/start", {"with": "empty"})
    sender.send("/garden/start", {"with": choice})
    assert len(sender.store.gardens.all()) == 1


def test_a_first_answer_becomes_the_start_of_a_garden(sender):
    page = sender.page(first(STARTER, BLOOD))
    for _ in range(2):  # a double tap
        assert sender.send("/keep", hidden(page)).status_code == 303
    bags = [kept.value for kept in sender.shelf.bags.all()]
    assert [(bag.name, bag.price) for bag in bags] == [("3-4-4", 12), ("blood meal", 9)]
    (bed,) = sender.shelf.beds.all()
    assert bed.value.name == "Ground to feed"
    (mix,) = sender.shelf.mixes.all()
    assert dict(mix.value.scoops) == {"3-4-4": 2, "blood meal": 1}
    assert "400 sq ft" in sender.page("/beds").text


def test_a_first_answer_takes_the_place_of_the_sample(sample):
    sample.send("/keep", hidden(sample.page(first(STARTER))))
    assert len(sample.store.gardens.all()) == 1
    assert not sample.store.gardens.all()[0].value.is_sample


def test_what_cannot_be_answered_is_not_kept(sender):
    response = sender.send("/keep", {"1-grade": "99-99-99", "ground": "400"})
    assert response.status_code == 303 and "99-99-99" in response["Location"]
    assert sender.store.gardens.all() == ()


def test_nothing_of_a_first_answer_is_kept_beside_ones_own_garden(sender):
    sender.send("/garden/start", {"with": "empty"})
    assert "Keep this as the start" not in sender.page(first(STARTER)).text
    sender.send("/keep", {"1-grade": "3-4-4", "ground": "400"})
    assert sender.shelf.bags.all() == ()


@pytest.mark.parametrize("address", ["/garden/start", "/keep", "/garden/remove-sample"])
def test_a_change_needs_a_token(sender, address):
    assert sender.client.post(address, {"with": "empty"}).status_code == 403
    assert sender.store.gardens.all() == ()
