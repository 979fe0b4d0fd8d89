"""A server of the pages as a child, asked as a browser asks, and its file looked at by SQLite."""

import sqlite3
import subprocess
import sys
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager
from dataclasses import dataclass
from http.client import HTTPConnection
from pathlib import Path
from urllib.parse import urlencode, urlsplit

from benchmarks.kills import HIDDEN, damage
from halfpail.storage.store_file import FILE_NAME

NOTE = "/diary/write/note"
LONGEST_S = 60
SERVE = (sys.executable, "-m", "halfpail")


@dataclass(frozen=True)
class Answer:
    """What came back for a page or a form."""

    status: int
    page: str
    cookie: str = ""


@dataclass(frozen=True)
class Served:
    """A server of our own: the process, and a line to it."""

    pid: int
    line: HTTPConnection

    def ask(self, address: str) -> Answer:
        """A page."""
        return self._answer("GET", address)

    def note(self, words: str) -> Answer:
        """A note written into the diary: the form fetched, filled in and sent."""
        form = self.ask(NOTE)
        hidden = dict(reversed(HIDDEN.findall(form.page)))
        told = {"on": "2026-10-01", "note": words, "bed": "", **hidden}
        kind = {"Content-Type": "application/x-www-form-urlencoded", "Cookie": form.cookie}
        return self._answer("POST", NOTE, urlencode(told), kind)

    def _answer(
        self, way: str, address: str, body: str | None = None, heads: Mapping[str, str] = {}
    ) -> Answer:
        self.line.request(way, address, body=body, headers=dict(heads))
        answer = self.line.getresponse()
        cookie = (answer.getheader("Set-Cookie") or "").partition(";")[0]
        return Answer(answer.status, answer.read().decode(), cookie)


@contextmanager
def served(
    folder: Path, under: tuple[str, ...] = (), by: tuple[str, ...] = SERVE
) -> Iterator[Served]:
    """A server on a folder, perhaps under another command; ended when this is left."""
    command = [*under, *by, "serve", "--no-browser", "--folder", str(folder)]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
    ) as server:
        assert server.stdout
        said = server.stdout.readline()
        address = next((one for one in said.split() if one.startswith("http")), "")
        line = HTTPConnection(urlsplit(address).netloc or "127.0.0.1:1", timeout=LONGEST_S)
        try:
            assert address, "the server ended before it said where it is"
            yield Served(server.pid, line)
        finally:
            line.close()
            server.terminate()


def notes(folder: Path) -> list[str]:
    """The diary of a file that is whole, a row at a time."""
    assert damage(folder / FILE_NAME) == []
    with closing(sqlite3.connect(folder / FILE_NAME)) as store:
        rows = store.execute("SELECT * FROM storage_diaryline ORDER BY 1").fetchall()
    return [str(row) for row in rows]
