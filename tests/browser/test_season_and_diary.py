"""The sample garden through its year in a real browser: a plan kept, a batch, a feeding, undone."""

from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from tests.browser.conftest import FACES, Visit, visit
from tests.browser.test_every_page import NARROW, OPEN_ALL, RULES

# A plan takes some seconds, and a busy machine longer: what is waited for comes in the end.
PATIENCE_MS = 240_000
PAGES = (
    *("season?why=1", "season/1", "season/compare?one=1&other=2", "next", "diary", "season"),
    *(f"diary/write/{kind}" for kind in ("batch", "feeding", "purchase", "harvest", "note")),
)


@pytest.fixture(params=FACES[:2], ids=str)
def year(request, browser, sample_home) -> Iterator[Visit]:
    yield from visit(browser, sample_home, request.param)


@pytest.fixture
def after(browser, sample_home) -> Iterator[Visit]:
    yield from visit(browser, sample_home, FACES[0])


def test_a_plan_is_watched_kept_and_done(year):
    """With scripts the plan comes by itself; without them the page asks for itself again."""
    page, name = year.page, f"Plan {'with' if year.face.scripts else 'without'}"
    year.go("season")
    page.get_by_label("one mix").check()
    page.get_by_role("button", name="Plan the season").click()
    keep = page.get_by_label("Keep this plan as")
    expect(keep).to_be_visible(timeout=PATIENCE_MS)
    expect(page.locator("#job")).to_contain_text("better is possible")
    keep.fill(name)
    page.get_by_role("button", name="Keep this plan").click()
    expect(page.get_by_role("heading", name="What to do when")).to_be_visible(timeout=PATIENCE_MS)

    year.go("next")
    page.get_by_role("link", name="Done: Stir Mix 1").click()
    page.get_by_role("button", name="Write it down").click()
    expect(page.locator("#main")).to_contain_text(f"Mix 1, {name}")
    year.go("next")
    expect(page.get_by_role("link", name="Done: Stir Mix 1")).to_have_count(0)
    page.get_by_role("link", name="Done: Feed").first.click()
    page.get_by_role("button", name="Write it down").click()
    expect(page.get_by_role("table", name="Cost by bed")).to_be_visible()
    page.get_by_role("button", name="Take back").first.click()
    expect(page.locator("#undone summary")).to_be_visible()


@pytest.mark.parametrize("address", PAGES)
def test_axe_finds_nothing_and_nothing_scrolls_sideways(after, address):
    after.go(address)
    after.page.evaluate(OPEN_ALL)
    found = Axe().run(after.page, options=RULES)
    assert found.violations_count == 0, found.generate_report()
    after.page.set_viewport_size({"width": NARROW, "height": 700})
    assert after.page.evaluate("document.documentElement.scrollWidth") <= NARROW
