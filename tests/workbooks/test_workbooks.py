"""What leaves as a spreadsheet or as CSV: numbers, days, units in the heads, and no formula."""

import csv
import re
from dataclasses import replace
from datetime import date
from fractions import Fraction
from io import BytesIO, StringIO
from typing import Any
from zipfile import ZipFile

import pytest
from python_calamine import CalamineWorkbook

from halfpail.application.formula_guard import guarded, unguarded
from halfpail.application.garden_tables import TABLES
from halfpail.application.sheet_cells import short
from halfpail.application.table_files import book_of
from halfpail.application.whole_garden import WholeGarden, without_text
from halfpail.domain.diary import Bought, Noted
from halfpail.quantities.units import System
from halfpail.wiring import services

ON = date(2027, 5, 1)
ACTING = ["=1+1", "=cmd|' /C calc'!A0", "+1", "-1+2", "@SUM(A1)", "\t=1", "\r=1", " =1", "＝1"]
HARMLESS = ["4-4-4", "a=b", "'tis", "1e5", "", "meal", "5 - 3"]


def garden() -> WholeGarden:
    entry = without_text(services().read_sample_garden())
    acting = tuple(Noted(on=ON, note=text) for text in ACTING)
    bought = Bought(
        on=ON, bag=entry.bags[0].name, bags=2, bag_kg=Fraction(10), paid=Fraction("23.98")
    )
    return WholeGarden(garden=entry, diary=(bought, *acting))


@pytest.fixture(scope="module")
def xlsx() -> bytes:
    return services().spreadsheets.write(book_of(garden(), ON))


def sheet(data: bytes, name: str) -> list[list[Any]]:
    return CalamineWorkbook.from_filelike(BytesIO(data)).get_sheet_by_name(name).to_python()


def column(data: bytes, name: str, head: str) -> list[Any]:
    heads, *rows = sheet(data, name)
    return [row[heads.index(head)] for row in rows]


def test_numbers_and_days_are_no_text(xlsx):
    assert column(xlsx, "Bags", "weight of a full bag (lb)")[0] == 25.0
    assert column(xlsx, "Bags", "price of a full bag (USD)")[0] == 11.99
    assert column(xlsx, "Diary", "day")[0] == ON
    assert column(xlsx, "Diary", "paid (USD)")[0] == 23.98
    assert isinstance(column(xlsx, "Beds", "size (sq ft)")[0], float)


def test_a_metric_garden_has_metric_heads():
    entry = garden().garden
    liked = replace(entry.preferences, units=System.METRIC, currency="EUR")
    whole = WholeGarden(garden=replace(entry, preferences=liked))
    data = services().spreadsheets.write(book_of(whole, ON))
    assert column(data, "Bags", "weight of a full bag (kg)")[0] == 11.33980925
    assert "price of a full bag (EUR)" in sheet(data, "Bags")[0]
    assert "size (m²)" in sheet(data, "Beds")[0]


def test_the_first_sheet_tells_of_the_others_and_of_nobody(xlsx):
    about = sheet(xlsx, "About")
    assert ["written on", "2027-05-01", ""] in about
    assert [row[0] for row in about[-len(TABLES) :]] == [table.name for table in TABLES]
    core = ZipFile(BytesIO(xlsx)).read("docProps/core.xml").decode()
    assert "<dc:creator></dc:creator>" in core
    assert "2027-05-01" in core
    app = ZipFile(BytesIO(xlsx)).read("docProps/app.xml").decode()
    assert "<Application>Halfpail</Application>" in app


def test_every_head_stays_in_sight(xlsx):
    packed = ZipFile(BytesIO(xlsx))
    for at in range(len(TABLES) + 1):
        text = packed.read(f"xl/worksheets/sheet{at + 1}.xml").decode()
        assert '<pane xSplit="1" ySplit="1"' in text
        assert "<f>" not in text
        assert "hyperlink" not in text


def test_text_that_acts_is_made_harmless(xlsx):
    notes = column(xlsx, "Diary", "note")[1:]
    assert [unguarded(note) for note in notes] == ACTING
    assert all(note.startswith("'") for note in notes)
    packed = ZipFile(BytesIO(services().csv_zips.write(book_of(garden(), ON))))
    for name in packed.namelist():
        for row in csv.reader(StringIO(packed.read(name).decode("utf-8-sig"), newline="")):
            assert not [cell for cell in row if re.match(r"\s*[=+\-@\t\r]", cell)]


@pytest.mark.parametrize("text", [*ACTING, *HARMLESS, *map(guarded, ACTING), "''", "'", "''=x"])
def test_a_guard_comes_off_again(text):
    assert unguarded(guarded(text)) == text


@pytest.mark.parametrize("text", HARMLESS)
def test_harmless_text_stays_as_it_is(text):
    assert guarded(text) == text


def test_csv_is_whole_and_always_the_same():
    book = book_of(garden(), ON)
    data = services().csv_zips.write(book)
    packed = ZipFile(BytesIO(data))
    assert packed.testzip() is None
    assert len(packed.namelist()) == len(TABLES) + 1
    assert {one.date_time for one in packed.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    bags = packed.read("bags.csv")
    assert bags.startswith(b"\xef\xbb\xbfbag,label,")
    assert b"\r\n" in bags
    assert services().csv_zips.write(book) == data


@pytest.mark.parametrize(
    ("value", "cell"),
    [
        (Fraction(0), "0"),
        (Fraction(1, 3), "0.333333333333"),
        (Fraction(200000, 3), "66666.6666667"),
        (Fraction(1, 3_000_000), "0.000000333333333333"),
        (Fraction("9999999999.996"), "10000000000"),
        (Fraction(123456789012345), "123456789012000"),
    ],
)
def test_a_cell_holds_twelve_digits(value, cell):
    assert short(value) == Fraction(cell)
