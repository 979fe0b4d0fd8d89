"""What travels with a result: notices, and refusals of what cannot be right."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from halfpail.sources import Citation


class Severity(StrEnum):
    """How loudly a notice speaks."""

    STOP = "stop"
    CAUTION = "caution"
    NOTE = "note"


@dataclass(frozen=True, slots=True, kw_only=True)
class Notice:
    """A caution or a finding: the answer holds, but the reader should know this."""

    severity: Severity
    sentence: str
    citation: Citation | None = None


def loudest_first(found: Iterable[Notice]) -> tuple[Notice, ...]:
    """Each notice once, the loudest first; what is said of everything is not said of some beds too.

    >>> mask = "Wear a dust mask."
    >>> said = (mask, f"Sweet corn, Onions: {mask}")
    >>> told = [Notice(severity=Severity.CAUTION, sentence=words) for words in said]
    >>> [notice.sentence for notice in loudest_first(told)]
    ['Wear a dust mask.']
    """
    order, each = list(Severity), dict.fromkeys(found)
    of_all = {(one.severity, one.sentence) for one in each}
    kept = (one for one in each if (one.severity, one.sentence.partition(": ")[2]) not in of_all)
    return tuple(sorted(kept, key=lambda notice: order.index(notice.severity)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing wrong with what was typed: its place, what was read, and how to mend it."""

    place: str
    read: str
    sentence: str
    remedy: str = ""


class Refusal(Exception):
    """What was typed cannot be used; every fault found is listed."""

    def __init__(self, *faults: Fault) -> None:
        super().__init__("; ".join(f"{fault.place}: {fault.sentence}" for fault in faults))
        self.faults = faults
