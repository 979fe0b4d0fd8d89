"""Fields that read what is typed with the one grammar, and say a fault in its own words."""

import unicodedata
from collections.abc import Callable
from contextlib import suppress
from functools import partial
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.core.validators import MaxLengthValidator, ProhibitNullCharactersValidator

from halfpail.findings import Fault, Refusal
from halfpail.quantities.understood import understood

MOST_LETTERS = 60
MOST_TYPED = 400
DECIMAL, WHOLE, WORDS = "decimal", "numeric", "text"

Reader = Callable[[str], Any]


class ReadField(forms.CharField):
    """One amount in a plain text box; nothing typed is None.

    `read` refuses what is no such amount; `unit` stands with the label.
    """

    def __init__(
        self, read: Reader, *, label: str, unit: str = "", keys: str = DECIMAL, **options: Any
    ) -> None:
        widget = forms.TextInput(
            attrs={"inputmode": keys, "autocomplete": "off", "spellcheck": "false"}
        )
        super().__init__(label=label, widget=widget, max_length=MOST_TYPED, **options)
        self.read = read
        self.unit = unit
        self.error_messages["required"] = f"{label}: nothing is written here."
        self.error_messages["max_length"] = f"This is longer than {MOST_TYPED} characters."

    def clean(self, value: Any) -> Any:
        """The amount, or None where nothing is typed.

        Raises:
            ValidationError: nothing is typed where something is due, or it cannot be read.
        """
        text = super().clean(value)
        if not text:
            return None
        try:
            return self.read(text)
        except Refusal as refusal:
            raise ValidationError([said(fault) for fault in refusal.faults]) from None


class FigureField(ReadField):
    """A figure of a report in a unit of its own; a bare number is meant in the usual one."""

    def __init__(self, *, unit: str, **told: Any) -> None:
        super().__init__(str, unit=unit, **told)

    def words(self, text: str) -> str:
        """What was typed, with the unit that was meant."""
        bare = all(letter.isdigit() or letter in " .,/" for letter in text)
        return f"{text.strip()} {self.unit}".strip() if bare else text.strip()


class LinesField(ReadField):
    """Text of several lines, such as a label."""

    def __init__(self, *, label: str, rows: int, most: int, **options: Any) -> None:
        super().__init__(str, label=label, keys=WORDS, **options)
        self.widget = forms.Textarea(attrs={"rows": rows, "spellcheck": "false"})
        self.validators = [MaxLengthValidator(most), ProhibitNullCharactersValidator()]


class AmountField(ReadField):
    """An amount whose unit is meant where none is typed; what was read is said back."""

    def __init__(self, read: Callable[..., Any], *, unit: str, nought: bool = False, **told: Any):
        super().__init__(partial(read, unit=unit, nought=nought), unit=unit, **told)
        self.read_alone = partial(read, nought=nought)

    def words(self, text: str) -> str:
        """What was typed, with the unit that was meant; nothing where no such words say it."""
        said = understood(text, unit=self.unit).partition(" = ")[0] if self.echo(text) else text
        for words in (text.strip(), f"{text.strip()} {self.unit}", said):
            with suppress(Refusal):
                if self.read_alone(words) == self.read(text):
                    return words
        return ""

    def echo(self, text: str) -> str:
        """What was read, in the units typed and in others; nothing where it cannot be read."""
        try:
            return understood(text, unit=self.unit)
        except Refusal:
            return ""


def said(fault: Fault) -> str:
    """What is wrong and how to mend it, in one line.

    >>> said(Fault(place="", read="x", sentence="There is no number.", remedy="Write one."))
    'There is no number. Write one.'
    """
    sentence = fault.sentence[0].upper() + fault.sentence[1:]
    whole = sentence if sentence.endswith((".", "?", "!")) else f"{sentence}."
    return f"{whole} {fault.remedy}".strip()


def read_name(text: str) -> str:
    """A name on one line, of letters that can be seen.

    Raises:
        Refusal: it is too long, or holds what cannot be seen.

    >>> read_name(" Blood  meal ")
    'Blood meal'
    """
    name = " ".join(unicodedata.normalize("NFC", text).split())
    if len(name) > MOST_LETTERS:
        remedy = f"Shorten it to {MOST_LETTERS} letters."
        raise Refusal(Fault(place="name", read=name, sentence="This is too long.", remedy=remedy))
    if not name.isprintable():
        sentence = "There is a letter that cannot be seen."
        remedy = "Delete the name and type it again."
        raise Refusal(Fault(place="name", read="", sentence=sentence, remedy=remedy))
    return name
