"""Paper in a real browser: a mix kept, its card printed with and without scripts, no barrier."""

from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.browser.conftest import FACES, Visit, begin, served, visit
from tests.browser.test_every_page import NARROW, OPEN_ALL, RULES
from tests.documents.papers import text_of

VIEWER = ("chrome-extension:", "chrome:", "about:")
PAGES = ("paper", "paper/mixes/1", "paper/mixes/1/pail-labels.pdf?maker=A+club&paper=A4&size=A7")


@pytest.fixture(scope="module")
def home(tmp_path_factory, browser) -> Iterator[str]:
    """A server with the sample garden and a kept mix."""
    with served(tmp_path_factory.mktemp("paper")) as address:
        begin(browser, address, "Look at the sample garden")
        page = browser.new_page()
        page.goto(f"{address}mixes?scoops+of+Blood+meal=2&scoops+of+Bone+meal=1")
        page.get_by_label("Keep this mix as").fill("Greens")
        page.get_by_role("button", name="Keep the mix").click()
        page.get_by_role("link", name="Greens", exact=True).wait_for()
        page.close()
        yield address


@pytest.fixture(params=FACES, ids=str)
def visited(request, browser, home) -> Iterator[Visit]:
    yield from visit(browser, home, request.param)


def test_a_card_is_asked_for_and_printed(visited):
    page = visited.page
    visited.go("mixes?scoops+of+Blood+meal=2&scoops+of+Bone+meal=1")
    page.get_by_role("link", name="Print Greens").click()
    page.get_by_label("Paper in the printer").select_option("A4")
    page.get_by_label("Show prices").uncheck()
    with page.expect_request("**/mixing-card.pdf*") as asked:
        page.get_by_role("button", name="Mixing card").click()
    # The browser's own viewer shows the document; what it is made of is no part of ours.
    page.wait_for_url("**/mixing-card.pdf*")
    page.goto("about:blank")
    visited.elsewhere[:] = [one for one in visited.elsewhere if not one.startswith(VIEWER)]
    answer = page.request.get(asked.value.url)
    assert answer.ok and answer.headers["content-type"] == "application/pdf"
    text = text_of(answer.body())
    assert "Greens" in text and "Price" not in text


@pytest.mark.parametrize("address", PAGES)
def test_there_is_no_barrier_and_nothing_scrolls_sideways(visited, address):
    visited.go(address)
    visited.page.evaluate(OPEN_ALL)
    found = Axe().run(visited.page, options=RULES) if visited.face.scripts else None
    assert found is None or found.violations_count == 0, found.generate_report()
    visited.page.set_viewport_size({"width": NARROW, "height": 700})
    assert visited.page.evaluate("document.documentElement.scrollWidth") <= NARROW
