"""Every page is a tagged PDF that any machine prints the same: bytes, structure, fonts, sizes."""

import io
import re
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pypdf
import pypdfium2
import pytest
import zxingcpp

from halfpail.application.page import Page, Paper
from halfpail.documents.press import TEMPLATES, TypstPress, template_of
from tests.documents.papers import AT, LINK, PRESS, card, pages, printed, text_of

NAMES = (
    "mixing-card-1",
    "pail-labels-1",
    "handout-1",
    "exercise-1",
    "handout-plan",
    "exercise-plan",
    "feeding-sheet",
    "season-list",
    "buying-list",
    "shop-card",
    "card with a link",
    "large label",
    "A7 label",
)
POINTS = {Paper.LETTER: (612, 792), Paper.A4: (595.28, 841.89)}
OWN_SIZE = {"shop-card", "large label", "A7 label"}


def reader(pdf: bytes) -> Any:
    return pypdf.PdfReader(io.BytesIO(pdf))


def elements(node: Any) -> list[Any]:
    """The structure elements of a document, in reading order."""
    here = node.get_object() if isinstance(node, pypdf.generic.IndirectObject) else node
    if isinstance(here, pypdf.generic.ArrayObject):
        return [one for kid in here for one in elements(kid)]
    if not isinstance(here, pypdf.generic.DictionaryObject):
        return []
    below = elements(here["/K"]) if "/K" in here else []
    return [here, *below] if "/S" in here else below


def test_the_names_are_all_there():
    assert set(NAMES) == set(pages())


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("name", NAMES)
def test_a_page_can_be_followed_by_a_screen_reader(name, paper):
    page = pages()[name]
    pdf = reader(printed(page, paper))
    root = pdf.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert str(root["/Lang"]).startswith("en")
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert pdf.metadata.title == page.title
    assert b"pdfuaid:part>1<" in root["/Metadata"].get_data()
    kinds = [str(one["/S"]) for one in elements(root["/StructTreeRoot"])]
    assert kinds.count("/H1") == 1
    for one in elements(root["/StructTreeRoot"]):
        if one["/S"] == "/TH":
            assert "/Scope" in str(one["/A"])
        if one["/S"] == "/Figure":
            assert one["/Alt"]


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("name", NAMES)
def test_pages_have_their_size_and_bring_their_letters_along(name, paper):
    pdf = reader(printed(pages()[name], paper))
    assert 1 <= len(pdf.pages) <= (2 if name == "shop-card" else 5)
    for page in pdf.pages:
        if name not in OWN_SIZE:
            size = tuple(float(side) for side in page.mediabox[2:])
            assert size == pytest.approx(POINTS[paper], abs=0.1)
        for font in page["/Resources"]["/Font"].values():
            below = font.get_object()["/DescendantFonts"][0].get_object()
            descriptor = below["/FontDescriptor"].get_object()
            assert {"/FontFile2", "/FontFile3"} & set(descriptor)


def test_a_mixing_card_is_one_sheet():
    for paper in Paper:
        assert len(reader(printed(pages()["card with a link"], paper)).pages) == 1


@pytest.mark.parametrize("name", NAMES)
def test_the_same_page_gives_the_same_bytes(name):
    page = pages()[name]
    once = printed(page)
    assert TypstPress().print(page, Paper.LETTER, AT) == once
    assert PRESS.print(page, Paper.LETTER, AT + timedelta(days=1)) != once


def test_a_moment_without_a_zone_is_not_taken():
    with pytest.raises(ValueError, match="time zone"):
        PRESS.print(card("a"), Paper.LETTER, datetime(2027, 4, 1))  # noqa: DTZ001 - what is tested


@pytest.mark.parametrize("paper", Paper)
def test_a_phone_reads_the_code(paper):
    """The printed sheet, drawn by one general library and read by another."""
    document = pypdfium2.PdfDocument(printed(pages()["card with a link"], paper))
    picture = document[0].render(scale=3).to_numpy()
    found = zxingcpp.read_barcodes(picture)
    assert [one.text for one in found] == [LINK.address]


def test_prices_may_stay_away():
    assert "$" in text_of(printed(pages()["buying-list"]))
    assert "Price" not in text_of(printed(card("Green mix")))


def test_every_kind_of_page_has_a_template():
    kinds = Page.__subclasses__()
    assert {kind.__name__ for kind in kinds if kind.__module__.startswith("halfpail")} >= {
        "MixingCard",
        "PailLabel",
        "FeedingSheet",
    }
    for kind in kinds:
        if kind.__module__.startswith("halfpail.application"):
            assert (TEMPLATES / template_of(kind)).is_file()


@pytest.mark.parametrize("path", sorted(TEMPLATES.iterdir()), ids=lambda path: path.name)
def test_templates_ask_for_nothing_from_outside(path: Path):
    text = path.read_text(encoding="utf-8")
    assert set(re.findall(r"#import\s+(\S+?):", text)) <= {'"house.typ"'}
    for word in ("@preview", "@local", "eval(", "read(", "http", "plugin(", "#include"):
        assert word not in text
