"""A row of a sheet as words under the keys of a garden file, ready for the usual readers."""

import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from halfpail.application.formula_guard import unguarded
from halfpail.application.head_words import Head
from halfpail.application.match_columns import Matching, column_of_key, heads_of
from halfpail.application.sheet_columns import Column, Kind
from halfpail.application.spreadsheet import Cell, CellKind, Sheet
from halfpail.application.whole_numbers import readable, whole_numbers
from halfpail.findings import Fault, Refusal
from halfpail.quantities.numerals import NUMERAL_CHARACTERS
from halfpail.quantities.typed_text import quoted

LABEL = "label"
YES = frozenset({"yes", "y", "true", "x", "1", "✓"})
NO = frozenset({"no", "n", "false", "0", "-"})
# No amount is longer; the readers refuse what is.
MOST_OF_AMOUNT = 60
NOTHING = Cell(CellKind.EMPTY)
_BARE = re.compile(rf"[{NUMERAL_CHARACTERS} ]+")
_SIDES = re.compile(r"[^a-z]+(?:x|×|by)[^a-z]+", re.IGNORECASE)
_SIDE_OF = {"sq ft": "ft", "sq. ft": "ft", "ft2": "ft", "m²": "m", "m2": "m"}
_WITHOUT_UNIT = {Kind.WORDS, Kind.YES_NO, Kind.WHOLE, Kind.NUMBER, Kind.DATE}

_RECALCULATE = "Open the file in your spreadsheet program, save it there, and try again."
_AS_TEXT = "Set the column to text in your spreadsheet program, and type it again."


@dataclass(frozen=True, slots=True, kw_only=True)
class RowWords:
    """One row: its number in the file, counted from one, and its words by key; empty ones too."""

    number: int
    words: Mapping[str, object] = field(hash=False)
    faults: tuple[Fault, ...] = ()

    @property
    def place(self) -> str:
        """Where the row stands."""
        return f"row {self.number}"

    @property
    def filled(self) -> dict[str, object]:
        """The words of the cells that are not empty."""
        return {key: value for key, value in self.words.items() if value != ""}


def rows_of(sheet: Sheet, matching: Matching) -> Iterator[RowWords]:
    """Every row below the heads that has something in a matched column."""
    heads = heads_of(sheet, matching.head_row)
    columns = {at: column_of_key(matching, key) for at, key in matching.known.items()}
    for at, cells in enumerate(sheet.rows[matching.head_row + 1 :], matching.head_row + 2):
        row = _row(at, cells, heads, columns)
        if row.filled or row.faults:
            yield row


def head_of(sheet: Sheet, matching: Matching, key: str) -> str:
    """The head of the column a key stands for, as it stands in the file; else the usual one."""
    heads = heads_of(sheet, matching.head_row)
    for at, known in matching.known.items():
        if known == key and at < len(heads) and heads[at].text:
            return heads[at].text
    try:
        return column_of_key(matching, key).head
    except KeyError:
        return key


def _row(
    number: int, cells: tuple[Cell, ...], heads: tuple[Head, ...], columns: Mapping[int, Column]
) -> RowWords:
    words: dict[str, object] = {}
    faults: list[Fault] = []
    whole = whole_numbers(cells, heads)
    for at, column in columns.items():
        cell = cells[at] if at < len(cells) else NOTHING
        unit = heads[at].unit if at < len(heads) else ""
        cell = readable(cell, whole.get(column.key), column.kind, unit)
        try:
            words[column.key] = _value(cell, column, unit)
        except Refusal as refusal:
            place = f"row {number}.{column.key}"
            faults.extend(
                Fault(place=place, read=one.read, sentence=one.sentence, remedy=one.remedy)
                for one in refusal.faults
            )
    return RowWords(number=number, words=words, faults=tuple(faults))


def _value(cell: Cell, column: Column, unit: str) -> object:
    """What a cell says, with the unit of its head where it has none."""
    if cell.kind is CellKind.BROKEN:
        what = "an error" if cell.text == "error" else "a formula whose result is not in the file"
        raise _refused("", f"In this cell stands {what}.", _RECALCULATE)
    text = unguarded(unicodedata.normalize("NFC", cell.text.strip()))
    if not text:
        return ""
    if cell.kind is CellKind.DAY and (column.key == LABEL or not _may_be_day(column.kind)):
        sentence = f"The spreadsheet program has made a day of this, {text}."
        raise _refused(text, sentence, _AS_TEXT)
    if column.kind is Kind.YES_NO:
        return _yes_no(text)
    if column.kind in _WITHOUT_UNIT:
        return text
    return _with_unit(text, column.kind, unit)


def _may_be_day(kind: Kind) -> bool:
    return kind in (Kind.DATE, Kind.WORDS)


def _yes_no(text: str) -> bool:
    plain = text.casefold()
    if plain in YES | NO:
        return plain in YES
    raise _refused(text, "Yes or no is wanted here.", "Write yes or no.")


def _with_unit(text: str, kind: Kind, unit: str) -> str:
    if len(text) > MOST_OF_AMOUNT:
        return text
    if kind is Kind.AREA and _SIDES.fullmatch(text):
        return f"{text} {_SIDE_OF.get(unit.casefold(), unit)}".strip()
    if not _BARE.fullmatch(text):
        return text
    if kind is Kind.PERCENT and not unit and _may_be_share(text):
        sentence = f"{text} may be a percentage or a share of one."
        raise _refused(text, sentence, f"Write {text} % if that is meant.")
    if kind is Kind.MONEY and unit in "$€£":
        return f"{unit}{text}"
    return f"{text} {unit}".strip()


def _may_be_share(text: str) -> bool:
    return text.lstrip("0 ").startswith((".", ","))


def _refused(read: str, sentence: str, remedy: str) -> Refusal:
    return Refusal(Fault(place="", read=quoted(read), sentence=sentence, remedy=remedy))
