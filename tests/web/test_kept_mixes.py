"""Mixes of one's own garden: summed from its bags, kept under a name, set side by side."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from tests.web.asking import mix
from tests.web.reading_pages import doubled_ids, inline, read, unlabelled

TWO = mix(Blood_meal=2, Bone_meal=1)


def keep(browser, address: str, **typed: str):
    told = browser.filled(address, **typed)
    return browser.send("/mixes/keep", {name: text for name, text in told.items() if text})


def test_the_page_mixes_from_the_garden(sender):
    sender.send("/garden/start", {"with": "empty"})
    sender.send("/bags/new", sender.filled("/bags/new", name="Only", label="3-4-4"))
    page = sender.page("/mixes")
    assert [one.text for one in page.all("button", name="more")] == ["Only"]


def test_a_mix_is_kept_under_a_name_and_chalked_again(sample):
    response = keep(sample, TWO, name="Greens", purpose="leafy")
    assert response.status_code == 303
    (kept,) = sample.shelf.mixes.all()
    assert dict(kept.value.scoops) == {"Blood meal": 2, "Bone meal": 1}
    page = sample.page("/mixes")
    (link,) = [one for one in page.all("a") if one.text == "Greens"]
    assert "8.2-" in page.text  # 287.94 / 35.02 of N by hand, as in the sum itself
    again = sample.page(link.attributes["href"].partition("#")[0])
    assert "Greens is kept" not in again.text
    assert again.by_id("scoops-8").attributes["value"] == "2"


def test_a_double_tap_keeps_one(sample):
    told = sample.filled(TWO, name="Once")
    answers = [sample.send("/mixes/keep", told).status_code for _ in range(2)]
    assert answers == [303, 303] and len(sample.shelf.mixes.all()) == 1


@pytest.mark.parametrize(
    ("address", "name", "told"),
    [
        (TWO, "", "nothing is written"),
        (TWO, "x" * 61, "too long"),
        (TWO, "3\u202e4", "cannot be seen"),
        ("/mixes", "Nothing in it", "Give a bag a scoop first"),
        (mix(Blood_meal=0), "Nothing in it", "Give a bag a scoop first"),
    ],
)
def test_what_cannot_be_kept_is_told_at_the_name(sample, address, name, told):
    response = keep(sample, address, name=name)
    page = read(response)
    assert response.status_code == 422 and page.title.startswith("Error: ")
    assert told in page.by_id("id_name_error").text
    assert page.by_id("id_name").attributes.get("value", "") == name
    assert sample.shelf.mixes.all() == ()


@pytest.mark.parametrize("scoops", ["two", "-1", "201", "9" * 5000, "\x00"])
def test_scoops_that_cannot_be_are_told_in_their_row(sample, scoops):
    told = {**sample.filled(TWO, name="Bad"), "scoops of Blood meal": scoops}
    response = sample.send("/mixes/keep", told)
    assert response.status_code == 422
    assert read(response).by_id("scoops-8_error").text.strip()
    assert sample.shelf.mixes.all() == ()


def test_a_name_is_taken_once(sample):
    keep(sample, TWO, name="Same")
    response = keep(sample, TWO, name="same")
    assert response.status_code == 422
    assert "name" in read(response).by_id("id_name_error").text


def test_a_mix_whose_bag_is_gone_says_so(sample):
    keep(sample, TWO, name="Greens")
    key = next(one.key for one in sample.shelf.bags.all() if one.value.name == "Bone meal")
    sample.send(f"/bags/{key}/remove", {"version": "1"})
    assert "a bag of it is gone" in sample.page("/mixes").text


def test_what_is_removed_can_be_put_back(sample):
    keep(sample, TWO, name="Greens")
    sample.send("/mixes/1/remove", {})
    assert "Greens" in sample.page("/mixes").by_id("bin").text
    sample.send("/mixes/1/put-back", {})
    assert len(sample.shelf.mixes.all()) == 1


def test_queries_do_not_grow_with_mixes(sample):
    def queries() -> int:
        with CaptureQueriesContext(connection) as caught:
            sample.page("/mixes")
        return len(caught)

    keep(sample, TWO, name="First")
    sample.page("/mixes")
    before = queries()
    for number in range(5):
        keep(sample, TWO, name=f"Mix {number}")
    sample.page("/mixes")
    assert queries() == before <= 9


@pytest.mark.parametrize("address", [TWO])
def test_the_page_is_whole(sample, address):
    keep(sample, TWO, name="Greens")
    page = read(sample.client.get(address))
    assert unlabelled(page) == [] and doubled_ids(page) == [] and inline(page) == []
    (form,) = [one for one in page.all("form") if "hx-get" in one.attributes]
    ids = {one.attributes.get("id") for one in page.elements}
    live = {one[1:].partition(":")[0] for one in form.attributes["hx-select-oob"].split(",")}
    assert "keep-scoops" in live <= ids


@pytest.mark.parametrize("address", ["/mixes/keep", "/mixes/1/remove", "/mixes/1/put-back"])
def test_a_change_needs_a_token(sample, address):
    keep(sample, TWO, name="Greens")
    assert sample.client.post(address, {"name": "x"}).status_code == 403
    assert len(sample.shelf.mixes.all()) == 1
