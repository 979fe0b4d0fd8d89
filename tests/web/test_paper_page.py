"""Paper from the pages: each document a PDF, as asked, found again, with a code that leads back."""

from dataclasses import replace
from datetime import UTC, datetime
from fractions import Fraction
from typing import Any
from urllib.parse import urlencode

import pypdfium2
import pytest
import zxingcpp
from django.conf import settings
from django.test import override_settings
from icalendar import Calendar

from halfpail.application import weigh_for_shop
from halfpail.application.garden_entry import BedEntry
from halfpail.application.kept import JobState
from halfpail.application.make_shop_card import ShopCard
from halfpail.application.page import Paper
from halfpail.application.weigh_for_shop import ForTheShop
from halfpail.documents import limited_press
from halfpail.web import season_job
from halfpail.web.season_text import DATES
from halfpail.web.shop_work import SHOP
from halfpail.web.views import paper
from halfpail.web.weigh_bags import WEIGHING
from halfpail.wiring import services
from tests.documents.papers import shop_card, squeezed, text_of
from tests.documents.test_press import POINTS
from tests.web.asking import Sender, mix
from tests.web.reading_pages import doubled_ids, inline, read, unlabelled
from tests.web.test_season_page import kept, no_process

__all__ = ["no_process"]

TWO = mix(Blood_meal=2, Bone_meal=1)
OF_A_MIX = ("mixing-card", "pail-labels", "handout", "exercise")
OF_A_PLAN = (
    "feeding-sheet",
    "season-list",
    "buying-list",
    "handout-plan",
    "mixing-card-1",
    "pail-labels-1",
)
FROST = {"climate-last_frost": "2027-05-10", "climate-first_frost": "2027-10-01"}


@pytest.fixture
def greens(sample: Sender) -> Sender:
    """The sample garden with one mix kept."""
    told = {name: text for name, text in sample.filled(TWO, name="Greens").items() if text}
    assert sample.send("/mixes/keep", told).status_code == 303
    return sample


@pytest.fixture
def planned(empty: Sender, no_process: None) -> tuple[Sender, int]:
    """A garden with frost dates, and a kept plan of one mix whose dates are to be worked out."""
    for name, label in (("Blood", "12-0-0"), ("Potash", "0-0-50")):
        told = empty.filled("/bags/new", name=name, label=label, weight="20 lb", price="2")
        assert empty.send("/bags/new", told).status_code == 303
    for name in ("East", "West"):
        bed = BedEntry(name=name, place="", area_m2=Fraction(40), crop="tomato", straight_ok=False)
        empty.shelf.beds.add(bed)
    assert empty.send("/settings", empty.filled("/settings", **FROST)).status_code == 303
    key = kept(empty, "Season 2027")
    empty.page(f"/paper/plans/{key}")
    return empty, key


def dated(sender: Sender, key: int) -> None:
    job = sender.store.jobs.latest(DATES)
    assert job
    season_job.work(sender.store, job.key)


def pdf_at(sender: Sender, address: str) -> bytes:
    response = sender.client.get(address)
    assert response.status_code == 200, response.content.decode()
    assert response["Content-Type"] == "application/pdf"
    assert response["X-Content-Type-Options"] == "nosniff"
    assert response["Content-Disposition"].startswith("inline; filename=")
    assert "default-src 'self'" in response["Content-Security-Policy"]
    return bytes(response.content)


def code_on(pdf: bytes) -> str:
    picture = pypdfium2.PdfDocument(pdf)[0].render(scale=3).to_numpy()
    (found,) = zxingcpp.read_barcodes(picture)
    return found.text


def test_paper_lists_what_can_be_printed(greens):
    page = greens.page("/paper")
    (link,) = [one for one in page.all("a") if one.text == "Greens"]
    page = greens.page(link.attributes["href"])
    assert {one.attributes.get("formaction") for one in page.all("button")} >= {
        f"/paper/mixes/1/{name}.pdf" for name in OF_A_MIX
    }
    assert unlabelled(page) == [] and doubled_ids(page) == [] and inline(page) == []


