"""A year from nothing in a real browser: four labels, two tested beds, a plan, a pail, a bed fed.

What is done with dirty hands, from the list of what is next to taking it back, is done here with
the keyboard alone.
"""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.conftest import FACES, Visit, begin, served, visit
from tests.browser.test_season_and_diary import PATIENCE_MS

LABELS = {
    "Even meal": """Even meal 5-4-4
Total Nitrogen (N) 5.0%
  0.8% Water Soluble Nitrogen
  4.2% Water Insoluble Nitrogen
Available Phosphate (P2O5) 4.0%
Soluble Potash (K2O) 4.0%
Calcium (Ca) 5.0%
Derived from: feather meal, bone meal, sulfate of potash, alfalfa meal""",
    "Red meal": """Red meal 12-0-0
Total Nitrogen (N) 12.0%
  12.0% Water Insoluble Nitrogen
Derived from: blood meal""",
    "White meal": """White meal 3-15-0
Total Nitrogen (N) 3.0%
Available Phosphate (P2O5) 15.0%
Calcium (Ca) 20.0%
Derived from: bone meal""",
    "Potash salt": """Potash salt 0-0-50
Soluble Potash (K2O) 50.0%
Sulfur (S) 17.0%
Derived from: sulfate of potash""",
}
PRICES = {
    "Even meal": ("25", "25.00"),
    "Red meal": ("5", "8.00"),
    "White meal": ("8", "6.00"),
    "Potash salt": ("5", "5.00"),
}
# Typed as a laboratory prints them: one bed short of potassium, the other rich in it.
BEDS = {
    "Sunny side": ("4 x 30 ft", "tomato", {"Phosphorus, P": "190", "Potassium, K": "15"}),
    "By the fence": ("5 x 20 ft", "lettuce", {"Phosphorus, P": "20", "Potassium, K": "400"}),
}


MOST_TABS = 60


@pytest.fixture(params=FACES, ids=str)
def alone(request, browser, tmp_path) -> Iterator[Visit]:
    """A visit to an empty garden of its own."""
    with served(tmp_path) as address:
        begin(browser, address, "Start with an empty garden")
        yield from visit(browser, address, request.param)


def test_the_whole_story(alone):
    for name, label in LABELS.items():
        paste_label(alone, name, label)
    for name in BEDS:
        type_bed(alone, name)
    tell_frost_dates(alone)
    plan_with_two_mixes(alone)
    stir(alone)
    feed(alone)
    undo(alone.page)


def paste_label(at: Visit, name: str, label: str) -> None:
    page, (weight, price) = at.page, PRICES[name]
    at.go("bags/new")
    page.get_by_label("What you call it").fill(name)
    page.get_by_label("Label", exact=True).fill(label)
    page.get_by_label("Weight of a full bag").fill(weight)
    page.get_by_label("Price of a full bag").fill(price)
    page.get_by_role("button", name="Add the bag").click()
    expect(page.get_by_role("link", name=name)).to_be_visible()


def type_bed(at: Visit, name: str) -> None:
    page, (size, crop, test) = at.page, BEDS[name]
    at.go("beds/new")
    page.get_by_label("What you call it").fill(name)
    page.get_by_label("Size").fill(size)
    page.get_by_label("Crop", exact=True).first.fill(crop)
    page.get_by_label("Method").first.fill("Mehlich-3 ICP")
    for line, figure in test.items():
        page.get_by_label(line).first.fill(figure)
    page.get_by_role("button", name="Add the bed").click()
    expect(page.get_by_role("link", name=name)).to_be_visible()


def tell_frost_dates(at: Visit) -> None:
    at.go("settings")
    at.page.get_by_label("last frost of spring").fill("2027-05-10")
    at.page.get_by_label("first frost of autumn").fill("2027-10-01")
    at.page.get_by_role("button", name="Save").click()
    expect(at.page.get_by_role("status")).to_contain_text("kept")


def plan_with_two_mixes(at: Visit) -> None:
    page = at.page
    at.go("season")
    page.get_by_label("two mixes").check()
    page.get_by_role("button", name="Plan the season").click()
    keep = page.get_by_label("Keep this plan as")
    expect(keep).to_be_visible(timeout=PATIENCE_MS)
    keep.fill("This year")
    page.get_by_role("button", name="Keep this plan").click()
    expect(page.get_by_role("heading", name="What to do when")).to_be_visible(timeout=PATIENCE_MS)
    expect(page.locator("#main")).to_contain_text("Stir 2 mixes. Feed 2 of 2 beds")


def stir(at: Visit) -> None:
    at.go("next")
    press(at.page.get_by_role("link", name="Done: Stir Mix 2"))
    press(at.page.get_by_role("button", name="Write it down"))
    expect(at.page.locator("#main")).to_contain_text("8 scoops Red meal, 2 scoops Potash salt")


def feed(at: Visit) -> None:
    """One scoop of ten: 1.3 oz of potash salt, half of it K2O, on 120 square feet."""
    expect_row(at.page, "0.00", "0.18", "0.18", "0.00", "0.40", "0.40")
    at.go("next")
    press(at.page.get_by_role("link", name="Done: Feed Sunny side: 1 scoop of Mix 2"))
    press(at.page.get_by_role("button", name="Write it down"))
    expect(at.page.locator("#main")).to_contain_text("Mix 2, This year: 3 lb 8 oz")
    expect_row(at.page, "0.02", "0.18", "0.16", "0.06", "0.40", "0.34")
    expect(at.page.get_by_role("table", name="Cost by bed")).to_contain_text("Sunny side")


def undo(page: Page) -> None:
    press(page.get_by_role("button", name="Take back").first)
    expect(page.get_by_text("Taken back: 1")).to_be_visible()
    expect(page.locator("#main")).to_contain_text("Mix 2, This year: 3 lb 14 oz")
    expect_row(page, "0.00", "0.18", "0.18", "0.00", "0.40", "0.40")


def expect_row(page: Page, *n_and_k: str) -> None:
    """What the sunny bed was given, what it should get and what is left of that, of N and K2O."""
    totals = page.get_by_role("table", name="Each bed against its need")
    row = totals.get_by_role("row").filter(has_text="Sunny side").get_by_role("cell")
    for number, text in zip((0, 1, 2, 7, 8, 9), n_and_k, strict=True):
        expect(row.nth(number)).to_have_text(text)


def press(wanted: Locator) -> None:
    """Go to a link or button with the Tab key alone, and press Enter."""
    expect(wanted).to_be_visible()
    for _ in range(MOST_TABS):
        wanted.page.keyboard.press("Tab")
        if wanted.evaluate("(one) => one === document.activeElement"):
            break
    expect(wanted).to_be_focused()
    wanted.page.keyboard.press("Enter")
