"""What to do next as a page: dated, shortened by what was done, with what runs short."""

from datetime import date
from urllib.parse import parse_qs, urlsplit

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from halfpail.application.kept import JobState
from halfpail.web import run_jobs, season_job
from halfpail.web.season_text import DATES, SEASON
from halfpail.web.views import to_do
from tests.web.asking import Sender
from tests.web.reading_pages import Page, doubled_ids, inline, unlabelled

SPRING = date(2027, 4, 1)


@pytest.fixture(scope="module")
def plan() -> dict[str, str]:
    """The plan of the sample garden, worked out once for all tests of this page."""
    return {}


@pytest.fixture
def following(sample, plan, monkeypatch):
    """The sample garden with a plan of one mix that is followed, its dates worked out."""
    monkeypatch.setattr(run_jobs.Workshop, "start", lambda workshop, key: None)
    told = sample.filled("/season") | {"mixes": "1"}
    sample.send("/season/plan", told)
    work(sample, SEASON, plan)
    job = sample.store.jobs.latest(SEASON)
    assert job and job.state is JobState.DONE
    assert sample.send(f"/season/jobs/{job.key}/keep", {"name": "Season 2027"}).status_code == 303
    return sample


def work(sender: Sender, kind: str, known: dict[str, str]) -> None:
    """Do the newest job of a kind, or take what it found before for the same question."""
    job = sender.store.jobs.latest(kind)
    assert job
    if kind not in known:
        season_job.work(sender.store, job.key)
        done = sender.store.jobs.get(job.key)
        known[kind] = done.result
    else:
        sender.store.jobs.begin(job.key, 1)
        sender.store.jobs.end(job.key, 1, JobState.DONE, known[kind])


def dated(sender: Sender, plan: dict[str, str]) -> Page:
    sender.page("/next")
    work(sender, DATES, plan)
    return sender.page("/next")


def links(page: Page) -> list[str]:
    return [
        one.attributes["href"]
        for one in page.all("a")
        if one.attributes["href"].startswith("/diary/write/")
    ]


def test_without_a_plan_the_way_to_one_is_told(sample):
    page = sample.page("/next")
    assert "There is no plan yet" in page.text
    addresses = {one.attributes["href"] for one in page.all("a")}
    assert {"/bags", "/beds", "/season"} <= addresses


def test_what_is_to_do_is_dated(following, plan, monkeypatch):
    monkeypatch.setattr(to_do, "today", lambda: SPRING)
    waiting = following.page("/next")
    assert "The dates are being worked out" in waiting.text and "when it suits" in waiting.text
    assert waiting.by_id("todo").attributes["hx-get"] == "/next" and "refresh" in waiting.html
    page = dated(following, plan)
    assert "refresh" not in page.html and "hx-get" not in page.by_id("todo").attributes
    assert "when it suits" not in page.text and "2027" in page.text
    assert "Stir Mix 1" in page.text and "Feed Tomatoes by the fence" in page.text
    assert "To buy" in page.text and "Feather meal" in page.text


def test_what_holds_for_everything_is_said_once(following, plan):
    """Mixes and meals ask for a mask, and so does lime on some beds."""
    assert dated(following, plan).text.count("Wear a dust mask") == 1


def test_the_dates_are_worked_out_once(following, plan):
    dated(following, plan)
    first = following.store.jobs.latest(DATES)
    following.page("/next")
    assert following.store.jobs.latest(DATES) == first


def test_what_failed_can_be_tried_again(following):
    following.page("/next")
    job = following.store.jobs.latest(DATES)
    following.store.jobs.begin(job.key, 2**22 + 1)
    page = following.page("/next")
    assert "is gone; try again" in page.text
    assert following.send("/next/date-again", {}).status_code == 303
    assert following.store.jobs.get(job.key).state is JobState.WAITING


def test_what_is_written_down_is_off_the_list(following, plan):
    page = dated(following, plan)
    before = links(page)
    batch = next(one for one in before if "/batch" in one)
    feeding = next(one for one in before if "/feeding" in one and "Mix" in one)
    for address in (batch, feeding):
        path = urlsplit(address).path
        assert following.send(path, following.filled(address)).status_code == 303
    after = links(following.page("/next"))
    assert set(before) - set(after) == {batch, feeding}


def test_planting_lime_and_samples_stand_beside_the_feedings(following, plan, monkeypatch):
    monkeypatch.setattr(to_do, "today", lambda: SPRING)
    page = dated(following, plan)
    rows = [one.text for one in page.all("li")]
    for words in ("indoors: ", "Plant ", "Spread ", "Take soil samples"):
        assert any(words in row for row in rows), words
    assert "dust" in page.text  # what to mind with lime


def test_what_a_note_says_was_done_is_off_the_list_and_comes_back_when_undone(following, plan):
    before = links(dated(following, plan))
    spread = next(one for one in before if "note=Spread" in one)
    response = following.send("/diary/write/note", following.filled(spread))
    assert response.status_code == 303
    after = links(following.page("/next"))
    assert len(after) == len(before) - 1 and after.count(spread) == before.count(spread) - 1
    line = following.shelf.diary.all()[-1]
    following.send(f"/diary/{line.key}/undo", {})
    assert links(following.page("/next")) == before


def test_a_part_done_leaves_the_rest(following, plan):
    address = next(one for one in links(dated(following, plan)) if "/batch" in one)
    rounds = int(parse_qs(urlsplit(address).query)["rounds"][0])
    following.send("/diary/write/batch", following.filled(address, rounds=str(rounds - 1)))
    assert "1 round of" in following.page("/next").text


def test_what_is_late_says_so(following, plan, monkeypatch):
    monkeypatch.setattr(to_do, "today", lambda: date(2027, 9, 1))
    page = dated(following, plan)
    assert ", late" in page.text and "This week" in page.text


def test_what_runs_short_is_told(following, plan):
    dated(following, plan)
    assert "What runs short" not in following.page("/next").text
    bag = next(one for one in following.shelf.bags.all() if one.value.name == "Feather meal")
    told = following.filled("/diary/write/purchase", bag="Feather meal", bags="9")
    following.send("/diary/write/purchase", told)
    told = following.filled("/diary/write/feeding", of="Feather meal", scoops="2000")
    following.send("/diary/write/feeding", told)
    assert following.shelf.bags.get(bag.key).value.shed_kg == 0
    assert "Feather meal: " in following.page("/next").text.partition("What runs short")[2]


def test_without_frost_dates_there_are_none(following, monkeypatch):
    from dataclasses import replace

    kept = following.shelf.seasons.all()[0]
    bare = replace(kept.value, garden=replace(kept.value.garden, climate=None))
    following.shelf.seasons.change(kept.key, kept.version, bare)
    page = following.page("/next")
    assert "frost dates are not known" in page.text and "when it suits" in page.text
    assert following.store.jobs.latest(DATES) is None


def test_a_change_needs_a_token_and_is_never_made_by_an_address(following):
    assert following.client.post("/next/date-again").status_code == 403
    assert following.client.get("/next/date-again").status_code == 405


def test_the_page_is_whole(following, plan):
    page = dated(following, plan)
    assert unlabelled(page) == [] and doubled_ids(page) == [] and inline(page) == []


def test_queries_do_not_grow_with_the_diary(following, plan):
    def queries() -> int:
        following.page("/next")
        with CaptureQueriesContext(connection) as caught:
            following.page("/next")
        return len(caught)

    dated(following, plan)
    before = queries()
    for number in range(8):
        told = following.filled("/diary/write/note", note=f"note {number}")
        following.send("/diary/write/note", told)
    assert queries() == before <= 8
