"""Faults made for real under a running server: each is told on the page, and nothing is lost.

The disk is full for the server alone: the system lets its process write no file beyond a size, and
refuses what is longer as a full disk does. Kills while it saves are in `tests/benchmarks`.
"""

import os
import resource
import signal
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from benchmarks.kills import shelf_of
from halfpail.storage.backup import backups
from halfpail.storage.store_file import FILE_NAME, look_at
from tests.cli import serve_a_new_form
from tests.cli.serving import LONGEST_S, notes, served

ROOM = 64 * 1024
LONG = "the rain went on and the ground is heavy " * 3
MOST_NOTES = 200
PAGE = 4096
KILLED_AT = (1, 6, 12)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A store with the sample garden in it."""
    shelf_of(tmp_path, begin=True)
    return tmp_path


def let_write(pid: int, most: int) -> None:
    """From now on a process may write no file longer than this [bytes]."""
    resource.prlimit(pid, resource.RLIMIT_FSIZE, (most, resource.RLIM_INFINITY))


def test_on_a_full_disk_nothing_acknowledged_is_lost_and_saving_works_again(folder):
    acknowledged = []
    with served(folder) as server:
        let_write(server.pid, (folder / FILE_NAME).stat().st_size + ROOM)
        for number in range(MOST_NOTES):
            words = f"note {number}. {LONG}"
            answer = server.note(words)
            if answer.status != 303:
                break
            acknowledged.append(f"note {number}.")
        assert answer.status == 503
        assert "The disk is full" in answer.page
        assert words.strip() in answer.page, "what was typed stays on the page"
        assert server.note(words).status == 503, "and it is told again"
        assert acknowledged[-1] in server.ask("/diary").page, "all else can be seen"
        assert "Blood meal" in server.ask("/files/garden.toml").page, "and taken away"
        let_write(server.pid, resource.RLIM_INFINITY)
        assert server.note("there is room again").status == 303
    kept = notes(folder)
    assert len(kept) == len(acknowledged) + 1
    for words, row in zip([*acknowledged, "there is room again"], kept, strict=True):
        assert words in row


@pytest.mark.slow
def test_a_store_that_another_program_holds_is_waited_for_and_told(folder):
    with served(folder) as server, closing(sqlite3.connect(folder / FILE_NAME)) as other:
        other.execute("BEGIN IMMEDIATE")
        answer = server.note("written while it is held")
        assert answer.status == 503
        assert "written while it is held" in answer.page, "what was typed stays on the page"
        assert "Wait a moment and try again" in answer.page
        other.rollback()
        assert notes(folder) == []
        assert server.note("written after").status == 303
    assert [words for words in notes(folder) if "written after" in words]


def test_a_folder_that_cannot_be_written_to_can_be_looked_at(folder):
    with served(folder) as server:
        assert server.note("before").status == 303
    modes = {path: path.stat().st_mode for path in (*folder.iterdir(), folder)}
    for path in modes:
        path.chmod(0o500 if path.is_dir() else 0o400)
    held = (folder / FILE_NAME).read_bytes()
    try:
        with served(folder, under=as_others_are()) as server:
            assert "can only be looked at" in server.ask("/bags").page
            assert "before" in server.ask("/diary").page
            answer = server.note("typed all the same")
            assert answer.status == 503
            assert "typed all the same" in answer.page
            assert "cannot be written to" in answer.page
    finally:
        for path, mode in modes.items():
            path.chmod(mode)
    assert (folder / FILE_NAME).read_bytes() == held
    with served(folder) as server:
        assert server.note("after").status == 303


def as_others_are() -> tuple[str, ...]:
    """Whoever may write everywhere gives that right up; others never had it."""
    if os.geteuid():
        return ()
    return ("setpriv", "--bounding-set", "-dac_override,-dac_read_search", "--")


def test_a_file_damaged_under_a_running_server_is_told_and_not_written_to(folder):
    with served(folder) as server:
        assert server.note("before").status == 303
    file = folder / FILE_NAME
    with served(folder) as server, file.open("r+b") as damaged:
        for page in range(2, file.stat().st_size // PAGE):
            damaged.seek(page * PAGE)
            damaged.write(b"\xa5" * PAGE)
        damaged.flush()
        held = file.read_bytes()
        for address in ("/bags", "/diary"):
            answer = server.ask(address)
            assert answer.status == 503
            assert "halfpail restore" in answer.page, "the way out is told"
        assert server.ask("/sources").status in (200, 503)
    assert file.read_bytes() == held


@pytest.mark.slow
@pytest.mark.parametrize("statement", KILLED_AT)
def test_a_server_killed_while_the_form_changes_leaves_the_old_form(folder, statement):
    with served(folder) as server:
        assert server.note("before").status == 303
    command = [sys.executable, "-m", serve_a_new_form.__name__, str(folder), str(statement)]
    ended = subprocess.run(command, capture_output=True, timeout=LONGEST_S, check=False)
    assert ended.returncode == -signal.SIGKILL
    assert look_at(folder / FILE_NAME).version == 1
    assert [dict(look_at(one).counts)["diary lines"] for one in backups(folder)] == [1]
    with served(folder) as server:
        assert "before" in server.ask("/diary").page
        assert server.note("after").status == 303
    assert len(notes(folder)) == 2
