"""A spreadsheet that is brought along, and what is chosen for each of its sheets."""

from collections.abc import Mapping
from dataclasses import replace

from django import forms

from halfpail.application.head_words import columns_of
from halfpail.application.look_at_spreadsheet import Choice
from halfpail.application.match_columns import TABLE_CALLED, match_columns
from halfpail.application.spreadsheet import Sheet

MOST_BYTES = 5_000_000
NO_FILE = "Choose a file first."


class SpreadsheetForm(forms.Form):
    """One file."""

    file = forms.FileField(
        label="Spreadsheet",
        help_text="XLSX, ODS or CSV, 5 MB at the most",
        allow_empty_file=True,
        error_messages={"required": NO_FILE, "missing": NO_FILE, "invalid": NO_FILE},
    )

    @property
    def faulty(self) -> list[forms.BoundField]:
        """The fields with faults."""
        return [field for field in self if field.errors]


def field_of(sheet: int, what: str, column: int | None = None) -> str:
    """The name of a choice on the page.

    >>> field_of(0, "column", 3)
    'sheet-0-column-3'
    """
    return f"sheet-{sheet}-{what}" if column is None else f"sheet-{sheet}-{what}-{column}"


def chosen(
    sent: Mapping[str, str], sheets: tuple[Sheet, ...], before: tuple[Choice, ...]
) -> tuple[Choice, ...]:
    """What was chosen; columns of another table than the page showed are guessed anew."""
    pairs = enumerate(zip(sheets, before, strict=True))
    return tuple(_chosen(sent, at, sheet, choice) for at, (sheet, choice) in pairs)


def _chosen(sent: Mapping[str, str], at: int, sheet: Sheet, before: Choice) -> Choice:
    table = sent.get(field_of(at, "table"))
    if table is None:
        return before
    if table != before.matching.table:
        return Choice(matching=match_columns(sheet, table))
    if table not in TABLE_CALLED:
        return before
    known = {column.key for column in columns_of(TABLE_CALLED[table])}
    keys = list(before.matching.keys)
    for column, key in enumerate(keys):
        told = sent.get(field_of(at, "column", column), key)
        keys[column] = told if told in known else ""
    for column, key in enumerate(keys):
        if key in keys[:column]:
            keys[column] = ""
    put_over = field_of(at, "over") in sent
    if tuple(keys) == before.matching.keys:
        return replace(before, put_over=put_over)
    matching = replace(before.matching, keys=tuple(keys), notes=())
    return Choice(matching=matching, put_over=put_over)
