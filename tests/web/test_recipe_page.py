"""Finding a recipe on a page: three named choices, other bags, or what is in the way."""

from threading import Event

import pytest

from halfpail.web import long_recipes
from halfpail.web.views import recipe
from tests.web.asking import BLOOD, STARTER, first
from tests.web.reading_pages import read

PURPOSES = ["all_purpose", "leafy", "fruiting", "roots_bulbs", "no_phosphorus"]


@pytest.mark.parametrize("purpose", PURPOSES)
def test_each_purpose_is_answered_with_its_proof(client, purpose):
    response = client.get(f"/mixes/recipe?purpose={purpose}")
    text = read(response).text
    assert response.status_code == 200
    assert "Proven: every recipe was tried" in text


def test_three_choices_have_names_and_can_be_chalked(client):
    page = read(client.get("/mixes/recipe?purpose=fruiting"))
    names = [one.text for one in page.all("span", **{"class": "kind"})]
    assert names == ["cheapest", "between", "closest"]
    links = [a.attributes["href"] for a in page.all("a") if a.text == "Chalk it"]
    chalked = read(client.get(links[0]))
    assert "sum-foot" in {one.attributes.get("id") for one in chalked.elements}
    assert "4-3.4-2.8 by weight" in chalked.text and "4-3.4-2.8" in page.text


def test_a_wished_grade_stands_below_the_sum(client):
    page = read(client.get("/mixes/recipe?grade=4-3-4"))
    links = [a.attributes["href"] for a in page.all("a") if a.text == "Chalk it"]
    assert "wish=4-3-4" in links[0]


def test_no_recipe_says_what_is_in_the_way_and_what_would_help(client):
    text = read(client.get("/mixes/recipe?grade=20-20-20")).text
    assert "No mix of these bags does it" in text
    assert "The nearest to the wish is" in text


def test_no_recipe_can_be_the_fault_of_a_bag_without_a_price(client):
    address = "/mixes/recipe" + first({"grade": "3-4-4"})[1:] + "&purpose=leafy"
    response = client.get(address)
    assert response.status_code == 422
    assert "No bag is left to mix from" in read(response).text


def test_typed_bags_are_mixed(client):
    page = read(client.get("/mixes/recipe" + first(STARTER, BLOOD)[1:] + "&grade=6-2-2&within=2"))
    assert "blood meal" in page.by_id("answer").text


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ("purpose=", "Give one wish"),
        ("grade=4-4-4&ratio=3-1-2", "Give one wish"),
        ("purpose=lawn", "lawn is not one of the available choices"),
        ("grade=four", "This is no grade"),
        ("ratio=3-1", "A ratio is three parts"),
        ("ratio=0-1-1", "A ratio is to nitrogen"),
        ("ratio=3-1-x", "not a number"),
        ("ratio=%D9%A3-1-2", "not one of the digits"),
        ("purpose=leafy&scoops=0", "from 1 to 60"),
        ("purpose=leafy&scoops=61", "from 1 to 60"),
        ("purpose=leafy&bags=2.5", "whole number"),
        ("grade=4-4-4&within=-1", "below nought"),
    ],
)
def test_a_wish_that_cannot_be_read_is_refused(client, asked, told):
    response = client.get(f"/mixes/recipe?{asked}")
    assert response.status_code == 422
    assert told in read(response).text


@pytest.fixture
def many_bags(monkeypatch):
    """The sample's bags, as if they were too many to try while the page waits."""
    searches = long_recipes.LongRecipes()
    monkeypatch.setattr(recipe, "long_recipes", searches)
    monkeypatch.setattr(long_recipes, "AT_ONCE", 1000)
    yield searches
    searches.workers.shutdown()


def test_a_long_search_is_waited_for_on_the_page_and_then_told(client, many_bags):
    address = "/mixes/recipe?purpose=fruiting"
    held = Event()
    many_bags.workers.submit(held.wait)
    waiting = read(client.get(address))
    answer = waiting.by_id("answer")
    assert "recipes are being tried" in answer.text
    assert answer.attributes["hx-get"] == address
    held.set()
    many_bags.begun[-1][1].result(timeout=60)
    told = read(client.get(address))
    assert "Proven: every recipe was tried" in told.text
    assert "hx-get" not in told.by_id("answer").attributes


def test_a_wish_is_searched_for_once_and_old_ones_are_dropped(client, many_bags):
    held = Event()
    many_bags.workers.submit(held.wait)
    for number in range(long_recipes.MOST_KEPT + 3):
        client.get(f"/mixes/recipe?grade=4.{number}-3-3")
    first = many_bags.begun[0][1]
    client.get("/mixes/recipe?grade=4.3-3-3")
    assert len(many_bags.begun) == long_recipes.MOST_KEPT
    assert many_bags.begun[-1][1] is first
    client.get("/mixes/recipe?grade=5-3-3")
    client.get("/mixes/recipe?grade=6-3-3")
    assert sum(not one.cancelled() for _, one in many_bags.begun) == long_recipes.MOST_KEPT
    for _, one in many_bags.begun:
        one.cancel()
    held.set()


def test_a_long_search_that_finds_nothing_says_why(client, many_bags):
    address = "/mixes/recipe?grade=20-20-20"
    assert "being tried" in read(client.get(address)).text
    many_bags.begun[-1][1].result(timeout=60)
    assert "No mix of these bags does it" in read(client.get(address)).text
