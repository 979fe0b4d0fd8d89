"""The cells of one row, each read where it is needed, and refused in its own words."""

from collections.abc import Mapping
from dataclasses import dataclass

from halfpail.application.found_rows import plain_name
from halfpail.findings import Fault, Refusal


@dataclass(frozen=True, slots=True)
class RowCells:
    """The cells of one row, each read where it is needed."""

    words: Mapping[str, object]

    def text(self, key: str) -> str:
        """What stands there; nothing where it is empty."""
        return str(self.words.get(key, "")).strip()

    def due(self, key: str, example: str) -> str:
        """What stands there.

        Raises:
            Refusal: nothing does.
        """
        if text := self.text(key):
            return text
        raise refused(key, "", "Nothing is written here.", f"Write {example}, say.")

    def named(self, key: str, kind: str, known: Mapping[str, str]) -> str:
        """A name as the garden has it.

        Raises:
            Refusal: the garden has none such.
        """
        text = self.text(key)
        if not text:
            raise refused(key, "", "Nothing is written here.", f"Write which {kind}.")
        if found := known.get(plain_name(text)):
            return found
        remedy = f"Known: {', '.join(known.values())}." if known else f"Add the {kind} first."
        raise refused(key, text, f"No {kind} of the garden has this name.", remedy)


def refused(place: str, read: str, sentence: str, remedy: str) -> Refusal:
    """What is wrong with one cell, at the key of its column."""
    return Refusal(Fault(place=place, read=read, sentence=sentence, remedy=remedy))
