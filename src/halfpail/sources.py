"""Who says so: sources, the standing of a figure, and where in the source it stands."""

from dataclasses import dataclass
from enum import StrEnum


class Mark(StrEnum):
    """How far a shipped figure can be trusted; the value is the wording people read."""

    VERIFIED = "verified"
    DERIVED = "derived"
    COMMON_PRACTICE = "common practice, no source"
    MEMORY = "from memory, not checked"
    PROPOSAL = "our default, not published"
    TYPED = "typed by you"


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """One publication of the bibliography."""

    key: str
    title: str
    publisher: str
    year: str
    address: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Citation:
    """The standing of one figure: its mark, the source key and the place in that source.

    For a remembered figure `source` names the publication it is believed to come from.
    """

    mark: Mark
    source: str = ""
    locator: str = ""
