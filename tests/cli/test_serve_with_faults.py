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
from tests.cli.serving import LONGEST_S, Served, notes, served

ROOM = 64 * 1024
LONG = "the rain went on and the ground is heavy " * 3
MOST_NOTES = 200
AGAIN = "there is room again"
SEE_OTHER, UNAVAILABLE = 303, 503
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


def fill(server: Served, folder: Path) -> tuple[list[str], str]:
    """Notes written until the disk of a server is full: how those kept begin, and the refused."""
    let_write(server.pid, (folder / FILE_NAME).stat().st_size + ROOM)
    acknowledged = []
    for number in range(MOST_NOTES):
        words = f"note {number}. {LONG}".strip()
        answer = server.note(words)
        if answer.status != SEE_OTHER:
            break
        acknowledged.append(f"note {number}.")
    assert answer.status == UNAVAILABLE
    assert words in answer.page, "what was typed stays on the page"
    assert 0 < len(acknowledged) < MOST_NOTES
    return acknowledged, words


def are_kept(expected: list[str], folder: Path) -> bool:
    """Whether the file is whole and holds these notes in their order, and no other."""
    kept = notes(folder)
    return len(kept) == len(expected) and all(map(str.__contains__, kept, expected))


def test_on_a_full_disk_nothing_acknowledged_is_lost_and_saving_works_again(folder):
    with served(folder) as server:
        acknowledged, refused = fill(server, folder)
        answer = server.note(refused)
        assert answer.status == UNAVAILABLE
        assert "The disk is full" in answer.page
        assert refused in answer.page, "what was typed stays on the page"
        assert acknowledged[-1] in server.ask("/diary").page, "all else can be seen"
        assert "Blood meal" in server.ask("/files/garden.toml").page, "and taken away"
        let_write(server.pid, resource.RLIM_INFINITY)
        assert server.note(AGAIN).status == SEE_OTHER
    assert are_kept([*acknowledged, AGAIN], folder)


def test_a_server_that_ended_on_a_full_disk_is_followed_by_one_that_saves(folder):
    """The next one finds the log as it was left: cut off in the middle of what was refused."""
    with served(folder) as server:
        acknowledged, refused = fill(server, folder)
    with served(folder) as server:
        diary = server.ask("/diary").page
        assert all(one in diary for one in acknowledged)
        assert refused.partition(" the")[0] not in diary
        assert server.note(AGAIN).status == SEE_OTHER
    assert are_kept([*acknowledged, AGAIN], folder)


@pytest.mark.slow
def test_a_store_that_another_program_holds_is_waited_for_and_told(folder):
    with served(folder) as server, closing(sqlite3.connect(folder / FILE_NAME)) as other:
        other.execute("BEGIN IMMEDIATE")
        answer = server.note("written while it is held")
        assert answer.status == UNAVAILABLE
        assert "written while it is held" in answer.page, "what was typed stays on the page"
        assert "Wait a moment and try again" in answer.page
        other.rollback()
        assert notes(folder) == []
        assert server.note("written after").status == SEE_OTHER
    assert [words for words in notes(folder) if "written after" in words]


def test_a_folder_that_cannot_be_written_to_can_be_looked_at(folder):
    with served(folder) as server:
        assert server.note("before").status == SEE_OTHER
    modes = {path: path.stat().st_mode for path in (*folder.iterdir(), folder)}
    for path in modes:
        path.chmod(0o500 if path.is_dir() else 0o400)
    held = (folder / FILE_NAME).read_bytes()
    try:
        with served(folder, under=as_others_are()) as server:
            assert "can only be looked at" in server.ask("/bags").page
            assert "before" in server.ask("/diary").page
            answer = server.note("typed all the same")
            assert answer.status == UNAVAILABLE
            assert "typed all the same" in answer.page
            assert "cannot be written to" in answer.page
    finally:
        for path, mode in modes.items():
            path.chmod(mode)
    assert (folder / FILE_NAME).read_bytes() == held
    with served(folder) as server:
        assert server.note("after").status == SEE_OTHER


def as_others_are() -> tuple[str, ...]:
    """Whoever may write everywhere gives that right up; others never had it."""
    if os.geteuid():
        return ()
    return ("setpriv", "--bounding-set", "-dac_override,-dac_read_search", "--")


def test_a_file_damaged_under_a_running_server_is_told_and_not_written_to(folder):
    with served(folder) as server:
        assert server.note("before").status == SEE_OTHER
    file = folder / FILE_NAME
    with served(folder) as server, file.open("r+b") as damaged:
        for page in range(2, file.stat().st_size // PAGE):
            damaged.seek(page * PAGE)
            damaged.write(b"\xa5" * PAGE)
        damaged.flush()
        held = file.read_bytes()
        for address in ("/bags", "/diary"):
            answer = server.ask(address)
            assert answer.status == UNAVAILABLE
            assert "halfpail restore" in answer.page, "the way out is told"
        assert server.ask("/sources").status in (200, 503)
    assert file.read_bytes() == held


@pytest.mark.slow
@pytest.mark.parametrize("statement", KILLED_AT)
def test_a_server_killed_while_the_form_changes_leaves_the_old_form(folder, statement):
    with served(folder) as server:
        assert server.note("before").status == SEE_OTHER
    command = [sys.executable, "-m", serve_a_new_form.__name__, str(folder), str(statement)]
    ended = subprocess.run(command, capture_output=True, timeout=LONGEST_S, check=False)
    assert ended.returncode == -signal.SIGKILL
    assert look_at(folder / FILE_NAME).version == 1
    assert [dict(look_at(one).counts)["diary lines"] for one in backups(folder)] == [1]
    with served(folder) as server:
        assert "before" in server.ask("/diary").page
        assert server.note("after").status == SEE_OTHER
    assert len(notes(folder)) == 2
