"""Lines of cells parted by commas, semicolons or tabs, in whatever letters they were saved."""

import csv
import re
from io import StringIO

from halfpail.application.spreadsheet import Cell, CellKind, Sheet
from halfpail.sheets import limits, trouble

NAME = "Rows"
PARTERS = "\t;,"
AS_WINDOWS = (
    "The file is not in UTF-8; it was read as Western letters of Windows. "
    "Look whether names with accents are right."
)
AS_COMMAS = "Commas in numbers were read as decimal commas."
_MARKS = ((b"\xef\xbb\xbf", "utf-8-sig"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"))
_UNSEEN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")
_TOLD = re.compile(r"sep=([\t;,])\r?\n", re.IGNORECASE)
_COMMA = re.compile(r"\s*(\d{1,9}),(\d+)((?:\s*[^\d\s.,].*)?)", re.DOTALL)
_POINT = re.compile(r"\s*\d+\.\d+(?:\s*[^\d\s.,].*)?", re.DOTALL)
_LOOKED_AT = 30
_FAR_ENOUGH = 20_000


def read_lines(raw: bytes) -> Sheet:
    r"""The one sheet of a file of lines.

    Raises:
        Unusable: it is no text, or no table.

    >>> [cell.text for cell in read_lines(b"meal;4-4-4;12,50\n").rows[0]]
    ['meal', '4-4-4', '12.50']
    """
    text, notes = _text(raw)
    if _UNSEEN.search(text):
        raise trouble.NO_TEXT
    told = _TOLD.match(text)
    parter = told[1] if told else _parter(text)
    rows = _rows(text[told.end() :] if told else text, parter)
    if not any(any(row) for row in rows):
        raise trouble.NOTHING
    if parter != "," and _has_decimal_commas(rows):
        rows = [[_with_point(text) for text in row] for row in rows]
        notes.append(AS_COMMAS)
    cells = tuple(tuple(_cell(text) for text in row) for row in rows)
    return Sheet(name=NAME, rows=cells, notes=tuple(notes))


def _text(raw: bytes) -> tuple[str, list[str]]:
    for mark, letters in _MARKS:
        if raw.startswith(mark):
            return _decoded(raw, letters), []
    if half := _half_empty(raw):
        return _decoded(raw, half), []
    try:
        return raw.decode("utf-8"), []
    except UnicodeDecodeError:
        # Five bytes mean nothing there; they are shown as what they are.
        return raw.decode("cp1252", errors="replace"), [AS_WINDOWS]


def _half_empty(raw: bytes) -> str:
    """UTF-16 without its mark: every other byte of plain letters is nought."""
    start = raw[:2000]
    even, odd = start[::2].count(0), start[1::2].count(0)
    if len(start) < 4 or max(even, odd) < len(start) * 2 // 5 or min(even, odd) > len(start) // 20:
        return ""
    return "utf-16-be" if even > odd else "utf-16-le"


def _decoded(raw: bytes, letters: str) -> str:
    try:
        return raw.decode(letters)
    except UnicodeDecodeError:
        raise trouble.DAMAGED from None


def _parter(text: str) -> str:
    """The sign that parts most rows into the same number of cells, more than one."""
    start = text[:_FAR_ENOUGH]

    def evenness(parter: str) -> tuple[int, int]:
        widths = []
        for row in csv.reader(StringIO(start, newline=""), delimiter=parter):
            widths.append(len(row))
            if len(widths) == _LOOKED_AT:
                break
        usual = max(set(widths), key=widths.count)
        return (widths.count(usual) if usual > 1 else 0, usual)

    return max(PARTERS, key=evenness)


def _rows(text: str, parter: str) -> list[list[str]]:
    found: list[list[str]] = []
    try:
        for row in csv.reader(StringIO(text, newline=""), delimiter=parter, strict=True):
            found.append(row)
            if len(found) > limits.MOST_ROWS:
                raise trouble.TOO_MANY_ROWS
    except csv.Error as error:
        if "field larger" in str(error):
            raise trouble.TOO_MANY_LETTERS from None
        raise trouble.QUOTES from None
    return found


def _has_decimal_commas(rows: list[list[str]]) -> bool:
    texts = [text for row in rows for text in row]
    return any(map(_COMMA.fullmatch, texts)) and not any(map(_POINT.fullmatch, texts))


def _with_point(text: str) -> str:
    match = _COMMA.fullmatch(text)
    return f"{match[1]}.{match[2]}{match[3]}" if match else text


def _cell(text: str) -> Cell:
    text = text.strip()
    return Cell(CellKind.TEXT, text[: limits.MOST_LETTERS]) if text else Cell(CellKind.EMPTY)
