"""A spreadsheet as it was opened: plain cells, and what should be known of how they were read.

Whoever opens a file answers with these values; what the cells mean is said by other modules.
"""

from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol


class CellKind(StrEnum):
    """What a cell holds."""

    EMPTY = "empty"
    TEXT = "text"
    NUMBER = "number"
    DAY = "day"
    YES_NO = "yes or no"
    BROKEN = "broken"


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell: a number as exact decimal text, a day as 2027-05-10, yes or no as these words.

    `BROKEN` is a formula whose result is not in the file, or is an error; its text tells which.
    """

    kind: CellKind
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet, its rows from the first row of the file on; `notes` are sentences for people."""

    name: str
    rows: tuple[tuple[Cell, ...], ...]
    hidden: bool = False
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Spreadsheet:
    """Every sheet of a file."""

    sheets: tuple[Sheet, ...]


class SheetReader(Protocol):
    """Opens files that nobody has looked at yet."""

    def read(self, raw: bytes, place: str) -> Spreadsheet:
        """The sheets of a file, whatever its name says it is.

        Raises:
            Refusal: it is no spreadsheet, is damaged or locked, or asks for too much.
        """
        ...
