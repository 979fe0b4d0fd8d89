"""Notices as they stand on paper: the loudest first, each said once, without sources."""

from collections.abc import Iterable
from dataclasses import dataclass

from halfpail.findings import Notice, Severity, loudest_first

_LOUD = {Severity.STOP: "Stop", Severity.CAUTION: "Caution", Severity.NOTE: ""}


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperNotice:
    """One sentence; `loud` is the word before it, nothing where it is only a note."""

    loud: str
    sentence: str


def paper_notices(found: Iterable[Notice]) -> tuple[PaperNotice, ...]:
    """The notices of an answer for paper.

    >>> notice = Notice(severity=Severity.STOP, sentence="Not so.")
    >>> paper_notices([notice, notice])
    (PaperNotice(loud='Stop', sentence='Not so.'),)
    """
    said = dict.fromkeys((_LOUD[one.severity], one.sentence) for one in loudest_first(found))
    return tuple(PaperNotice(loud=loud, sentence=sentence) for loud, sentence in said)
