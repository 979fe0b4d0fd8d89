"""In a real browser: bags weighed while one looks on, and a phone let in by the code."""

import re
import subprocess
import sys
from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from tests.browser.conftest import FACES, Visit, served, visit
from tests.browser.test_every_page import NARROW, RULES

# Two bags are weighed in a few seconds, and on a busy machine in more.
PATIENCE_MS = 120_000
GARDEN = """
name = "Two beds"
[tools]
scoop = "2 cups"
pail = "5 gal"
[[bags]]
name = "Meal"
label = "4-3-2"
weight = "20 lb"
price = "9"
[[bags]]
name = "Blood"
label = "12-0-0"
weight = "5 lb"
price = "9"
[[beds]]
name = "East"
size = "100 sq ft"
crop = "tomato"
"""


@pytest.fixture(scope="module")
def small_home(tmp_path_factory, browser) -> Iterator[str]:
    """A server with a garden of two bags and a bed."""
    file = tmp_path_factory.mktemp("file") / "garden.toml"
    file.write_text(GARDEN, encoding="utf-8")
    with served(tmp_path_factory.mktemp("small")) as address:
        page = browser.new_page()
        page.goto(f"{address}garden/import")
        page.locator("input[type=file]").set_input_files(file)
        page.get_by_role("button", name="Read it").click()
        page.locator("section:has(#found) button").click()
        page.close()
        yield address


@pytest.fixture(params=FACES[:2], ids=str)
def small(request, browser, small_home) -> Iterator[Visit]:
    yield from visit(browser, small_home, request.param)


def check_the_page(visited: Visit) -> None:
    """What asks the page by scripts can be asked only where there are scripts."""
    if not visited.face.scripts:
        return
    found = Axe().run(visited.page, options=RULES)
    assert found.violations_count == 0, found.generate_report()
    visited.page.set_viewport_size({"width": NARROW, "height": 700})
    assert visited.page.evaluate("document.documentElement.scrollWidth") <= NARROW


def test_the_worth_of_bags_arrives_while_one_looks_on(small):
    small.go("bags")
    small.page.get_by_role("link", name="most worth here").click()
    small.page.get_by_role("button", name="Weigh the bags").click()
    heading = small.page.get_by_role("button", name="Weigh the bags again")
    expect(heading).to_be_visible(timeout=PATIENCE_MS)
    expect(small.page.locator("#listing")).to_contain_text("highest price worth paying")
    first = small.page.locator("#listing tbody tr").first
    expect(first).to_contain_text("$")
    check_the_page(small)


@pytest.fixture
def open_server(tmp_path) -> Iterator[tuple[str, str]]:
    """A server that also listens at another address, which stands for the home network."""
    words = ["serve", "--no-browser", "--folder", str(tmp_path), "--lan", "127.0.0.2"]
    command = [sys.executable, "-m", "halfpail", *words]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server:
        assert server.stdout
        said = ""
        while not (code := re.search(r"code  (\d{4} \d{4})", said)):
            said += server.stdout.readline()
        there = re.search(r"http://127\.0\.0\.2:\d+/", said)
        assert there
        try:
            yield there[0], code[1]
        finally:
            server.terminate()
            server.stdout.close()


@pytest.fixture(params=FACES[:2], ids=str)
def phone(request, browser, open_server) -> Iterator[Visit]:
    yield from visit(browser, open_server[0], request.param)


def test_a_phone_is_let_in_by_the_code(phone, open_server):
    page = phone.page
    phone.go("bags")
    expect(page.get_by_role("heading", name="Let this device in")).to_be_visible()
    check_the_page(phone)
    page.get_by_label("The code").fill("1")
    page.get_by_role("button", name="Let this device in").click()
    expect(page.locator("#told")).to_contain_text("not the code")
    page.get_by_label("The code").fill(open_server[1])
    page.get_by_role("button", name="Let this device in").click()
    expect(page.locator("nav")).to_be_attached()
    expect(page.locator("footer")).to_contain_text("travels there as plain text")
