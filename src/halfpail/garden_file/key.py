"""One key of a garden file: how it is called, how it is read, what it means."""

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """One key: the reader takes what stands there and its place, and refuses what is wrong.

    `field` is the name of what was read in the entry, where it differs from the key. The reader
    of `money` is told the currency of the file as well.
    """

    name: str
    read: Callable[..., object]
    meaning: str
    example: str
    required: bool = False
    field: str = ""
    money: bool = False

    @property
    def into(self) -> str:
        """The name of the entry's field."""
        return self.field or self.name
