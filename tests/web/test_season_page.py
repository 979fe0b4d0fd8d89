"""The season as a page: a plan asked for, watched, stopped, kept, compared; a process killed."""

import os
import signal
import time
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from halfpail.application.garden_entry import BedEntry
from halfpail.application.kept import Job, JobState
from halfpail.application.plan_as_asked import plan_as_asked
from halfpail.application.plan_season import GOOD_ENOUGH
from halfpail.web import run_jobs, season_job
from halfpail.web.clock import today
from halfpail.web.season_text import SEASON, SeasonAsked, SeasonFound, read_text
from halfpail.wiring import services
from tests.web.asking import Sender
from tests.web.in_trouble import held_by_another
from tests.web.reading_pages import Page, doubled_ids, inline, read, unlabelled

PATIENCE = 600


@pytest.fixture
def small(sender):
    """Two bags and two beds: soon planned."""
    sender.send("/garden/start", {"with": "empty"})
    for name, label, price in (("Meal", "4-3-2", "9"), ("Blood", "12-0-0", "14")):
        told = sender.filled("/bags/new", name=name, label=label, weight="20 lb", price=price)
        assert sender.send("/bags/new", told).status_code == 303
    add_bed(sender, "East")
    add_bed(sender, "West")
    return sender


@pytest.fixture
def no_process(monkeypatch):
    """Jobs wait: what begins them is left aside, so that a test does their work itself."""
    monkeypatch.setattr(run_jobs.Workshop, "start", lambda workshop, key: None)


def add_bed(sender: Sender, name: str) -> None:
    sender.shelf.beds.add(BedEntry(name=name, place="", area_m2=Fraction(9), crop="tomato"))


def planned_with_others(sender: Sender) -> SeasonFound:
    """A plan, and others that come near it, for there is another bag that comes near."""
    told = sender.filled("/bags/new", name="Feather", label="11-0-0", weight="20 lb", price="14")
    assert sender.send("/bags/new", told).status_code == 303
    ask(sender, others="on")
    season_job.work(sender.store, newest(sender).key)
    return read_text(SeasonFound, newest(sender).result)


def ask(sender: Sender, mixes: str = "1", **more: str) -> Any:
    told = sender.filled("/season", **more) | {"mixes": mixes}
    return sender.send("/season/plan", told)


def newest(sender: Sender) -> Job:
    job = sender.store.jobs.latest(SEASON)
    assert job
    return job


def asked(sender: Sender) -> SeasonAsked:
    return read_text(SeasonAsked, newest(sender).question)


def planned(sender: Sender, mixes: str = "1") -> Job:
    """A plan worked out here and now."""
    ask(sender, mixes)
    season_job.work(sender.store, newest(sender).key)
    return newest(sender)


def kept(sender: Sender, name: str, mixes: str = "1") -> int:
    job = planned(sender, mixes)
    response = sender.send(f"/season/jobs/{job.key}/keep", {"name": name})
    assert response.status_code == 303
    return int(response["Location"].rsplit("/", 1)[1])


def wait_for(sender: Sender, *states: JobState) -> tuple[Page, Job]:
    """Poll the page as a browser would, until the newest plan stands so."""
    begun = time.monotonic()
    while time.monotonic() - begun < PATIENCE:
        page = sender.page("/season")
        job = newest(sender)
        if job.state in states:
            return page, job
        time.sleep(0.2)
    raise AssertionError(f"it is still {job.state}")


def test_a_plan_is_worked_out_by_a_process_of_its_own(small):
    response = ask(small)
    assert (response.status_code, response["Location"]) == (303, "/season#job")
    page = small.page("/season")
    assert page.by_id("job").attributes["hx-get"] == "/season"  # it watches with scripts
    assert 'http-equiv="refresh"' in page.html  # and without
    _, job = wait_for(small, JobState.DONE)
    page = small.page("/season")
    assert "hx-get" not in page.by_id("job").attributes and "refresh" not in page.html
    assert job.attempt == 1 and "Mix 1:" in page.text
    for words in ("What each bed gets", "What holds it back", "lost a year", "better is possible"):
        assert words in page.text
    assert {"East", "West"} <= {one.text for one in page.all("th")}


