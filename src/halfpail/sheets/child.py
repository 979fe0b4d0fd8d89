"""Opens one file in a process of its own: bytes come in, plain cells or one sentence go out.

Run as `python -m halfpail.sheets.child`. Before it looks at the first byte it gives up everything
it does not need: memory, time, and the right to open files or connections.
"""

import codecs
import json
import sys
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Any

from halfpail.application.spreadsheet import Cell, CellKind, Sheet
from halfpail.sheets import limits, trouble
from halfpail.sheets.cells import read_packed
from halfpail.sheets.kinds import FileKind, kind_of
from halfpail.sheets.lines import read_lines
from halfpail.sheets.packed import part, tables_in, unpack

# Letters are looked up late; afterwards nothing more can be opened.
_LETTERS = ("utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252", "cp437")


def give_up_rights() -> None:
    """Limit this process, as far as the machine can hold it to that."""
    for letters in _LETTERS:
        codecs.lookup(letters)
    if sys.platform == "win32":
        return
    import resource

    for what, most in (
        (resource.RLIMIT_AS, limits.MOST_MEMORY_BYTES),
        (resource.RLIMIT_CPU, limits.MOST_CPU_SECONDS),
        (resource.RLIMIT_FSIZE, 0),
        (resource.RLIMIT_CORE, 0),
        (resource.RLIMIT_NOFILE, 0),
    ):
        resource.setrlimit(what, (most, most))


def opened(raw: bytes) -> list[Sheet]:
    """The sheets of a file that have something in them.

    Raises:
        Unusable: the file cannot be used.
    """
    if len(raw) > limits.MOST_BYTES:
        raise trouble.TOO_LONG
    kind = kind_of(raw)
    read: Iterable[Sheet] = _packed(raw) if kind is FileKind.PACKED else [read_lines(raw)]
    sheets, cells, letters = [], 0, 0
    for sheet in read:
        rows = tuple(_trimmed(row) for row in sheet.rows)
        cells += sum(map(len, rows))
        letters += sum(len(cell.text) for row in rows for cell in row)
        if max(map(len, rows), default=0) > limits.MOST_COLUMNS:
            raise trouble.TOO_MANY_COLUMNS
        if cells > limits.MOST_CELLS:
            raise trouble.TOO_MANY_CELLS
        if letters > limits.MOST_LETTERS_IN_ALL:
            raise trouble.TOO_MANY_LETTERS
        if any(rows):
            told = (sheet.name, sheet.hidden, sheet.notes)
            sheets.append(Sheet(name=told[0], rows=rows, hidden=told[1], notes=told[2]))
    if not sheets:
        raise trouble.NOTHING
    return sheets


def _packed(raw: bytes) -> Iterator[Sheet]:
    """The sheets of a spreadsheet, or of a zip of CSV, which are named by their files."""
    packed = unpack(raw)
    if not (names := tables_in(packed)):
        yield from read_packed(raw, packed)
    elif len(names) > limits.MOST_SHEETS:
        raise trouble.TOO_MANY_SHEETS
    for name in names:
        yield replace(read_lines(part(packed, name)), name=_sheet_name(name))


def _sheet_name(file: str) -> str:
    """The name of the sheet a file of CSV was written from.

    >>> _sheet_name("garden/soil-tests.csv")
    'Soil tests'
    """
    return file.rpartition("/")[2][: -len(".csv")].replace("-", " ").capitalize()


def answer(raw: bytes) -> dict[str, Any]:
    """The sheets as plain data, or why there are none."""
    try:
        return {"sheets": [_plain(sheet) for sheet in opened(raw)]}
    except trouble.Unusable as found:
        why = found
    except MemoryError:
        why = trouble.TOO_MUCH
    return {"sentence": why.sentence, "remedy": why.remedy}


def _trimmed(row: tuple[Cell, ...]) -> tuple[Cell, ...]:
    """A row without the empty cells at its end."""
    last = max((at for at, cell in enumerate(row, 1) if cell.kind is not CellKind.EMPTY), default=0)
    return row[:last]


def _plain(sheet: Sheet) -> dict[str, Any]:
    return {
        "name": sheet.name,
        "hidden": sheet.hidden,
        "notes": sheet.notes,
        "rows": [[(cell.kind.value, cell.text) for cell in row] for row in sheet.rows],
    }


def main() -> None:
    """Read the bytes of the file and write the answer."""
    raw = sys.stdin.buffer.read(limits.MOST_BYTES + 1)
    give_up_rights()
    sys.stdout.write(json.dumps(answer(raw)))
    sys.stdout.flush()


if __name__ == "__main__":
    main()