def test_without_anything_kept_the_way_there_is_told(empty):
    page = empty.page("/paper")
    assert {"/season", "/mixes"} <= {one.attributes["href"] for one in page.all("a")}


@pytest.mark.parametrize("name", OF_A_MIX)
def test_every_document_of_a_mix_is_printed(greens, name):
    pdf = pdf_at(greens, f"/paper/mixes/1/{name}.pdf")
    assert "Greens" in text_of(pdf)
    assert pdf == pdf_at(greens, f"/paper/mixes/1/{name}.pdf")


def test_sheet_prices_rounds_and_label_are_as_asked(greens):
    asked = {"paper": "A4", "size": "A7", "rounds": "3", "made": "2027-04-01"}
    asked["directions"] = "1 cup per 10 sq ft"
    card = pdf_at(greens, f"/paper/mixes/1/mixing-card.pdf?{urlencode(asked)}")
    size = pypdfium2.PdfDocument(card)[0].get_size()
    assert size == pytest.approx(POINTS[Paper.A4], abs=0.1)
    assert "3 rounds" in text_of(card) and "Price" not in text_of(card)
    assert "Price" in text_of(pdf_at(greens, "/paper/mixes/1/mixing-card.pdf"))
    label = squeezed(text_of(pdf_at(greens, f"/paper/mixes/1/pail-labels.pdf?{urlencode(asked)}")))
    assert "1cupper10sqft" in label
    assert "1April2027" in label and "Forownuse,notforsale." in label


def test_a_gift_is_labelled_once_all_of_it_is_told(greens):
    asked = {"paper": "Letter", "size": "4 x 3 in", "maker": "A club", "address": "1 Hill Road"}
    address = f"/paper/mixes/1/pail-labels.pdf?{urlencode(asked)}"
    response = greens.client.get(address)
    page = read(response)
    assert response.status_code == 422 and page.title.startswith("Error: ")
    assert "also tells the net weight" in page.by_id("id_net_weight_error").text
    assert page.by_id("id_maker").attributes["value"] == "A club"
    label = squeezed(text_of(pdf_at(greens, f"{address}&net_weight=10+lb")))
    assert "Netweight10lb" in label and "Madeby:Aclub,1HillRoad" in label
    assert "notforsale" not in label


@pytest.mark.parametrize(
    ("field", "typed"),
    [("paper", "A0"), ("size", "x"), ("rounds", "0"), ("made", "05/06/2027"), ("maker", "\u202e")],
)
def test_what_cannot_be_is_told_beside_its_field(greens, field, typed):
    asked = {"paper": "A4", "size": "A7", field: typed}
    response = greens.client.get(f"/paper/mixes/1/pail-labels.pdf?{urlencode(asked)}")
    assert response.status_code == 422
    assert read(response).by_id(f"id_{field}_error").text.strip()


@pytest.mark.parametrize("address", ["1/poster.pdf", "1/shop-card.pdf", "9/mixing-card.pdf"])
def test_what_is_not_there_is_not_found(greens, address):
    assert greens.client.get(f"/paper/mixes/{address}").status_code == 404


def test_a_document_that_asks_for_too_much_is_told(greens, monkeypatch):
    monkeypatch.setattr(limited_press, "MOST_SECONDS", 0.001)
    response = greens.client.get("/paper/mixes/1/handout.pdf")
    assert response.status_code == 422
    assert "too much of this machine" in read(response).by_id("told").text


def test_the_code_on_a_card_opens_its_mix(greens):
    """In letters of which a code needs few squares: a card's code has at most 29 to a side."""
    pdf = pdf_at(greens, "/paper/mixes/1/mixing-card.pdf")
    address = code_on(pdf)
    assert address == "HTTP://127.0.0.1/M/1"
    assert "Opens this mix in Halfpail, on the machine where it runs" in " ".join(
        text_of(pdf).split()
    )
    response = greens.client.get(address.partition("127.0.0.1")[2])
    assert response.status_code == 302
    page = greens.page(response["Location"].partition("#")[0])
    assert page.by_id("scoops-8").attributes["value"] == "2"


