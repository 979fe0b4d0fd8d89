"""A spreadsheet in a real browser, with and without scripts: told back, kept, taken back."""

from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from tests.browser.conftest import FACES, Visit, visit
from tests.browser.test_every_page import NARROW, OPEN_ALL, RULES

ROWS = (
    b"product,grade,weight (lb),price,anything else that stands in a long head\n"
    b"Meal,4-4-4,25,12.49,\n"
    b"A name of a bag that is rather long but still within what is allowed,3-4-4,20,9.99,x\n"
    b"Blood meal,12-0-0,5,8,\n"
    b"Bad,99-99-99,5 bushels,twelve,\n"
)


@pytest.fixture(params=FACES[:2], ids=str)
def on_sample(request, browser, sample_home) -> Iterator[Visit]:
    yield from visit(browser, sample_home, request.param)


def no_barrier(visited: Visit) -> None:
    """Nothing that axe finds, and nothing that scrolls sideways on the narrowest phone."""
    if not visited.face.scripts:
        return
    page = visited.page
    page.set_viewport_size({"width": NARROW, "height": 700})
    page.evaluate(OPEN_ALL)
    found = Axe().run(page, options=RULES)
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth") <= NARROW


def send(visited: Visit, name: str, raw: bytes) -> None:
    visited.go("spreadsheet")
    visited.page.get_by_label("Spreadsheet").set_input_files(
        {"name": name, "mimeType": "text/csv", "buffer": raw}
    )
    visited.page.get_by_role("button", name="Read it").click()


def test_a_file_goes_in_and_comes_out_again(on_sample):
    page = on_sample.page
    on_sample.go("bags")
    page.get_by_role("link", name="Add from a spreadsheet").click()
    no_barrier(on_sample)
    send(on_sample, "bags.csv", ROWS)
    expect(page.get_by_text("2 new, 1 here already, but different, 1 that cannot")).to_be_visible()
    no_barrier(on_sample)
    page.get_by_label("Where a name is here already").check()
    page.get_by_role("button", name="Look again").click()
    page.get_by_role("button", name="Keep 3 rows, leave out 1").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("It is kept")
    no_barrier(on_sample)
    page.get_by_role("button", name="Take all of it back").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("It is taken back")
    no_barrier(on_sample)


def test_what_cannot_be_used_is_told(on_sample):
    send(on_sample, "bags.xlsx", b"%PDF-1.7")
    expect(on_sample.page.get_by_text("This file is a PDF, not a spreadsheet")).to_be_visible()
    no_barrier(on_sample)