def test_a_killed_process_is_shown_as_failed_and_can_be_tried_again(sample):
    ask(sample, "find")
    _, job = wait_for(sample, JobState.RUNNING, JobState.DONE)
    assert job.state is JobState.RUNNING
    assert job.pid and job.pid != os.getpid()
    killed = job.pid
    os.kill(killed, signal.SIGKILL)
    page, job = wait_for(sample, JobState.FAILED)
    page = sample.page("/season")
    assert "it failed" in page.text and "Try again" in page.text
    with pytest.raises(ProcessLookupError):
        os.kill(killed, 0)  # it is gone, and no dead process stays behind
    assert sample.send(f"/season/jobs/{job.key}/again", {}).status_code == 303
    _, job = wait_for(sample, JobState.RUNNING, JobState.DONE)
    assert job.attempt == 2
    sample.send(f"/season/jobs/{job.key}/stop", {})
    wait_for(sample, JobState.STOPPED, JobState.DONE)


def test_a_stopped_plan_is_the_best_so_far(small, no_process, monkeypatch):
    """The wish to stop comes with the first plan found: that plan stays, and is said to be it."""

    def stopped_at_first(garden, wishes, bench):
        key = newest(small).key
        small.send(f"/season/jobs/{key}/stop", {})
        while not bench.effort.should_stop():
            time.sleep(0.01)
        return plan_as_asked(garden, wishes, replace(bench, effort=GOOD_ENOUGH))

    monkeypatch.setattr(season_job, "plan_as_asked", stopped_at_first)
    monkeypatch.setattr(season_job, "BEAT_SECONDS", 0.05)
    job = planned(small)
    assert job.state is JobState.STOPPED, job.result
    page = small.page("/season")
    assert "best plan so far" in page.text and "Mix 1:" in page.text and "Try again" in page.text


def test_what_waits_is_stopped_at_once(small, no_process):
    ask(small)
    key = newest(small).key
    small.send(f"/season/jobs/{key}/stop", {})
    assert small.store.jobs.get(key).state is JobState.STOPPED
    assert "before there was a plan" in small.page("/season").text


def test_a_job_that_another_server_left_is_found_again(small, no_process):
    ask(small)
    key = newest(small).key
    small.store.jobs.begin(key, 2**22 + 1)  # above the largest number a process of Linux has
    assert "it failed" in small.page("/season").text
    assert small.store.jobs.get(key).state is JobState.FAILED


def test_a_process_that_hangs_is_ended_and_said_to_be(sample, monkeypatch):
    ask(sample, "find")
    _, job = wait_for(sample, JobState.RUNNING)
    assert job.pid
    os.kill(job.pid, signal.SIGSTOP)  # it lives, and tells nothing any more
    monkeypatch.setattr(run_jobs, "HUNG_SECONDS", 1.0)
    page, done = wait_for(sample, JobState.FAILED)
    assert "reported no more" in done.result
    assert "it failed" in sample.page("/season").text and "Try again" in page.text
    time.sleep(0.1)
    with pytest.raises(ProcessLookupError):
        os.kill(job.pid, 0)


def test_a_process_that_reports_is_left_to_work(small, no_process, monkeypatch):
    monkeypatch.setattr(run_jobs, "HUNG_SECONDS", 0.2)
    ask(small)
    key = newest(small).key
    small.store.jobs.begin(key, os.getpid())
    for number in range(6):
        small.store.jobs.report(
            key, os.getpid(), f'{{"value": 1, "bound": 1, "seconds": {number}}}'
        )
        assert "being worked out" in small.page("/season").text
        time.sleep(0.1)
    time.sleep(0.3)
    assert "reported no more" in small.page("/season").text  # this process is none of its children


def test_a_double_tap_plans_once(small, no_process):
    told = small.filled("/season") | {"mixes": "1"}
    for _ in range(3):
        assert small.send("/season/plan", told).status_code == 303
    first = newest(small)
    season_job.work(small.store, first.key)
    small.send("/season/plan", told)
    assert newest(small).key == first.key


def test_progress_is_told_in_words(small, no_process):
    ask(small)
    key = newest(small).key
    small.store.jobs.begin(key, os.getpid())
    small.store.jobs.report(key, os.getpid(), '{"value": 31.75, "bound": 30.95, "seconds": 4.2}')
    text = small.page("/season").text
    assert "Best plan so far $31.75, at most $0.80 better is possible; 4 seconds so far." in text


