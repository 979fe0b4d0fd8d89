"""A garden taken along and opened elsewhere, and a mix handed on, with and without scripts."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from tests.browser.conftest import FACES, Visit, visit
from tests.browser.test_every_page import NARROW, RULES

MIX = "mixes?scoops+of+Blood+meal=2&scoops+of+Bone+meal=1"


@pytest.fixture(params=FACES[:2], ids=str)
def from_here(request, browser, sample_home) -> Iterator[Visit]:
    yield from visit(browser, sample_home, request.param)


@pytest.fixture(params=FACES[:2], ids=str)
def to_there(request, browser, own_home) -> Iterator[Visit]:
    yield from visit(browser, own_home, request.param)


def saved(at: Visit, link: str, folder: Path) -> Path:
    """What a link saves."""
    with at.page.expect_download() as download:
        at.page.get_by_role("link", name=link, exact=True).click()
    file: Path = folder / download.value.suggested_filename
    download.value.save_as(file)
    return file


def opened(at: Visit, file: Path) -> None:
    at.go("files")
    at.page.get_by_role("link", name="Open a file").click()
    at.page.get_by_label("File").set_input_files(file)
    at.page.get_by_role("button", name="Read it").click()


def test_every_kind_is_saved(from_here, tmp_path):
    from_here.go("files")
    starts = {
        "Everything as JSON": b'{\n "halfpail": "garden"',
        "Everything as a spreadsheet": b"PK",
        "Everything as CSV": b"PK",
        "Garden file": b"name = ",
    }
    for link, start in starts.items():
        assert saved(from_here, link, tmp_path).read_bytes().startswith(start)


def test_a_mix_goes_to_another_garden(from_here, to_there, tmp_path):
    mark = f"Greens {from_here.face} to {to_there.face}"[:60]
    from_here.go(MIX)
    from_here.page.get_by_label("Keep this mix as").fill(mark)
    from_here.page.get_by_role("button", name="Keep the mix").click()
    file = saved(from_here, f"Hand on {mark}", tmp_path)
    opened(to_there, file)
    page = to_there.page
    expect(page.get_by_role("heading", name=mark)).to_be_visible()
    found = Axe().run(page, options=RULES) if to_there.face.scripts else None
    assert found is None or found.violations_count == 0, found.generate_report()
    page.set_viewport_size({"width": NARROW, "height": 700})
    if to_there.face.scripts:
        assert page.evaluate("document.documentElement.scrollWidth") <= NARROW
    page.get_by_role("button", name="Keep this mix").click()
    expect(page.get_by_role("link", name=mark, exact=True)).to_be_visible()
