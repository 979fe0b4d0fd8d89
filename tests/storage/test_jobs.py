"""A job has one owner, can be stopped and tried again, and is never lost sight of."""

import pytest

from halfpail.application.kept import JobState
from halfpail.application.store_trouble import Missing

OURS, THEIRS = 4001, 4002


def test_a_job_from_beginning_to_end(store):
    job = store.jobs.add("season", '{"mixes": 2}', token="a")
    assert store.jobs.add("season", "{}", token="a") == job
    assert (store.jobs.sent_as("a"), store.jobs.sent_as("b")) == (job, None)
    assert job.state is JobState.WAITING
    begun = store.jobs.begin(job.key, OURS)
    assert (begun.state, begun.pid, begun.attempt) == (JobState.RUNNING, OURS, 1)
    assert begun.heartbeat is not None
    assert store.jobs.begin(job.key, THEIRS) is None
    assert store.jobs.report(job.key, OURS, "first plan")
    assert not store.jobs.report(job.key, THEIRS, "nonsense")
    assert store.jobs.get(job.key).progress == "first plan"
    assert not store.jobs.end(job.key, THEIRS, JobState.DONE, "nonsense")
    assert store.jobs.end(job.key, OURS, JobState.DONE, "the plan")
    done = store.jobs.latest("season")
    assert (done.state, done.result, done.pid) == (JobState.DONE, "the plan", None)


def test_a_job_is_stopped_before_and_while_it_runs(store):
    waiting, running = store.jobs.add("season", "1"), store.jobs.add("season", "2")
    store.jobs.begin(running.key, OURS)
    for job in (waiting, running):
        store.jobs.ask_to_stop(job.key)
    assert store.jobs.get(waiting.key).state is JobState.STOPPED
    assert store.jobs.begin(waiting.key, OURS) is None
    assert not store.jobs.report(running.key, OURS, "one more")
    assert store.jobs.end(running.key, OURS, JobState.STOPPED, "best so far")
    again = store.jobs.try_again(running.key)
    assert (again.state, again.stop_asked, again.result) == (JobState.WAITING, False, "")


def test_a_job_whose_process_is_gone_has_failed_and_can_be_tried_again(store):
    lost, alive = store.jobs.add("season", "1"), store.jobs.add("season", "2")
    store.jobs.begin(lost.key, OURS)
    store.jobs.begin(alive.key, THEIRS)
    assert store.jobs.fail_lost(lambda pid: pid == THEIRS) == 1
    failed = store.jobs.get(lost.key)
    assert failed.state is JobState.FAILED and "try again" in failed.result
    assert store.jobs.get(alive.key).state is JobState.RUNNING
    assert not store.jobs.end(lost.key, OURS, JobState.DONE, "too late")
    assert store.jobs.try_again(lost.key).state is JobState.WAITING
    assert store.jobs.begin(lost.key, THEIRS).attempt == 2


def test_a_job_that_is_not_there(store):
    with pytest.raises(Missing):
        store.jobs.get(7)
    assert store.jobs.latest("season") is None