@pytest.mark.parametrize("mixes", ["", "0", "4", "-1", "two", "1; drop", "9" * 5000, "\x00"])
def test_a_wrong_number_of_mixes_is_refused_at_its_field(small, mixes):
    response = ask(small, mixes)
    assert response.status_code == 422
    assert read(response).by_id("id_mixes_error").text.strip()
    assert small.store.jobs.latest(SEASON) is None


def test_a_garden_without_bags_or_beds_says_what_is_wanted(sender):
    sender.send("/garden/start", {"with": "empty"})
    response = ask(sender)
    assert response.status_code == 422
    assert "at least one bag" in read(response).by_id("told").text


def test_a_plan_from_today_on_counts_what_the_diary_says(small, no_process):
    told = small.filled("/diary/write/feeding", bed="East", of="Blood", scoops="2")
    assert small.send("/diary/write/feeding", told).status_code == 303
    ask(small)
    assert [bed.given for bed in asked(small).entry.beds] == [(), ()]
    small.send(f"/season/jobs/{newest(small).key}/stop", {})
    ask(small, from_today="on")
    east, west = asked(small).entry.beds
    assert [one.of for one in east.given] == ["Blood"] and west.given == ()
    assert asked(small).start == today()


def test_finding_out_lays_the_ways_side_by_side(small, no_process):
    planned(small, "find")
    text = small.page("/season").text
    assert "One mix, or more" in text and "Enough:" in text


def test_the_most_to_spend_is_the_gardens_own_unless_another_is_wished(small, no_process):
    small.send("/settings", small.filled("/settings", **{"preferences-budget": "60"}))
    assert small.filled("/season")["budget"] == "60"
    ask(small, budget="40.50")
    assert asked(small).entry.preferences.budget == Fraction("40.5")
    assert small.store.gardens.all()[-1].value.about.preferences.budget == 60
    assert small.filled("/season")["budget"] == "40.5"  # what was wished last is offered again


def test_a_budget_of_nothing_buys_nothing(small, no_process):
    ask(small, budget="0")
    season_job.work(small.store, newest(small).key)
    found = read_text(SeasonFound, newest(small).result)
    assert found.plan and not found.plan.purchases
    assert "short" in small.page("/season").text


def test_amounts_come_in_as_few_sizes_as_wished(small, no_process):
    add_bed(small, "North")
    small.shelf.beds.add(BedEntry(name="Large", place="", area_m2=Fraction(23), crop="tomato"))
    ask(small, cups="1")
    season_job.work(small.store, newest(small).key)
    found = read_text(SeasonFound, newest(small).result)
    assert found.plan and found.few
    if found.few.sizes:
        fed = {(one.of, one.measures) for one in found.plan.feedings}
        assert len(fed) == len({one.of for one in found.plan.feedings})
        assert "worse than an amount of its own" in small.page("/season").text
    else:
        assert "So few sizes would break a limit" in small.page("/season").text


def test_the_plan_followed_is_kept_unless_a_new_one_saves_enough(small, no_process):
    assert "keep_old" not in small.filled("/season")
    kept(small, "Spring")
    before = small.shelf.seasons.all()[0].value.plan
    ask(small, keep_old="on", unless_saves="1000")
    assert asked(small).old == before and asked(small).unless_saves == 1000
    season_job.work(small.store, newest(small).key)
    page = small.page("/season")
    assert "The old plan is kept" in page.text and "$1000.00 is asked of it" in page.text
    found = read_text(SeasonFound, newest(small).result)
    assert found.plan and found.plan.stirs == before.stirs


def test_an_old_plan_that_no_longer_does_says_why(small, no_process):
    kept(small, "Spring")
    for kept_bed in small.shelf.beds.all():
        small.shelf.beds.remove(kept_bed.key, kept_bed.version)
    add_bed(small, "South")
    ask(small, keep_old="on")
    season_job.work(small.store, newest(small).key)
    text = small.page("/season").text
    assert "The old plan no longer does:" in text and "no bed East any more" in text


