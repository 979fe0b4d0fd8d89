"""The port of spreadsheets, filled with a child process that may fail without harm."""

import json
import os
import subprocess
import sys
from typing import Any

from halfpail.application.spreadsheet import Cell, CellKind, Sheet, Spreadsheet
from halfpail.findings import Fault, Refusal
from halfpail.sheets import limits, trouble

# What the child needs to know of its surroundings; secrets and settings stay here.
_PASSED_ON = ("PATH", "PYTHONPATH", "SYSTEMROOT", "LD_LIBRARY_PATH", "PYTHONDONTWRITEBYTECODE")
_OUT_OF_TIME = {-24, -9}
_BUG = 1


def command() -> list[str]:
    """How the child is started."""
    return [sys.executable, "-m", "halfpail.sheets.child"]


def surroundings() -> dict[str, str]:
    """The surroundings the child is started in."""
    return {name: os.environ[name] for name in _PASSED_ON if name in os.environ}


class LimitedReader:
    """Opens XLSX, ODS and CSV files in a process with little memory, little time and no rights."""

    def read(self, raw: bytes, place: str) -> Spreadsheet:
        """The sheets of a file, whatever its name says it is.

        Raises:
            Refusal: it is no spreadsheet, is damaged or locked, or asks for too much.
        """
        try:
            return Spreadsheet(sheets=tuple(map(_sheet, _asked(raw))))
        except trouble.Unusable as why:
            fault = Fault(place=place, read="", sentence=why.sentence, remedy=why.remedy)
            raise Refusal(fault) from None


def _asked(raw: bytes) -> list[dict[str, Any]]:
    """What the child answers; a child that ended otherwise ran into one of its limits."""
    if len(raw) > limits.MOST_BYTES:
        raise trouble.TOO_LONG
    try:
        done = subprocess.run(
            command(),
            input=raw,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env=surroundings(),
            timeout=limits.MOST_SECONDS,
            start_new_session=True,
            check=False,
        )
    except subprocess.TimeoutExpired:
        raise trouble.TOO_SLOW from None
    if done.returncode == _BUG:
        raise RuntimeError("the process that opens spreadsheets broke")
    if done.returncode:
        raise trouble.TOO_SLOW if done.returncode in _OUT_OF_TIME else trouble.TOO_MUCH
    told = json.loads(done.stdout)
    if "sentence" in told:
        raise trouble.Unusable(told["sentence"], told["remedy"])
    sheets: list[dict[str, Any]] = told["sheets"]
    return sheets


def _sheet(told: dict[str, Any]) -> Sheet:
    return Sheet(
        name="".join(letter for letter in told["name"] if letter.isprintable()),
        hidden=told["hidden"],
        notes=tuple(told["notes"]),
        rows=tuple(tuple(Cell(CellKind(kind), text) for kind, text in row) for row in told["rows"]),
    )
