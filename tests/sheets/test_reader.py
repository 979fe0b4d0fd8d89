"""Honest spreadsheets of every kind come out as the plain cells a person sees in them."""

import subprocess
import sys
from datetime import date
from io import BytesIO

import pytest
import xlsxwriter

from halfpail.application.spreadsheet import Cell, CellKind, Sheet
from halfpail.findings import Refusal
from halfpail.sheets import limits, lines, reader
from halfpail.sheets.reader import LimitedReader
from tests.sheets.honest_files import ods, ods_row, packed, xlsx_of

EMPTY = Cell(CellKind.EMPTY)


def text(words: str) -> Cell:
    return Cell(CellKind.TEXT, words)


def number(words: str) -> Cell:
    return Cell(CellKind.NUMBER, words)


def sheets(raw: bytes) -> tuple[Sheet, ...]:
    return LimitedReader().read(raw, "garden").sheets


def only(raw: bytes) -> Sheet:
    (sheet,) = sheets(raw)
    return sheet


def test_numbers_days_and_yes_are_told_apart():
    rows: list[list[object]] = [
        ["name", 12.99, date(2027, 5, 12), True],
        [None, 0.1 + 0.2, "'=1+1", 25],
    ]
    (first, second) = only(xlsx_of(rows)).rows
    assert first == (
        text("name"),
        number("12.99"),
        Cell(CellKind.DAY, "2027-05-12"),
        Cell(CellKind.YES_NO, "yes"),
    )
    assert second == (EMPTY, number("0.3"), text("'=1+1"), number("25"))


@pytest.mark.parametrize("system", [False, True], ids=["1900", "1904"])
def test_a_day_is_the_same_day_in_both_systems(system):
    days = [[date(2027, 5, 12), date(1999, 12, 31)]]
    (row,) = only(xlsx_of(days, date_1904=system)).rows
    assert [cell.text for cell in row] == ["2027-05-12", "1999-12-31"]


def test_what_a_sheet_shows_in_percent_is_read_in_percent():
    file = BytesIO()
    book = xlsxwriter.Workbook(file)
    sheet = book.add_worksheet()
    for column, look in enumerate(("0.0%", "0%", "0.00", '0.0 "%"')):
        sheet.write_number(0, column, 0.041, book.add_format({"num_format": look}))
    book.close()
    (row,) = only(file.getvalue()).rows
    assert [cell.text for cell in row] == ["4.1 %", "4.1 %", "0.041", "0.041"]


def test_a_formula_without_its_result_and_an_error_are_broken():
    file = BytesIO()
    book = xlsxwriter.Workbook(file)
    sheet = book.add_worksheet("A & B")
    sheet.write_formula("A1", "=1+1", None, 2)
    sheet.write_formula("B1", "=1+1", None, "")
    sheet.write_formula("C1", "=1/0", None, "#DIV/0!")
    sheet.write_formula("D1", '="a"&"b"', None, "ab")
    book.close()
    assert only(file.getvalue()).rows == (
        (
            number("2"),
            Cell(CellKind.BROKEN, "no result"),
            Cell(CellKind.BROKEN, "error"),
            text("ab"),
        ),
    )


def test_hidden_sheets_and_merged_cells_are_told():
    file = BytesIO()
    book = xlsxwriter.Workbook(file)
    shown, hidden = book.add_worksheet("Bags"), book.add_worksheet("Old")
    shown.merge_range("A1:C1", "name")
    hidden.write("A1", "name")
    hidden.hide()
    book.close()
    first, second = sheets(file.getvalue())
    assert (first.hidden, second.hidden) == (False, True)
    assert first.notes == (
        "Cells A1 to C1 are merged; what stands there counts for the first of them alone.",
    )


def test_an_open_document_is_read_like_a_workbook():
    number_cell = "<table:table-cell office:value-type='float' office:value='12.5'/>"
    day = "<table:table-cell office:value-type='date' office:date-value='2027-05-12'/>"
    yes = "<table:table-cell office:value-type='boolean' office:boolean-value='true'/>"
    raw = ods(ods_row("bag", "price") + ods_row("Meal &amp; bone", number_cell, day, yes))
    assert only(raw).rows == (
        (text("bag"), text("price")),
        (
            text("Meal & bone"),
            number("12.5"),
            Cell(CellKind.DAY, "2027-05-12"),
            Cell(CellKind.YES_NO, "yes"),
        ),
    )