def test_truly_different_plans_are_shown_and_can_be_kept(small, no_process):
    found = planned_with_others(small)
    assert found.others and len(found.others.plans) > 1
    page = small.page("/season")
    assert "Other plans" in page.text
    place, other = next(
        (place, one) for place, one in enumerate(found.others.plans) if one.plan != found.plan
    )
    assert other.figures.name in page.by_id("id_which").text
    told = {"name": "Without", "which": str(place)}
    assert small.send(f"/season/jobs/{newest(small).key}/keep", told).status_code == 303
    (entry,) = [one.value for one in small.shelf.seasons.all()]
    assert entry.plan == other.plan != found.plan
    assert "This is the plan you follow" in small.page("/season/1").text


def test_the_plan_on_the_page_is_kept_unless_another_is_chosen(small, no_process):
    found = planned_with_others(small)
    told = small.filled("/season") | {"name": "This"}
    assert told["which"] == ""
    small.send(f"/season/jobs/{newest(small).key}/keep", told)
    assert small.shelf.seasons.all()[0].value.plan == found.plan


@pytest.mark.parametrize("which", ["9", "-1", "x", "1; drop", "9" * 5000])
def test_a_plan_that_is_not_there_cannot_be_kept(small, no_process, which):
    planned_with_others(small)
    told = {"name": "Odd", "which": which}
    response = small.send(f"/season/jobs/{newest(small).key}/keep", told)
    assert response.status_code == 422 and small.shelf.seasons.all() == ()


@pytest.mark.parametrize(
    ("field", "typed"),
    [("budget", "many"), ("budget", "-1"), ("cups", "0"), ("cups", "99"), ("unless_saves", "x")],
)
def test_a_wrong_wish_is_told_beside_its_field(small, no_process, field, typed):
    key = kept(small, "Spring")
    before = newest(small).key
    response = ask(small, **{field: typed})
    page = read(response)
    assert response.status_code == 422 and page.by_id(f"id_{field}_error").text.strip()
    assert "open" in page.all("details", **{"class": "more"})[0].attributes
    assert newest(small).key == before and key


def test_why_is_told_where_asked(small, no_process):
    planned(small)
    assert "Why each bag is in" not in small.page("/season").text
    assert "Why each bag is in" in small.page("/season?why=1").text


@pytest.mark.parametrize("bed", ["West", "nowhere", "", "<script>", "9" * 5000])
def test_a_bed_can_be_drawn(small, no_process, bed):
    planned(small)
    page = small.page(f"/season?bed={bed}")
    drawn = "West" if bed == "West" else "East"
    assert page.by_id("need-title").text.startswith(drawn)
    assert page.by_id("need-numbers").tag == "details"


def test_a_kept_plan_stays_as_it_was_made(small, no_process):
    key = kept(small, "Spring")
    before = small.page(f"/season/{key}").all("table")
    bag = small.shelf.bags.all()[0]
    small.send(f"/bags/{bag.key}", small.filled(f"/bags/{bag.key}", price="99", label="1-1-1"))
    after = small.page(f"/season/{key}")
    assert [one.text for one in after.all("table")] == [one.text for one in before]
    assert "This is the plan you follow" in after.text


def test_a_kept_plan_that_breaks_a_limit_of_today_says_so(small, no_process):
    key = kept(small, "Old")
    one = small.shelf.seasons.get(key)
    told = one.value.plan
    much = tuple(replace(each, measures=999) for each in told.feedings)
    small.shelf.seasons.change(
        key, one.version, replace(one.value, plan=replace(told, feedings=much))
    )
    for address in (f"/season/{key}", "/next", f"/season/compare?one={key}&other={key}"):
        page = small.page(address)
        assert "no longer does" in page.text and "East" in page.text


def test_a_found_plan_that_breaks_a_limit_of_today_says_so(small, no_process):
    job = planned(small)
    found = read_text(SeasonFound, job.result)
    assert found.plan
    gone = replace(found.plan, feedings=(replace(found.plan.feedings[0], measures=999),))
    ask(small, "2")
    later = newest(small)
    small.store.jobs.begin(later.key, os.getpid())
    text = services().to_text(replace(found, plan=gone))
    small.store.jobs.end(later.key, os.getpid(), JobState.DONE, text)
    page = small.page("/season")
    assert "No plan keeps every limit" in page.text and "Keep this plan" not in page.text


