"""Starting, watching and ending the processes that do long work; a job without one has failed."""

import os
import signal
import subprocess
import sys
import threading
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from time import monotonic

from halfpail.application.kept import Job, JobState
from halfpail.application.shelf_ports import Store

AT_WORK = (JobState.WAITING, JobState.RUNNING)
# Our default, not published: a job reports twice a second, also while a solver is at work.
HUNG_SECONDS = 60.0
HUNG = "The process that worked on this reported no more, so it was ended; try again."
NOT_BEGUN = "The process that should have worked on this ended at once; try again."

# The last news of each running job, and when this server first saw it, by a clock that nobody sets.
_news: dict[tuple[Path, int], tuple[datetime | None, float]] = {}
_children: dict[tuple[Path, int], "subprocess.Popen[bytes]"] = {}


@dataclass(frozen=True, slots=True, kw_only=True)
class Workshop:
    """The store whose jobs are done, and the folder it lies in."""

    store: Store
    folder: Path

    def start(self, key: int) -> None:
        """Let a process of its own do a job that waits."""
        command = [sys.executable, "-m", "halfpail.web.season_job", str(self.folder), str(key)]
        child = subprocess.Popen(
            command, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, start_new_session=True
        )
        _children[self.folder, key] = child
        # Whoever ends unwatched would stay as a process that is done but not gone.
        threading.Thread(target=child.wait, daemon=True).start()

    def look_after(self, job: Job) -> Job:
        """How a job stands now: begun if nobody does it, failed if its process is gone or hangs."""
        if job.state is JobState.RUNNING:
            self.store.jobs.fail_lost(is_alive)
            if self._is_hung(job):
                self._end(job)
        elif job.state is JobState.WAITING:
            child = _children.get((self.folder, job.key))
            if child is None:
                self.start(job.key)
            elif child.poll() is not None and self.store.jobs.begin(job.key, child.pid):
                self.store.jobs.end(job.key, child.pid, JobState.FAILED, NOT_BEGUN)
        return self.store.jobs.get(job.key)

    def try_again(self, key: int) -> None:
        """Begin a failed or stopped job anew."""
        before = self.store.jobs.get(key).state
        if before not in AT_WORK and self.store.jobs.try_again(key).state is JobState.WAITING:
            self.start(key)

    def stop(self, key: int) -> None:
        """Ask a job for the best it has; asked a second time, end its process."""
        job, child = self.store.jobs.get(key), _children.get((self.folder, key))
        self.store.jobs.ask_to_stop(key)
        if job.stop_asked and child is not None:
            _kill(child)

    def _is_hung(self, job: Job) -> bool:
        """Whether a job has told nothing new for long while this server looked on."""
        now, place = monotonic(), (self.folder, job.key)
        told, since = _news.get(place, (None, now))
        if place not in _news or told != job.heartbeat:
            _news[place] = job.heartbeat, now
            return False
        return now - since > HUNG_SECONDS

    def _end(self, job: Job) -> None:
        """Close a job that hangs; its process is killed if this server started it.

        Another server's process may be gone and its number be somebody else's; where it is not, it
        hears at its next report that the job is no longer its own.
        """
        child = _children.get((self.folder, job.key))
        if child is not None and child.pid == job.pid:
            _kill(child)
        if job.pid is not None:
            self.store.jobs.end(job.key, job.pid, JobState.FAILED, HUNG)


def _kill(child: "subprocess.Popen[bytes]") -> None:
    """End a process of ours with those it has started."""
    if child.poll() is not None:
        return
    if sys.platform == "win32":
        child.kill()
    else:
        # It was started as the first of a group of its own.
        with suppress(ProcessLookupError):
            os.killpg(child.pid, signal.SIGKILL)


def is_alive(pid: int) -> bool:
    """Whether a process is at work; one of our own that has ended is let go of."""
    for child in _children.values():
        if child.pid == pid:
            return child.poll() is None
    if sys.platform == "win32":
        return False
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    except PermissionError:
        pass
    return True
