"""A running server and Debian's own Chromium, once for all browser tests."""

import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

CHROMIUM = "/usr/bin/chromium"
# Without the background flags the browser looks for its maker's hosts at every start.
QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


# A refused page, and a question put aside for a newer one, are logged too.
HARMLESS = re.compile(r"status of 4\d\d|htmx:(?:afterRequest|sendAbort)")


@dataclass(frozen=True)
class Face:
    """How wide, how light, and with or without scripts."""

    width: int
    scheme: str
    scripts: bool

    def __str__(self) -> str:
        return f"{self.width} {self.scheme} {'with' if self.scripts else 'without'} scripts"


# Each value of one meets each value of another once: all pairs in four faces.
FACES = (
    Face(375, "light", True),
    Face(375, "dark", False),
    Face(1280, "light", False),
    Face(1280, "dark", True),
)


@dataclass
class Visit:
    """A page in one face, and what a browser complained of or asked of others."""

    page: Page
    home: str
    face: Face
    complaints: list[str] = field(default_factory=list)
    elsewhere: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.page.on("console", lambda said: self.complaints.append(said.text))
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.page.on("request", self._asked)

    def _asked(self, request) -> None:
        if not request.url.startswith((self.home, "data:")):
            self.elsewhere.append(request.url)

    def go(self, address: str) -> None:
        self.page.goto(self.home + address.lstrip("/"))


@pytest.fixture(scope="session")
def browser_type_launch_args() -> dict[str, object]:
    return {"executable_path": CHROMIUM, "args": list(QUIET)}


@pytest.fixture(scope="session")
def home(tmp_path_factory) -> Iterator[str]:
    """The address of a server of our own, on a new and empty garden."""
    with served(tmp_path_factory.mktemp("garden with a space é")) as address:
        yield address


@pytest.fixture(scope="module")
def own_home(tmp_path_factory, browser) -> Iterator[str]:
    """A server with an empty garden, for one file of tests."""
    with served(tmp_path_factory.mktemp("own")) as address:
        begin(browser, address, "Start with an empty garden")
        yield address


@pytest.fixture(scope="module")
def sample_home(tmp_path_factory, browser) -> Iterator[str]:
    """A server with the sample garden, for one file of tests."""
    with served(tmp_path_factory.mktemp("sample")) as address:
        begin(browser, address, "Look at the sample garden")
        yield address


def begin(browser: Browser, address: str, button: str) -> None:
    """The first visit to a server: one of the gardens it offers."""
    page = browser.new_page()
    page.goto(address + "garden")
    page.get_by_role("button", name=button).click()
    page.close()


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """The address of a server on this folder; it ends with the block."""
    command = [sys.executable, "-m", "halfpail", "serve", "--no-browser", "--folder", str(folder)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server:
        assert server.stdout
        words = server.stdout.readline().split()
        try:
            yield next(word for word in words if word.startswith("http://127.0.0.1:"))
        finally:
            server.terminate()
            server.stdout.close()


def visit(browser: Browser, home: str, face: Face) -> Iterator[Visit]:
    context = browser.new_context(
        viewport={"width": face.width, "height": 800},
        color_scheme="dark" if face.scheme == "dark" else "light",
        java_script_enabled=face.scripts,
    )
    context.set_default_timeout(5000)
    visited = Visit(context.new_page(), home, face)
    yield visited
    context.close()
    assert [one for one in visited.complaints if not HARMLESS.search(one)] == []
    assert visited.elsewhere == []


@pytest.fixture(params=FACES, ids=str)
def at(request, browser, home) -> Iterator[Visit]:
    yield from visit(browser, home, request.param)


@pytest.fixture
def on_phone(browser, home) -> Iterator[Visit]:
    yield from visit(browser, home, FACES[0])


@pytest.fixture(params=[FACES[0], FACES[3]], ids=str)
def scripted(request, browser, home) -> Iterator[Visit]:
    yield from visit(browser, home, request.param)
