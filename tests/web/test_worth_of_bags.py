"""The bags in the order of their worth: weighed by a process of its own, kept, said when old."""

import time
from fractions import Fraction

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from halfpail.application.garden_entry import BedEntry
from halfpail.application.kept import Job, JobState
from halfpail.web import run_jobs, season_job
from halfpail.web.season_text import read_text
from halfpail.web.weigh_bags import WEIGHING, WeighingFound
from tests.web.asking import Sender
from tests.web.reading_pages import doubled_ids, inline, unlabelled

OLD = "This is old"


@pytest.fixture
def small(empty, monkeypatch):
    """Two bags and a bed: soon weighed, here and not by a process."""
    monkeypatch.setattr(run_jobs.Workshop, "start", lambda workshop, key: None)
    for name, label, price in (("Meal", "4-3-2", "9"), ("Blood", "12-0-0", "14")):
        told = empty.filled("/bags/new", name=name, label=label, weight="20 lb", price=price)
        assert empty.send("/bags/new", told).status_code == 303
    empty.shelf.beds.add(BedEntry(name="East", place="", area_m2=Fraction(9), crop="tomato"))
    return empty


def ask(sender: Sender):
    return sender.send("/bags/weigh", {"token": sender.filled("/bags?by=worth")["token"]})


def newest(sender: Sender) -> Job:
    job = sender.store.jobs.latest(WEIGHING)
    assert job
    return job


def weighed(sender: Sender) -> Job:
    assert ask(sender)["Location"] == "/bags?by=worth"
    season_job.work(sender.store, newest(sender).key)
    return newest(sender)


def test_before_anything_is_weighed_the_page_says_what_weighing_does(small):
    page = small.page("/bags?by=worth")
    assert "highest price worth paying" in page.text and "Weigh the bags" in page.text
    assert small.store.jobs.latest(WEIGHING) is None  # nothing long begins by being looked at


def test_the_most_worth_comes_first_as_the_weighing_found(small):
    job = weighed(small)
    assert job.state is JobState.DONE, job.result
    found = read_text(WeighingFound, job.result).worth
    assert found
    page = small.page("/bags?by=worth")
    names = [head.text for head in page.all("th", scope="row")]
    cells = [cell.text for cell in page.all("td")]
    assert names == [one.bag for one in found.bags]
    best = found.bags[0]
    assert f"${float(best.worth.high_money):.2f}" in cells[3]
    assert ("buy" in cells[5]) == bool(best.buy)
    assert OLD not in page.text and "Weigh the bags again" in page.text
    assert not unlabelled(page) and not doubled_ids(page) and not inline(page)


@pytest.mark.parametrize("what", ["bag", "bed", "settings"])
def test_what_was_found_stays_and_is_called_old_when_something_changes(small, what):
    weighed(small)
    if what == "bag":
        kept = small.shelf.bags.all()[0]
        told = small.filled(f"/bags/{kept.key}", price="10")
        assert small.send(f"/bags/{kept.key}", told).status_code == 303
    elif what == "bed":
        kept = small.shelf.beds.all()[0]
        small.shelf.beds.remove(kept.key, kept.version)
    else:
        assert (
            small.send("/settings", small.filled("/settings", shed="not free")).status_code == 303
        )
    page = small.page("/bags?by=worth")
    assert OLD in page.text and "highest price worth paying" in page.text
    assert "$" in page.text


def test_while_it_is_weighed_anew_the_last_worth_stays(small):
    weighed(small)
    small.send("/bags/new", small.filled("/bags/new", name="Bone", label="3-15-0"))
    ask(small)
    small.store.jobs.begin(newest(small).key, 1)
    page = small.page("/bags?by=worth")
    assert page.by_id("listing").attributes["hx-get"] == "/bags?by=worth"
    assert 'http-equiv="refresh"' in page.html
    assert "being weighed" in page.text and OLD in page.text and "not weighed" in page.text


def test_a_double_tap_begins_one_weighing(small):
    token = small.filled("/bags?by=worth")["token"]
    small.send("/bags/weigh", {"token": token})
    first = newest(small)
    season_job.work(small.store, first.key)
    small.send("/bags/weigh", {"token": token})
    assert newest(small).key == first.key


def test_a_stopped_weighing_tells_no_half_of_it(small, monkeypatch):
    def stopping(garden, engine, on_bag, each):
        while True:
            time.sleep(0.02)
            on_bag("Meal")

    monkeypatch.setattr("halfpail.web.weigh_bags.weigh_worth", stopping)
    monkeypatch.setattr(season_job, "BEAT_SECONDS", 0.05)
    ask(small)
    key = newest(small).key
    jobs = type(small.store.jobs)
    begin = jobs.begin

    def begun_and_asked_to_stop(own, job: int, pid: int) -> Job | None:
        begun: Job | None = begin(own, job, pid)
        own.ask_to_stop(job)
        return begun

    monkeypatch.setattr(jobs, "begin", begun_and_asked_to_stop)
    season_job.work(small.store, key)
    assert (newest(small).state, newest(small).result) == (JobState.STOPPED, "")
    page = small.page("/bags?by=worth")
    assert "The weighing was stopped." in page.text and "not weighed" not in page.text


def test_it_can_be_stopped_from_the_page(small):
    ask(small)
    assert small.send(f"/bags/weigh/{newest(small).key}/stop", {}).status_code == 303
    assert newest(small).state is JobState.STOPPED
    assert small.send("/bags/weigh/99/stop", {}).status_code == 404


def test_a_garden_without_beds_says_why_bags_cannot_be_weighed(empty):
    empty.send("/bags/new", empty.filled("/bags/new", name="Bone", label="3-15-0"))
    assert ask(empty).status_code == 303
    assert "one bed with its crop" in empty.page("/bags?by=worth").text
    assert empty.store.jobs.latest(WEIGHING) is None


def test_queries_do_not_grow_with_bags_or_beds(small):
    weighed(small)
    small.page("/bags?by=worth")
    with CaptureQueriesContext(connection) as few:
        small.page("/bags?by=worth")
    for number in range(8):
        small.send("/bags/new", small.filled("/bags/new", name=f"Bag {number}", label="3-1-0"))
        bed = BedEntry(name=f"Bed {number}", place="", area_m2=Fraction(9), crop="tomato")
        small.shelf.beds.add(bed)
    with CaptureQueriesContext(connection) as many:
        small.page("/bags?by=worth")
    assert len(many) == len(few)
