"""Every page in every state: no barrier, no sideways scroll, nothing from elsewhere, light."""

from functools import partial

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Request

from tests.browser.conftest import FACES, visit
from tests.web.asking import EVERY_PAGE

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
RULES = {"runOnly": {"type": "tag", "values": TAGS}, "resultTypes": ["violations"]}
OPEN_ALL = "document.querySelectorAll('details').forEach((one) => { one.open = true; })"
NARROW = 320
FIRST_LOAD_BYTES = 150_000
LARGEST = [EVERY_PAGE[key] for key in ("first, answered", "mixes, summed", "sources")]


@pytest.mark.parametrize("address", EVERY_PAGE.values(), ids=EVERY_PAGE.keys())
def test_axe_finds_nothing(scripted, address):
    scripted.go(address)
    scripted.page.evaluate(OPEN_ALL)
    found = Axe().run(scripted.page, options=RULES)
    assert found.violations_count == 0, found.generate_report()


@pytest.mark.parametrize("address", EVERY_PAGE.values(), ids=EVERY_PAGE.keys())
def test_nothing_scrolls_sideways_on_a_narrow_phone(on_phone, address):
    on_phone.page.set_viewport_size({"width": NARROW, "height": 700})
    on_phone.go(address)
    on_phone.page.evaluate(OPEN_ALL)
    assert on_phone.page.evaluate("document.documentElement.scrollWidth") <= NARROW


@pytest.mark.parametrize("address", EVERY_PAGE.values(), ids=EVERY_PAGE.keys())
def test_what_is_tapped_is_large_enough(on_phone, address):
    """48 CSS pixels high, but for links inside a sentence."""
    on_phone.go(address)
    small = on_phone.page.evaluate(
        """[...document.querySelectorAll("button, .button, nav a, input:not([type=hidden])"
             + ":not([type=radio]):not([type=checkbox]), summary, .check")]
           .filter((one) => one.checkVisibility() && !one.closest("[aria-hidden]"))
           .map((one) => [one.textContent.trim() || one.id, one.getBoundingClientRect().height])
           .filter(([, height]) => height < 48 && height > 0)"""
    )
    assert small == []


@pytest.mark.parametrize("address", LARGEST)
def test_the_first_load_is_light(browser, home, address):
    for visited in visit(browser, home, FACES[0]):
        sizes: list[int] = []
        visited.page.on("requestfinished", partial(_weigh, sizes))
        visited.go(address)
        visited.page.wait_for_load_state("networkidle")
        assert 0 < sum(sizes) < FIRST_LOAD_BYTES


def _weigh(sizes: list[int], done: Request) -> None:
    sizes.append(done.sizes()["responseBodySize"])


def test_the_policy_is_kept_to(scripted):
    """A breach would be logged by the browser; that it is, is shown by making one."""
    scripted.go("/")
    scripted.page.evaluate("document.body.setAttribute('style', 'color: red')")
    assert any("Content Security Policy" in said for said in scripted.complaints)
    scripted.complaints.clear()
