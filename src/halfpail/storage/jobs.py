"""Long pieces of work as rows; a process owns a job by its number and tells that it is alive."""

from collections.abc import Callable

from django.db.models import F, QuerySet
from django.utils import timezone

from halfpail.application.kept import Job, JobState
from halfpail.application.store_trouble import Missing
from halfpail.storage import models
from halfpail.storage.work import reading, writing

LOST = "The process that worked on this is gone; try again."


class RowJobs:
    """All jobs."""

    @writing
    def add(self, kind: str, question: str, token: str = "") -> Job:
        """A new job, waiting; a token that came before answers the job it made."""
        before = models.Job.objects.filter(token=token).first() if token else None
        row = before or models.Job.objects.create(
            kind=kind, question=question, state=JobState.WAITING.value, token=token or None
        )
        return _job(row)

    @reading
    def get(self, key: int) -> Job:
        """One job."""
        row = models.Job.objects.filter(pk=key).first()
        if row is None:
            raise Missing
        return _job(row)

    @reading
    def sent_as(self, token: str) -> Job | None:
        """The job that was added with a token."""
        row = models.Job.objects.filter(token=token).first()
        return _job(row) if row else None

    @reading
    def latest(self, kind: str) -> Job | None:
        """The newest job of a kind."""
        row = models.Job.objects.filter(kind=kind).order_by("-pk").first()
        return _job(row) if row else None

    @writing
    def begin(self, key: int, pid: int) -> Job | None:
        """Take a waiting job; None where another process was faster."""
        taken = _in(JobState.WAITING, key).update(
            state=JobState.RUNNING.value,
            pid=pid,
            heartbeat=timezone.now(),
            attempt=F("attempt") + 1,
        )
        return self.get(key) if taken else None

    @writing
    def report(self, key: int, pid: int, progress: str) -> bool:
        """Tell how far it is; whether to go on."""
        own = _in(JobState.RUNNING, key).filter(pid=pid)
        own.update(progress=progress, heartbeat=timezone.now())
        return own.filter(stop_asked=False).exists()

    @writing
    def end(self, key: int, pid: int, state: JobState, result: str) -> bool:
        """Close a running job; whether it was still this process's own."""
        own = _in(JobState.RUNNING, key).filter(pid=pid)
        return bool(own.update(state=state.value, result=result, pid=None))

    @writing
    def ask_to_stop(self, key: int) -> None:
        """Ask for the best found so far; a job that waits is stopped at once."""
        _in(JobState.WAITING, key).update(state=JobState.STOPPED.value)
        _in(JobState.RUNNING, key).update(stop_asked=True)

    @writing
    def try_again(self, key: int) -> Job:
        """Let a failed or stopped job wait for another attempt."""
        for state in (JobState.FAILED, JobState.STOPPED):
            _in(state, key).update(
                state=JobState.WAITING.value, stop_asked=False, progress="", result=""
            )
        return self.get(key)

    @writing
    def fail_lost(self, is_alive: Callable[[int], bool]) -> int:
        """Mark running jobs as failed whose process is gone; how many there were."""
        running = models.Job.objects.filter(state=JobState.RUNNING.value)
        lost = [row.pk for row in running if row.pid is None or not is_alive(row.pid)]
        return running.filter(pk__in=lost).update(
            state=JobState.FAILED.value, result=LOST, pid=None
        )


def _in(state: JobState, key: int) -> QuerySet[models.Job]:
    return models.Job.objects.filter(pk=key, state=state.value)


def _job(row: models.Job) -> Job:
    return Job(
        key=row.pk,
        kind=row.kind,
        question=row.question,
        state=JobState(row.state),
        progress=row.progress,
        result=row.result,
        pid=row.pid,
        heartbeat=row.heartbeat,
        attempt=row.attempt,
        stop_asked=row.stop_asked,
    )
