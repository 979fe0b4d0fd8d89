"""A garden of one's own in a real browser: a label pasted, a bed with its soil test, a mix kept."""

from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from tests.browser.conftest import FACES, Visit, visit
from tests.browser.test_every_page import NARROW, OPEN_ALL, RULES

LABEL = """Leafy meal 7-2-3
Total Nitrogen (N) 7.0%
  1.4% Water Soluble Nitrogen
  5.6% Water Insoluble Nitrogen
Available Phosphate (P2O5) 2.0%
Soluble Potash (K2O) 3.0%
Derived from: feather meal, soybean meal, bone meal, sulfate of potash"""
SHEET = {
    "Method": "Mehlich-3 ICP",
    "Phosphorus, P": "48",
    "Potassium, K": "88",
    "Soil pH": "5.4",
    "Kind of buffer": "SMP",
    "Buffer pH": "6.5",
}
PAGES = (
    *("garden", "bags", "bags?by=usable", "bags/new", "bags/new?material=blood_meal", "bags/1"),
    *("beds", "beds/new", "beds/1", "beds/9", "settings", "garden/import", "files", "mixes"),
)


@pytest.fixture(params=FACES[:2], ids=str)
def own(request, browser, own_home) -> Iterator[Visit]:
    yield from visit(browser, own_home, request.param)


@pytest.fixture
def sample(browser, sample_home) -> Iterator[Visit]:
    yield from visit(browser, sample_home, FACES[0])


def test_a_bag_a_bed_and_a_mix(own):
    """The same steps with and without scripts; what is understood comes beside, or after saving."""
    page, mark = own.page, "with" if own.face.scripts else "without"
    own.go("bags/new")
    page.get_by_label("What you call it").fill(f"Leafy {mark}")
    page.get_by_label("Label", exact=True).fill(LABEL)
    page.get_by_label("Weight of a full bag").fill("20")
    page.get_by_label("Price of a full bag").fill("14.99")
    if own.face.scripts:
        page.get_by_label("Price of a full bag").blur()
        expect(page.locator("#understood")).to_contain_text("7-2-3")
        expect(page.locator("#id_weight_error")).to_have_text("20 lb = 9.07 kg")
        expect(page.locator("#understood")).to_contain_text("$0.75 per lb")
        page.reload()
        expect(page.get_by_label("Weight of a full bag")).to_have_value("20")
    page.get_by_role("button", name="Add the bag").click()
    expect(page.get_by_role("link", name=f"Leafy {mark}")).to_be_visible()
    expect(page.locator("table")).to_contain_text("$0.75")

    own.go("beds/new")
    page.get_by_label("What you call it").fill(f"North {mark}")
    page.get_by_label("Size").fill("4 x 30 ft")
    page.get_by_label("Crop", exact=True).first.fill("tomato")
    for label, figure in SHEET.items():
        page.get_by_label(label).first.fill(figure)
    page.get_by_role("button", name="Add the bed").click()
    page.get_by_role("link", name=f"North {mark}").click()
    expect(page.locator("#understood")).to_contain_text("120 sq ft with tomatoes")
    expect(page.locator("#understood")).to_contain_text("The soil has pH 5.4")
    page.locator("#need-working summary").click()
    expect(page.locator("#need-working ol")).to_be_visible()

    own.go("mixes")
    page.get_by_role("button", name=f"One scoop of Leafy {mark}").click()
    expect(page.locator("#words")).to_contain_text("7-2-3 by weight")
    page.get_by_label("Keep this mix as").fill(f"Greens {mark}")
    page.get_by_role("button", name="Keep the mix").click()
    expect(page.get_by_role("link", name=f"Greens {mark}", exact=True)).to_be_visible()


def test_a_fault_takes_the_focus_and_the_entry_stays(own):
    own.go("bags/new")
    own.page.get_by_label("What you call it").fill("Wrong")
    own.page.get_by_label("Label", exact=True).fill("99-99-99")
    own.page.get_by_role("button", name="Add the bag").click()
    expect(own.page.locator("section#told")).to_be_focused()
    expect(own.page.get_by_label("Label", exact=True)).to_have_value("99-99-99")


@pytest.mark.parametrize("address", PAGES)
def test_axe_finds_nothing_and_nothing_scrolls_sideways(sample, address):
    sample.go(address)
    sample.page.evaluate(OPEN_ALL)
    found = Axe().run(sample.page, options=RULES)
    assert found.violations_count == 0, found.generate_report()
    sample.page.set_viewport_size({"width": NARROW, "height": 700})
    assert sample.page.evaluate("document.documentElement.scrollWidth") <= NARROW
