"""How a number was reached, step by step, so that it can be repeated with pencil and paper."""

from dataclasses import dataclass

from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One line of the working: why, the sum with its numbers, and who says so."""

    reason: str
    sum: str = ""
    citation: Citation | None = None


Working = tuple[Step, ...]