def test_the_code_has_the_address_a_phone_of_the_home_network_reaches(greens):
    with override_settings(ALLOWED_HOSTS=[*settings.ALLOWED_HOSTS, "192.168.1.20"]):
        pdf = pdf_at(greens, "/paper/mixes/1/mixing-card.pdf")
    assert code_on(pdf) == "HTTP://192.168.1.20:80/M/1"
    assert "on a phone that was let in" in " ".join(text_of(pdf).split())


def test_a_mix_whose_bag_is_gone_is_not_offered(greens):
    key = next(one.key for one in greens.shelf.bags.all() if one.value.name == "Bone meal")
    greens.send(f"/bags/{key}/remove", {"version": "1"})
    greens.page("/bags")
    assert "Greens" not in greens.page("/paper").by_id("main").text
    assert greens.client.get("/paper/mixes/1").status_code == 404


def test_while_dates_are_found_the_page_says_so(planned):
    sender, key = planned
    response = sender.client.get(f"/paper/plans/{key}/feeding-sheet.pdf")
    assert "being worked out" in read(response).by_id("standing").text
    assert sender.client.get(f"/paper/plans/{key}/season.ics").status_code == 303
    dated(sender, key)
    assert "hx-get" not in sender.page(f"/paper/plans/{key}").by_id("standing").attributes
    assert "2027" in text_of(pdf_at(sender, f"/paper/plans/{key}/feeding-sheet.pdf"))


def test_every_document_of_a_plan_is_printed(planned):
    sender, key = planned
    dated(sender, key)
    page = sender.page(f"/paper/plans/{key}")
    assert unlabelled(page) == [] and doubled_ids(page) == [] and inline(page) == []
    offered = {one.attributes.get("formaction") for one in page.all("button")}
    for name in OF_A_PLAN:
        address = f"/paper/plans/{key}/{name}.pdf"
        assert address in offered
        pdf_at(sender, address)
    code = code_on(pdf_at(sender, f"/paper/plans/{key}/mixing-card-1.pdf"))
    response = sender.client.get(code.partition("127.0.0.1")[2])
    address, _, place = response["Location"].partition("#")
    assert sender.page(address).by_id(place).text.startswith("Mix 1")


def test_the_calendar_of_a_plan(planned):
    sender, key = planned
    dated(sender, key)
    response = sender.client.get(f"/paper/plans/{key}/season.ics")
    assert response["Content-Type"].startswith("text/calendar")
    text = response.content.decode()
    assert "SUMMARY:Plant tomatoes: East" in text.replace("\\,", ",")
    assert "SUMMARY:Take soil samples: 2 beds" in text


def events(sender: Sender, key: int) -> dict[str, Any]:
    """The events of a plan's calendar by their names, read by a library of others."""
    response = sender.client.get(f"/paper/plans/{key}/season.ics")
    assert response.status_code == 200
    found = Calendar.from_ical(response.content).walk("VEVENT")
    return {str(event["UID"]): event for event in found}


def numbers(events: dict[str, Any]) -> set[int]:
    return {int(event["SEQUENCE"]) for event in events.values()}


def test_a_changed_task_comes_with_a_higher_number(planned):
    """RFC 5545, 3.8.7.4: of two events of a name a calendar believes the higher number."""
    sender, first = planned
    dated(sender, first)
    before = events(sender, first)
    assert numbers(events(sender, first)) == numbers(before), "nothing changed meanwhile"
    beds = sender.shelf.beds.all()
    other = replace(beds[0].value, area_m2=2 * beds[0].value.area_m2)
    sender.shelf.beds.change(beds[0].key, beds[0].version, other)
    second = kept(sender, "Second thoughts")
    sender.page(f"/paper/plans/{second}")
    dated(sender, second)
    after = events(sender, second)
    changed = [
        name
        for name in before.keys() & after.keys()
        if before[name]["DESCRIPTION"] != after[name]["DESCRIPTION"]
    ]
    assert changed
    assert min(numbers(after)) > max(numbers(before))
    sender.send(f"/season/{first}/follow", {})
    back = events(sender, first)
    assert min(numbers(back)) > max(numbers(after)), "also on the way back to the first plan"


