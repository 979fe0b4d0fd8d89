"""Spreadsheets that were looked at and not kept yet: they lie among the drafts, the last few."""

import secrets
from dataclasses import dataclass, replace
from hashlib import sha256

from halfpail.application.brought_in import Changes
from halfpail.application.found_rows import GardenNow
from halfpail.application.look_at_spreadsheet import (
    Choice,
    FoundSpreadsheet,
    look_at_spreadsheet,
)
from halfpail.application.match_columns import match_columns
from halfpail.application.spreadsheet import Spreadsheet
from halfpail.web.clock import today
from halfpail.web.home import GardenRequest, Home
from halfpail.web.recipes import known_mixes
from halfpail.wiring import services

MOST_HELD = 5
MOST_NAME = 80
_FILE, _SHEETS, _CHOICES = "file", "sheets", "choices"


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A spreadsheet under its token: the name of the file, its sheets, what was chosen."""

    token: str
    file: str
    book: Spreadsheet
    choices: tuple[Choice, ...]


def hold(home: Home, file: str, book: Spreadsheet) -> Held:
    """Keep a spreadsheet to be looked at; the oldest of those held are forgotten.

    Raises:
        StoreTrouble: it cannot be kept.
    """
    choices = tuple(Choice(matching=match_columns(sheet)) for sheet in book.sheets)
    held = Held(token=secrets.token_urlsafe(16), file=_shown(file), book=book, choices=choices)
    _keep(home, held)
    home.store.drafts.keep_few(_key(home, ""), MOST_HELD)
    return held


def held_under(home: Home, token: str) -> Held | None:
    """The spreadsheet of a token; None where it was forgotten."""
    kept = home.store.drafts.get(_key(home, token))
    if not kept:
        return None
    return Held(
        token=token,
        file=kept[_FILE],
        book=services().from_text(Spreadsheet, kept[_SHEETS]),
        choices=services().from_text(tuple[Choice, ...], kept[_CHOICES]),
    )


def choose(home: Home, held: Held, choices: tuple[Choice, ...]) -> Held:
    """Keep what was chosen."""
    again = replace(held, choices=choices)
    if choices != held.choices:
        _keep(home, again)
    return again


def let_go(home: Home, token: str) -> None:
    """Forget a spreadsheet, since it was kept or given up."""
    home.store.drafts.drop(_key(home, token))


def looked_at(request: GardenRequest, held: Held) -> FoundSpreadsheet:
    """Every row of it, held against the garden as it is now."""
    assert request.home
    now = garden_now(request.home)
    return look_at_spreadsheet(held.book.sheets, held.choices, now, request.services)


def garden_now(home: Home) -> GardenNow:
    """The garden that rows are brought into."""
    return GardenNow(
        about=home.about,
        today=today(),
        bags=home.shelf.bags.all(),
        beds=home.shelf.beds.all(),
        diary=tuple(kept.value for kept in home.shelf.diary.all()),
        recipes={mix.name: mix.scoops for mix in known_mixes(home)},
    )


def print_of(changes: Changes) -> str:
    """A short print of what would be kept: another garden or another choice gives another."""
    return sha256(services().to_text(changes).encode()).hexdigest()[:16]


def _keep(home: Home, held: Held) -> None:
    to_text = services().to_text
    fields = {
        _FILE: held.file,
        _SHEETS: to_text(held.book),
        _CHOICES: to_text(held.choices),
    }
    home.store.drafts.keep(_key(home, held.token), fields)


def _key(home: Home, token: str) -> str:
    return f"spreadsheet {home.kept.key} {token}"


def _shown(file: str) -> str:
    """The name of a file as it may stand on a page: nothing that cannot be seen."""
    return "".join(letter for letter in file if letter.isprintable())[:MOST_NAME] or "a file"
