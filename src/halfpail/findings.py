"""What travels with a result: notices, and refusals of what cannot be right."""

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
