"""What an XLSX tells of its cells beside their values: percents, and formulas without a result.

Only tags are looked for, in parts that were unpacked already; nothing here follows an entity.
"""

import re
from collections.abc import Iterator, Mapping
from html import unescape
from zipfile import ZipFile

from halfpail.sheets.packed import part

PERCENT, NO_RESULT, ERROR = "percent", "no result", "error"

_SHEET = re.compile(rb"<(?:\w+:)?sheet\b([^>]*)>")
_RELATION = re.compile(rb"<(?:\w+:)?Relationship\b([^>]*)>")
_ATTRIBUTE = re.compile(rb'([\w:]+)\s*=\s*"([^"]*)"')
_FORMAT = re.compile(rb"<(?:\w+:)?numFmt\b([^>]*)>")
_STYLES = re.compile(rb"<(?:\w+:)?cellXfs\b.*?</(?:\w+:)?cellXfs>", re.DOTALL)
_STYLE = re.compile(rb"<(?:\w+:)?xf\b([^>]*)>")
_CELL = re.compile(rb"<(?:\w+:)?c\b([^>]*?)(?:/>|>(.*?)</(?:\w+:)?c>)", re.DOTALL)
_FORMULA = re.compile(rb"<(?:\w+:)?f\b")
_VALUE = re.compile(rb"<(?:\w+:)?v>[^<]")
_ADDRESS = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
# A sign in quotes, or behind a stroke, is only shown.
_LITERAL = re.compile(r'"[^"]*"|\\.')
_OWN_PERCENTS = {"9", "10"}

Marks = Mapping[tuple[int, int], str]


def marks_of(packed: ZipFile, sheet: str) -> Marks:
    """The marked cells of one sheet by row and column from nought; none in other kinds of file."""
    name = _file_of(packed, sheet)
    if not name:
        return {}
    percents = _percent_styles(part(packed, "xl/styles.xml"))
    return dict(_marked(part(packed, name), percents))


def _marked(text: bytes, percents: frozenset[str]) -> Iterator[tuple[tuple[int, int], str]]:
    for match in _CELL.finditer(text):
        told = _attributes(match[1])
        address = _ADDRESS.fullmatch(told.get("r", ""))
        if address is None:
            continue
        at = (int(address[2]) - 1, _column(address[1]))
        inside = match[2] or b""
        if told.get("t") == "e":
            yield at, ERROR
        elif _FORMULA.search(inside) and not _VALUE.search(inside):
            yield at, NO_RESULT
        elif told.get("s") in percents and told.get("t", "n") == "n":
            yield at, PERCENT


def _column(letters: str) -> int:
    number = 0
    for letter in letters:
        number = 26 * number + ord(letter) - ord("A") + 1
    return number - 1


def _file_of(packed: ZipFile, sheet: str) -> str:
    key = next(
        (
            told.get("r:id", "")
            for told in map(_attributes, _SHEET.findall(part(packed, "xl/workbook.xml")))
            if told.get("name") == sheet
        ),
        "",
    )
    relations = _RELATION.findall(part(packed, "xl/_rels/workbook.xml.rels"))
    for told in map(_attributes, relations):
        if key and told.get("Id") == key:
            target = told.get("Target", "")
            return target.lstrip("/") if target.startswith("/") else f"xl/{target}"
    return ""


def _percent_styles(text: bytes) -> frozenset[str]:
    """The numbers of the styles that show a share as percent."""
    formats = map(_attributes, _FORMAT.findall(text))
    own = {
        one.get("numFmtId", "")
        for one in formats
        if "%" in _LITERAL.sub("", one.get("formatCode", ""))
    }
    block = _STYLES.search(text)
    styles = _STYLE.findall(block[0]) if block else []
    return frozenset(
        str(number)
        for number, told in enumerate(map(_attributes, styles))
        if told.get("numFmtId") in own | _OWN_PERCENTS
    )


def _attributes(text: bytes) -> dict[str, str]:
    pairs = _ATTRIBUTE.findall(text)
    return {
        name.decode("ascii", "replace"): unescape(value.decode("utf-8", "replace"))
        for name, value in pairs
    }
