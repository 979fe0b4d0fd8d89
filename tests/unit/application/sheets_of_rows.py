"""Sheets typed out for the tests, and the garden that their rows are held against."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import Any

from halfpail.application.found_rows import GardenNow
from halfpail.application.kept import Kept
from halfpail.application.look_at_spreadsheet import (
    Choice,
    FoundSheet,
    FoundSpreadsheet,
    look_at_spreadsheet,
)
from halfpail.application.match_columns import match_columns
from halfpail.application.spreadsheet import Cell, CellKind, Sheet
from halfpail.wiring import services

TODAY = date(2027, 6, 1)
SPECIAL = {"#DAY ": CellKind.DAY, "#NUM ": CellKind.NUMBER, "#BROKEN ": CellKind.BROKEN}


def cell(text: str) -> Cell:
    """A cell of words, or of another kind where the text begins with its sign."""
    for sign, kind in SPECIAL.items():
        if text.startswith(sign):
            return Cell(kind, text.removeprefix(sign))
    return Cell(CellKind.TEXT, text) if text else Cell(CellKind.EMPTY)


def sheet(name: str, *rows: Sequence[str]) -> Sheet:
    return Sheet(name=name, rows=tuple(tuple(map(cell, row)) for row in rows))


def row_of(name: str, told: Mapping[str, str]) -> Sheet:
    """A sheet of heads and one row."""
    return sheet(name, tuple(told), tuple(told.values()))


def kept(values: Sequence[Any]) -> tuple[Kept[Any], ...]:
    """Values as the store would keep them."""
    return tuple(
        Kept(key=key, version=1, value=replace(value, place=""))
        for key, value in enumerate(values, 1)
    )


def sample_now(**more: Any) -> GardenNow:
    """The sample garden as it is kept, with one mix."""
    garden = services().read_sample_garden()
    now = GardenNow(
        about=replace(garden, bags=(), beds=()),
        today=TODAY,
        bags=kept(garden.bags),
        beds=kept(garden.beds),
        recipes={"Spring pail": {"Blood meal": 2, "Bone meal": 1}},
    )
    return replace(now, **more)


def looked_at(now: GardenNow, *sheets: Sheet, put_over: bool = False) -> FoundSpreadsheet:
    """The sheets held against a garden, each as it is guessed."""
    choices = [Choice(matching=match_columns(one), put_over=put_over) for one in sheets]
    return look_at_spreadsheet(sheets, choices, now, services())


def only(found: FoundSpreadsheet) -> FoundSheet:
    (one,) = found.sheets
    return one
