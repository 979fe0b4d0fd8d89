"""What an XLSX tells of its cells beside their values: percents, and formulas without a result.

Only tags are looked for, in parts that were unpacked already; nothing here follows an entity.
"""

import re
from collections.abc import Iterator, Mapping
from html import unescape
from zipfile import ZipFile

from halfpail.sheets.packed import part

PERCENT, NO_RESULT, ERROR = "percent", "no result", "error"

# What a tag says is looked at only so far, so that no text takes longer than its length asks for.
_TAG = rb"<(?:\w{1,9}:)?%s\b([^<>]{0,999})>"
_SHEET, _RELATION = re.compile(_TAG % b"sheet"), re.compile(_TAG % b"Relationship")
_FORMAT, _STYLE = re.compile(_TAG % b"numFmt"), re.compile(_TAG % b"xf")
_STYLES = re.compile(rb"</?(?:\w{1,9}:)?cellXfs\b")
_CELL = re.compile(rb"<(?:\w{1,9}:)?c(?=[ >/])")
_CELL_ENDS = re.compile(rb"</(?:\w{1,9}:)?c>")
_ATTRIBUTE = re.compile(rb"([\w:.-]{1,40})\s?=\s?(?:\"([^\"]{0,300})\"|'([^']{0,300})')")
_MOST_OF_TAG = 999
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
    for cell in _CELL.split(text)[1:]:
        tag, _, inside = cell.partition(b">")
        told = attributes(tag[:_MOST_OF_TAG])
        address = _ADDRESS.fullmatch(told.get("r", ""))
        if address is None:
            continue
        inside = _CELL_ENDS.split(inside, maxsplit=1)[0]
        at = (int(address[2]) - 1, _column(address[1]))
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
            for told in map(attributes, _SHEET.findall(part(packed, "xl/workbook.xml")))
            if told.get("name") == sheet
        ),
        "",
    )
    relations = _RELATION.findall(part(packed, "xl/_rels/workbook.xml.rels"))
    for told in map(attributes, relations):
        if key and told.get("Id") == key:
            target = told.get("Target", "")
            return target.lstrip("/") if target.startswith("/") else f"xl/{target}"
    return ""


def _percent_styles(text: bytes) -> frozenset[str]:
    """The numbers of the styles that show a share as percent."""
    formats = map(attributes, _FORMAT.findall(text))
    own = {
        one.get("numFmtId", "")
        for one in formats
        if "%" in _LITERAL.sub("", one.get("formatCode", ""))
    }
    blocks = _STYLES.split(text, maxsplit=2)
    styles = _STYLE.findall(blocks[1]) if len(blocks) > 1 else []
    return frozenset(
        str(number)
        for number, told in enumerate(map(attributes, styles))
        if told.get("numFmtId") in own | _OWN_PERCENTS
    )


def attributes(text: bytes) -> dict[str, str]:
    """The attributes of a tag; of those that stand there twice the last."""
    return {
        name.decode("ascii", "replace"): unescape((double or single).decode("utf-8", "replace"))
        for name, double, single in _ATTRIBUTE.findall(text)
    }