def test_one_plan_is_followed_at_a_time(small, no_process):
    first, second = kept(small, "First"), kept(small, "Second")
    chosen = [one.value.name for one in small.shelf.seasons.all() if one.value.chosen]
    assert chosen == ["Second"]
    small.send(f"/season/{first}/follow", {})
    chosen = [one.value.name for one in small.shelf.seasons.all() if one.value.chosen]
    assert chosen == ["First"]
    page = small.page(f"/season/compare?one={first}&other={second}")
    assert "First beside Second" in page.text
    assert len(page.all("table", **{"aria-label": "Two plans"})) == 1


@pytest.mark.parametrize("name", ["", "x" * 61, "\x00", "3\u202e4", "9" * 5000])
def test_a_wrong_name_is_refused_at_its_field(small, no_process, name):
    job = planned(small)
    response = small.send(f"/season/jobs/{job.key}/keep", {"name": name})
    assert response.status_code == 422
    assert read(response).by_id("id_name_error").text.strip()
    assert small.shelf.seasons.all() == ()


def test_a_name_stays_where_the_plan_cannot_be_kept_now(small, no_process):
    job = planned(small)
    with held_by_another():
        response = small.send(f"/season/jobs/{job.key}/keep", {"name": "Spring"})
    assert response.status_code == 503
    page = read(response)
    assert "Wait a moment and try again" in page.by_id("id_name_error").text
    assert page.by_id("id_name").attributes["value"] == "Spring"
    assert small.shelf.seasons.all() == ()


def test_two_plans_cannot_share_a_name(small, no_process):
    kept(small, "Same")
    job = newest(small)
    response = small.send(f"/season/jobs/{job.key}/keep", {"name": "same"})
    assert response.status_code == 422 and len(small.shelf.seasons.all()) == 1


def test_what_is_removed_can_be_put_back(small, no_process):
    key = kept(small, "Spring")
    small.send(f"/season/{key}/remove", {})
    assert small.client.get(f"/season/{key}").status_code == 404
    assert "Spring" in small.page("/season").by_id("bin").text
    small.send(f"/season/{key}/put-back", {})
    assert small.page(f"/season/{key}")


@pytest.mark.parametrize("rest", ["?one=1", "?one=x&other=y", "?one=1&other=" + "9" * 5000, ""])
def test_an_odd_comparison_is_told_plainly(small, rest):
    assert small.client.get(f"/season/compare{rest}").status_code == 404


@pytest.mark.parametrize(
    "address",
    ["plan", "jobs/1/stop", "jobs/1/again", "jobs/1/keep", "1/follow", "1/remove", "1/put-back"],
)
def test_a_change_needs_a_token_and_is_never_made_by_an_address(small, address):
    assert small.client.post(f"/season/{address}", {"mixes": "1"}).status_code == 403
    assert small.client.get(f"/season/{address}").status_code == 405
    assert small.store.jobs.latest(SEASON) is None


@pytest.mark.parametrize("address", ["jobs/99/stop", "jobs/99/again", "jobs/99/keep", "99/follow"])
def test_what_is_not_there_is_told_plainly(small, address):
    assert small.send(f"/season/{address}", {"name": "x"}).status_code == 404


def test_another_gardens_plan_is_not_shown(small, no_process):
    planned(small)
    home = small.store.gardens.all()[-1]
    small.store.gardens.remove(home.key, home.version)
    small.send("/garden/start", {"with": "empty"})
    assert "Mix 1" not in small.page("/season").text


def test_the_pages_are_whole(small, no_process):
    first, second = kept(small, "First"), kept(small, "Second")
    for address in ("/season", f"/season/{first}", f"/season/compare?one={first}&other={second}"):
        page = small.page(address)
        assert unlabelled(page) == [] and doubled_ids(page) == [] and inline(page) == []


def test_queries_do_not_grow_with_plans_or_beds(small, no_process):
    def queries() -> int:
        small.page("/season")  # what was said is shown once
        with CaptureQueriesContext(connection) as caught:
            small.page("/season")
        return len(caught)

    kept(small, "First")
    before = queries()
    add_bed(small, "North")
    for name in ("Second", "Third"):
        kept(small, name)
    assert queries() == before <= 8
