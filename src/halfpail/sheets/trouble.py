"""Why a file cannot be used, each in a sentence and with a way out of it."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Unusable(Exception):
    """The file cannot be used: why, and what to do instead."""

    sentence: str
    remedy: str


_SAVE = "Save it in your spreadsheet program as XLSX, ODS or CSV, and try that file."
_ALONE = "Take only the sheets you want to bring in into a new file."

EMPTY = Unusable("The file is empty.", "Choose the file you meant.")
NOTHING = Unusable("There is not a single cell with something in it.", "Choose the file you meant.")
TOO_LONG = Unusable("The file is larger than 5 MB.", _ALONE)
UNKNOWN = Unusable("This is no spreadsheet.", _SAVE)
OLD_EXCEL = Unusable("This is a spreadsheet of an old kind, XLS or XLSB.", _SAVE)
LOCKED = Unusable("The file is locked with a password.", "Save it without a password.")
DAMAGED = Unusable("The file is damaged or was cut off.", f"Copy it again. {_SAVE}")
BOMB = Unusable("The file unpacks to far more than a table holds.", _ALONE)
TOO_MUCH = Unusable("The file needs more memory than one table may have.", _ALONE)
TOO_SLOW = Unusable("The file takes too long to read.", _ALONE)
TOO_MANY_ROWS = Unusable("A sheet has more than 20,000 rows.", _ALONE)
TOO_MANY_COLUMNS = Unusable("A sheet has more than 45 columns.", "Take out columns not needed.")
TOO_MANY_CELLS = Unusable("The file has more than 100,000 cells.", _ALONE)
TOO_MANY_LETTERS = Unusable("The file holds more text than a garden needs.", _ALONE)
TOO_MANY_SHEETS = Unusable("The file has more than 24 sheets.", _ALONE)
NO_TEXT = Unusable("The file holds letters that no table has.", _SAVE)
QUOTES = Unusable(
    "A quotation mark is opened and never closed.", 'Look for a single " in the text of a cell.'
)


def of_kind(what: str) -> Unusable:
    """A file of a known other kind, whatever its name says.

    >>> of_kind("a PDF").sentence
    'This file is a PDF, not a spreadsheet, whatever its name says.'
    """
    return Unusable(f"This file is {what}, not a spreadsheet, whatever its name says.", _SAVE)
