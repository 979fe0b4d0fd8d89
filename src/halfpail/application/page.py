"""What goes on paper: pages of words, and the press that prints them.

A page holds words only: every number in it was already written for people, with the same digits
as on a screen, so that nothing is rounded a second time on the way to paper.
"""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Protocol


class Paper(StrEnum):
    """The sheets that printers hold."""

    LETTER = "Letter"
    A4 = "A4"


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One document; `title` names it for readers and for the file."""

    title: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """An address for a phone to read, and in words what it opens."""

    address: str
    opens: str


class Press(Protocol):
    """Turns a page into a PDF; the same page, paper and moment give the same bytes."""

    def print(self, page: Page, paper: Paper, made_at: datetime) -> bytes:
        """The PDF of a page, dated with the moment given."""
        ...