def test_of_two_plans_fetched_one_after_the_other_the_later_counts(planned, monkeypatch):
    """RFC 5546, 2.1.5: where the numbers are the same, the later moment counts."""
    sender, key = planned
    dated(sender, key)
    early, late = (datetime(2027, 4, 1, hour, tzinfo=UTC) for hour in (8, 9))
    monkeypatch.setattr(paper, "now", lambda: early)
    before = events(sender, key)
    monkeypatch.setattr(paper, "now", lambda: late)
    after = events(sender, key)
    assert {event["DTSTAMP"].dt for event in before.values()} == {early}
    assert {event["DTSTAMP"].dt for event in after.values()} == {late}


def test_weighing_is_a_job_that_is_found_again(planned, monkeypatch):
    sender, key = planned
    dated(sender, key)
    assert sender.client.get(f"/paper/plans/{key}/shop-card.pdf").status_code == 404
    assert sender.send(f"/paper/plans/{key}/weigh", {}).status_code == 303
    page = sender.page(f"/paper/plans/{key}")
    assert "hx-get" in page.by_id("standing").attributes and "http-equiv" in page.html
    # 31 cents a kilogram for a per cent of N: 14.1 a pound.
    monkeypatch.setattr(weigh_for_shop, "make_shop_card", lambda *_, **__: shop_card())
    job = sender.store.jobs.latest(SHOP)
    assert job
    season_job.work(sender.store, job.key)
    page = sender.page(f"/paper/plans/{key}")
    assert "hx-get" not in page.by_id("standing").attributes
    assert "Shop card" in page.by_id("standing").text
    assert "14.1" in text_of(pdf_at(sender, f"/paper/plans/{key}/shop-card.pdf"))
    buying = " ".join(text_of(pdf_at(sender, f"/paper/plans/{key}/buying-list.pdf")).split())
    assert "highest price worth paying" in buying


def test_what_the_page_of_bags_weighed_is_on_the_buying_list(planned):
    sender, key = planned
    dated(sender, key)
    address = f"/paper/plans/{key}/buying-list.pdf"
    assert "was not weighed" in " ".join(text_of(pdf_at(sender, address)).split())
    sender.send("/bags/weigh", sender.filled("/bags?by=worth"))
    job = sender.store.jobs.latest(WEIGHING)
    assert job
    season_job.work(sender.store, job.key)
    assert "as weighed on the page of bags" in sender.page(f"/paper/plans/{key}").text
    assert "highest price" in " ".join(text_of(pdf_at(sender, address)).split())
    told = sender.filled("/bags/1", price="3")
    assert sender.send("/bags/1", told).status_code == 303
    assert "was not weighed" in " ".join(text_of(pdf_at(sender, address)).split())


def test_weighing_can_be_stopped_and_begun_again(planned):
    sender, key = planned
    sender.send(f"/paper/plans/{key}/weigh", {})
    sender.send(f"/paper/plans/{key}/stop-weighing", {})
    job = sender.store.jobs.latest(SHOP)
    assert job and job.state is JobState.STOPPED
    assert "was stopped" in sender.page(f"/paper/plans/{key}").by_id("standing").text
    sender.send(f"/paper/plans/{key}/weigh", {})
    again = sender.store.jobs.latest(SHOP)
    assert again and (again.key, again.state) == (job.key, JobState.WAITING)


def test_what_was_weighed_comes_back_the_same_from_the_store():
    found = ForTheShop(card=shop_card())
    text = services().to_text(found)
    again = services().from_text(ForTheShop, text)
    assert isinstance(again.card, ShopCard)
    assert again.card.prices.per_point == shop_card().prices.per_point


@pytest.mark.parametrize("address", ["weigh", "stop-weighing"])
def test_a_change_needs_a_token(planned, address):
    sender, key = planned
    assert sender.client.post(f"/paper/plans/{key}/{address}", {}).status_code == 403
    assert sender.store.jobs.latest(SHOP) is None
