"""Starting, watching and ending the processes that do long work; a job without one has failed."""

import os
import subprocess
import sys
import threading
from dataclasses import dataclass
from pathlib import Path

from halfpail.application.kept import Job, JobState
from halfpail.application.shelf_ports import Store

AT_WORK = (JobState.WAITING, JobState.RUNNING)
NOT_BEGUN = "The process that should have worked on this ended at once; try again."

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
        """How a job stands now: begun if nobody works on it, failed if its process is gone."""
        if job.state is JobState.RUNNING:
            self.store.jobs.fail_lost(is_alive)
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
        if job.stop_asked and child is not None and child.poll() is None:
            child.kill()


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