def test_percents_and_broken_formulas_of_an_open_document_are_known_where_they_stand():
    share = "<table:table-cell office:value-type='percentage' office:value='0.041'{}/>"
    twice = share.format(" table:number-columns-repeated='2'")
    torn = "<table:table-cell office:value-type='string' calcext:value-type='error'><text:p>#N/A"
    bare = "<table:table-cell table:formula='of:=1+1'/>"
    raw = ods(
        ods_row("a", share.format(""), f"{torn}</text:p></table:table-cell>")
        + "<table:table-row table:number-rows-repeated='2'><table:table-cell/></table:table-row>"
        + ods_row(twice, bare, "b")
    )
    rows = only(raw).rows
    assert [cell.text for cell in rows[0]] == ["a", "4.1 %", "error"]
    assert rows[1:3] == ((), ())
    assert [cell.text for cell in rows[3]] == ["4.1 %", "4.1 %", "no result", "b"]


COMMAS = lines.AS_COMMAS
LINES = {
    "plain": (b"bag,price\nMeal,12.5\n", ("Meal", "12.5"), ()),
    "with a mark": (b"\xef\xbb\xbfbag,price\nMeal,12.5", ("Meal", "12.5"), ()),
    "old ends of line": (b"bag,price\rMeal,12.5\r", ("Meal", "12.5"), ()),
    "UTF-16": ("bag,price\nMähl,12.5".encode("utf-16"), ("Mähl", "12.5"), ()),
    "UTF-16, big end first": (
        b"\xfe\xff" + "bag,price\nMähl,12.5".encode("utf-16-be"),
        ("Mähl", "12.5"),
        (),
    ),
    "UTF-16 without its mark": ("bag,price\nMeal,12.5".encode("utf-16-le"), ("Meal", "12.5"), ()),
    "Latin-1": ("bag,price\nMähl,12.5".encode("latin-1"), ("Mähl", "12.5"), (lines.AS_WINDOWS,)),
    "Windows quotes": (b"bag,price\n\x93Meal\x94,5", ("“Meal”", "5"), (lines.AS_WINDOWS,)),
    "semicolons": (b"bag;price\nMeal;12,50\nBone;3", ("Meal", "12.50"), (COMMAS,)),
    "semicolons, points": (b"bag;price\nMeal;12.5\nBone;1,250", ("Meal", "12.5"), ()),
    "tabs": (b"bag\tprice\nMeal\t12.5 lb", ("Meal", "12.5 lb"), ()),
    "its separator told": (b"sep=;\r\nbag;price\r\nMeal;5", ("Meal", "5"), ()),
    "commas in quotes": (b'bag,price\n"Meal, fine",5', ("Meal, fine", "5"), ()),
    "lines in quotes": (b'bag,price\n"4-4-4\nmeal","5"', ("4-4-4\nmeal", "5"), ()),
    "quotes in quotes": (b'bag,price\n"the ""best""",5', ('the "best"', "5"), ()),
    "a comma with a unit": (b"bag;weight\nMeal;2,5 kg", ("Meal", "2.5 kg"), (COMMAS,)),
}


@pytest.mark.parametrize("name", LINES)
def test_lines_are_read_in_whatever_way_they_were_saved(name):
    raw, expected, notes = LINES[name]
    sheet = only(raw)
    assert tuple(cell.text for cell in sheet.rows[1]) == expected
    assert sheet.notes == notes


def test_a_zip_of_lines_is_a_sheet_for_each_file():
    raw = packed({"bags.csv": "bag,label\nMeal,4-4-4\n", "soil-tests.csv": "bed,pH\nNorth,6.3\n"})
    assert [sheet.name for sheet in sheets(raw)] == ["Bags", "Soil tests"]


@pytest.mark.parametrize(
    "act",
    ["open('bags.csv', 'w')", "open(__import__('os').devnull)", "__import__('socket').socket()"],
)
@pytest.mark.skipif(sys.platform == "win32", reason="the machine has no such limits")
def test_the_child_can_open_no_file_and_no_connection(act):
    code = f"import socket; from halfpail.sheets import child; child.give_up_rights(); {act}"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert "Too many open files" in done.stderr or "OSError" in done.stderr


def test_a_child_that_does_not_come_back_is_given_up(monkeypatch):
    monkeypatch.setattr(limits, "MOST_SECONDS", 0.2)
    monkeypatch.setattr(
        reader, "command", lambda: [sys.executable, "-c", "import time; time.sleep(60)"]
    )
    with pytest.raises(Refusal, match="The file takes too long to read"):
        LimitedReader().read(b"name", "garden")


def test_a_child_that_broke_is_a_bug_and_no_fault_of_the_file(monkeypatch):
    monkeypatch.setattr(reader, "command", lambda: [sys.executable, "-c", "1/0"])
    with pytest.raises(RuntimeError):
        LimitedReader().read(b"name", "garden")
