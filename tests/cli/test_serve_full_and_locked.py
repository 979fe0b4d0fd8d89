"""A running server whose disk is full or whose store another program holds: told, nothing lost.

The disk is full for the server alone: the system lets its process write no file beyond a size, and
refuses what is longer as a full disk does.
"""

import resource
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager
from http.client import HTTPConnection
from pathlib import Path
from urllib.parse import urlencode, urlsplit

import pytest

from benchmarks.kills import HIDDEN, shelf_of
from halfpail.storage.store_file import FILE_NAME

FORM = "/diary/write/note"
ROOM = 64 * 1024
LONG = "the rain went on and the ground is heavy " * 3
MOST_NOTES = 200


@contextmanager
def served(folder: Path, most_bytes: int | None = None) -> Iterator[HTTPConnection]:
    """A line to a server of its own process, which may write no file longer than this."""

    def narrow() -> None:
        if most_bytes is not None:
            resource.setrlimit(resource.RLIMIT_FSIZE, (most_bytes, resource.RLIM_INFINITY))

    command = [sys.executable, "-m", "halfpail", "serve", "--no-browser", "--folder", str(folder)]
    with subprocess.Popen(
        command,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        preexec_fn=narrow,  # the test has one thread
    ) as server:
        assert server.stdout
        address = next(one for one in server.stdout.readline().split() if one.startswith("http"))
        line = HTTPConnection(urlsplit(address).netloc, timeout=60)
        try:
            yield line
        finally:
            line.close()
            server.terminate()


def asked(line: HTTPConnection, address: str) -> str:
    line.request("GET", address)
    return line.getresponse().read().decode()


def saved(line: HTTPConnection, words: str) -> tuple[int, str]:
    """Write a note into the diary as a browser does; the status and the page that answers."""
    line.request("GET", FORM)
    page = line.getresponse()
    cookie = (page.getheader("Set-Cookie") or "").partition(";")[0]
    hidden = dict(reversed(HIDDEN.findall(page.read().decode())))
    body = urlencode({"on": "2026-10-01", "note": words, "bed": "", **hidden})
    kind = {"Content-Type": "application/x-www-form-urlencoded", "Cookie": cookie}
    line.request("POST", FORM, body=body, headers=kind)
    answer = line.getresponse()
    return answer.status, answer.read().decode()


def notes(folder: Path) -> list[str]:
    """The notes that the file holds, read by SQLite itself."""
    with closing(sqlite3.connect(folder / FILE_NAME)) as store:
        assert store.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        rows = store.execute("SELECT * FROM storage_diaryline ORDER BY 1").fetchall()
    return [str(row) for row in rows]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A store with the sample garden in it."""
    shelf_of(tmp_path, begin=True)
    return tmp_path


def test_on_a_full_disk_nothing_acknowledged_is_lost_and_saving_works_again(folder: Path) -> None:
    acknowledged = []
    full = (folder / FILE_NAME).stat().st_size + ROOM
    with served(folder, most_bytes=full) as line:
        for number in range(MOST_NOTES):
            words = f"note {number}. {LONG}"
            status, page = saved(line, words)
            if status != 303:
                break
            acknowledged.append(f"note {number}.")
        assert status == 503
        assert "The disk is full" in page
        assert words.strip() in page, "what was typed stays on the page"
        assert "Diary" in asked(line, "/diary"), "all else can be seen"
    assert acknowledged
    kept = notes(folder)
    assert len(kept) == len(acknowledged)
    assert all(words in row for words, row in zip(acknowledged, kept, strict=True))
    with served(folder) as line:
        assert saved(line, "there is room again")[0] == 303
    assert "there is room again" in notes(folder)[-1]


@pytest.mark.slow
def test_a_store_that_another_program_holds_is_waited_for_and_told(folder: Path) -> None:
    with served(folder) as line, closing(sqlite3.connect(folder / FILE_NAME)) as other:
        other.execute("BEGIN IMMEDIATE")
        status, page = saved(line, "written while it is held")
        assert status == 503
        assert "written while it is held" in page, "what was typed stays on the page"
        assert "Wait a moment and try again" in page
        other.rollback()
        assert notes(folder) == []
        assert saved(line, "written after")[0] == 303
    assert [words for words in notes(folder) if "written after" in words]
