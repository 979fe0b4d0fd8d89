"""What a page of one kept thing shows beside its form: a draft, and what another window saved."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from halfpail.application.kept import Kept
from halfpail.application.word_mix import Table
from halfpail.web.forms.entry import EntryForm

T = TypeVar("T")
NOTHING = "nothing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Theirs:
    """Where this form and what another window saved differ, field by field."""

    table: Table

    @classmethod
    def of(cls, form: EntryForm[Any], words: Mapping[str, Any]) -> "Theirs":
        """The fields that differ in words: here, and as they stand in the store."""
        pairs = [
            (str(field.label), _said(field.value()), _said(words.get(field.name)))
            for field in form.visible_fields()
        ]
        rows = tuple(row for row in pairs if row[1] != row[2])
        headings = ("", "typed here", "kept by the other window")
        return cls(table=Table(headings=headings, rows=rows))


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptPage(Generic[T]):
    """A form, the thing it is of, and how the two stand to each other."""

    form: EntryForm[T]
    kept: Kept[T] | None = None
    theirs: Theirs | None = None
    is_draft: bool = False
    is_sound: bool = False

    @property
    def live(self) -> str:
        """The parts of the page that change while one types."""
        return ",".join((*(f"#{one.id_for_label}_error" for one in self.form.told), "#understood"))


def _said(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return " ".join(str(value).split()) if value not in (None, "") else NOTHING
