"""Take pictures of the pages of the sample garden, on phone and desk: `take_pictures.py FOLDER`.

One is dark, and one as a printer would have it. What is longer than a few screens is cut off.
"""

import io
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from PIL import Image
from playwright.sync_api import Browser, Page, sync_playwright

from tests.browser.conftest import CHROMIUM, QUIET, begin, served
from tests.browser.test_season_and_diary import PATIENCE_MS
from tests.web.asking import BLOOD, STARTER, first, mix

COLOURS = 48
SIZES = {"phone": (375, 1500), "desk": (1280, 1500)}
PAGES = {
    "first-answer": first(STARTER, BLOOD),
    "next": "/next",
    "bags": "/bags",
    "bag": "/bags/1",
    "beds": "/beds",
    "bed": "/beds/1",
    "mixes": mix(Blood_meal=2, Bone_meal=1, Sulfate_of_potash=1) + "&wish=5-3-3",
    "recipe": "/mixes/recipe?purpose=fruiting",
    "season": "/season",
    "season-kept": "/season/1",
    "diary": "/diary",
    "diary-feeding": "/diary/write/feeding",
    "paper": "/paper",
    "files": "/files",
    "spreadsheet": "/spreadsheet",
    "settings": "/settings",
    "sources": "/sources",
}
DARK, PRINTED = "mixes", "season-kept"


def main(folder: Path) -> None:
    """Make a garden's year, and take every picture."""
    folder.mkdir(parents=True, exist_ok=True)
    with TemporaryDirectory() as place, served(Path(place)) as home, sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=CHROMIUM, args=list(QUIET))
        begin(browser, home, "Look at the sample garden")
        live_a_year(browser.new_page(), home)
        for size in SIZES:
            for name, address in PAGES.items():
                take(browser, home + address[1:], folder / f"{name}-{size}.png", size)
        dark, printed = home + PAGES[DARK][1:], home + PAGES[PRINTED][1:]
        take(browser, dark, folder / f"{DARK}-phone-dark.png", "phone", scheme="dark")
        take(browser, printed, folder / f"{PRINTED}-printed.png", "desk", media="print")
        browser.close()


def live_a_year(page: Page, home: str) -> None:
    """Plan with two mixes, keep the plan, stir, feed and buy."""
    page.goto(home + "season")
    page.get_by_label("two mixes").check()
    page.get_by_role("button", name="Plan the season").click()
    keep = page.get_by_label("Keep this plan as")
    keep.wait_for(timeout=PATIENCE_MS)
    keep.fill("Season 2027")
    page.get_by_role("button", name="Keep this plan").click()
    for done in ("Done: Stir Mix 1", "Done: Feed", "Done: Feed"):
        page.goto(home + "next")
        page.get_by_role("link", name=done).first.click(timeout=PATIENCE_MS)
        page.get_by_role("button", name="Write it down").click()
        page.get_by_role("heading", name="Diary").wait_for()
    page.close()


def take(
    browser: Browser,
    address: str,
    to: Path,
    size: str,
    scheme: str = "light",
    media: str = "screen",
) -> None:
    """One picture, in few colours."""
    width, most = SIZES[size]
    page = browser.new_page(
        viewport={"width": width, "height": 800},
        color_scheme="dark" if scheme == "dark" else "light",
    )
    page.emulate_media(media="print" if media == "print" else "screen")
    page.goto(address)
    height = page.evaluate("document.documentElement.scrollHeight")
    shot = page.screenshot(
        full_page=True,
        clip={"x": 0, "y": 0, "width": width, "height": min(height, most)},
    )
    page.close()
    picture = Image.open(io.BytesIO(shot)).convert("RGB")
    picture.quantize(COLOURS, dither=Image.Dither.NONE).save(to, optimize=True)
    print(f"{to} {to.stat().st_size / 1000:.0f} kB")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
