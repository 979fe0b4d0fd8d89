"""The bibliography as a page, and what each mark means."""

from dataclasses import dataclass
from functools import cache

from halfpail.reference.bibliography import bibliography
from halfpail.sources import Mark, Source

MEANINGS = {
    Mark.VERIFIED: "We have seen the page of the source, and the figure stands there.",
    Mark.DERIVED: "Reckoned from verified figures, or from atomic weights; the sum is shown.",
    Mark.COMMON_PRACTICE: "What people do; nobody we found has published a reason.",
    Mark.MEMORY: "Believed to stand in the publication named, but we have not seen that page.",
    Mark.PROPOSAL: "Our own choice, made on the careful side. Change it if you know better.",
    Mark.TYPED: "You typed it.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class SourcesPage:
    """Marks with their meanings, and sources in the order of their keys."""

    marks: tuple[tuple[Mark, str], ...]
    sources: tuple[Source, ...]


@cache
def sources_page() -> SourcesPage:
    """Everything the page shows; it is the same for everybody."""
    sources = sorted(bibliography().values(), key=lambda source: source.key)
    return SourcesPage(marks=tuple(MEANINGS.items()), sources=tuple(sources))
