"""What the tests of faults run in processes of their own, to be killed or starved there.

Each child says on its output what it has done, a line at a time, as a person would see it saved.
"""

import os
import resource
import signal
import sys
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from pathlib import Path

from django.db import connection

from halfpail.application.store_trouble import StoreTrouble
from halfpail.domain.diary import Made, Taken
from halfpail.storage import open_store as opening
from halfpail.storage import setup
from halfpail.storage.backup import back_up
from halfpail.storage.folder import Running
from halfpail.storage.open_store import Opening, open_store
from halfpail.storage.store_file import FILE_NAME

DAY = date(2027, 4, 1)
SCOOP_KG = Fraction(1, 1000)
CHANGES = ("CREATE", "ALTER", "INSERT", "UPDATE", "DROP", "PRAGMA U")


def say(word: object) -> None:
    print(word, flush=True)


def batch(first: str, second: str) -> Made:
    """A batch of a scoop from each of two bags."""
    taken = tuple(Taken(bag=name, scoops=1, mass_kg=SCOOP_KG) for name in (first, second))
    return Made(on=DAY, mix="Pail", rounds=1, taken=taken)


def write(folder: Path) -> None:
    """Record batches without end; each is a line, two moves and two bags."""
    store = open_store(Opening(folder=folder))
    shelf = store.shelf(store.gardens.all()[0].key)
    first, second, *_ = (kept.value.name for kept in shelf.bags.all())
    while True:
        say(shelf.diary.record(batch(first, second)).key)


def fill_up(folder: Path) -> None:
    """Keep drafts until the disk is full, then look at what is there."""
    store = open_store(Opening(folder=folder))
    kept = 0
    try:
        while kept < 1000:
            store.drafts.keep(f"form {kept}", {"label": "words " * 500})
            kept += 1
    except StoreTrouble as trouble:
        say(type(trouble).__name__)
    say(kept)
    say(len([n for n in range(kept) if store.drafts.get(f"form {n}")]))
    say(len(store.shelf(store.gardens.all()[0].key).garden().bags))
    try:
        back_up(folder / FILE_NAME)
        say("whole")
    except StoreTrouble as trouble:
        say(type(trouble).__name__)


def fill_a_short_file(folder: Path) -> None:
    """As `fill_up`, where no file may pass a size."""
    most = (folder / FILE_NAME).stat().st_size + 300_000
    resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
    fill_up(folder)


def look(folder: Path) -> None:
    """Open, look, and try to write."""
    store = open_store(Opening(folder=folder))
    say(store.read_only)
    say(len(store.shelf(store.gardens.all()[0].key).garden().bags))
    try:
        store.put_away("dust")
    except StoreTrouble as trouble:
        say(type(trouble).__name__)


def serve(folder: Path) -> None:
    """Hold the folder until killed."""
    running = Running(folder, "http://127.0.0.1:8765/")
    say(os.getpid())
    signal.pause()
    running.let_go()


@dataclass
class DieBefore:
    """Watches a change of the form, and kills its process before this many statements of it."""

    left: int

    def __call__(self, execute, sql, params, many, context):
        """Count a statement down and let it be done."""
        if sql.lstrip().upper().startswith(CHANGES):
            self.left -= 1
            if self.left == 0:
                os.kill(os.getpid(), signal.SIGKILL)
        return execute(sql, params, many, context)


def step_up(folder: Path, statements: str) -> None:
    """Open with a program of the second form, and die before the given statement of the change."""
    setup.start_django({"MIGRATION_MODULES": {"storage": "tests.storage.steps"}})
    for module in (setup, opening):
        module.newest_version = lambda: 2  # type: ignore[attr-defined]  # a program of the next form
    dying = DieBefore(int(statements))
    with connection.execute_wrapper(dying):
        open_store(Opening(folder=folder))
    say(dying.left)


def main() -> None:
    task, folder, *more = sys.argv[1:]
    tasks: dict[str, Callable[..., None]] = {
        child.__name__: child for child in (write, fill_up, fill_a_short_file, look, serve, step_up)
    }
    tasks[task](Path(folder), *more)


if __name__ == "__main__":
    main()
