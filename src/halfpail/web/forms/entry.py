"""Forms of what is kept: an entry under a name, safe against double taps and a second window."""

import secrets
from collections.abc import Mapping
from typing import Any, Generic, TypeVar

from django import forms
from django.forms import BoundField

from halfpail.web.forms.fields import AmountField, FigureField, ReadField
from halfpail.web.home import Home
from halfpail.web.look import Look

T = TypeVar("T")


class EntryForm(forms.Form, Generic[T]):
    """A form whose fields bear the keys of a garden file.

    `token` tells a form sent twice, `version` what stood in the store when it was opened.
    """

    token = forms.CharField(widget=forms.HiddenInput, required=False, max_length=80)
    version = forms.IntegerField(
        widget=forms.HiddenInput, required=False, min_value=0, max_value=2**31
    )

    def __init__(
        self, data: Any, home: Home, look: Look, initial: Mapping[str, Any] | None = None
    ) -> None:
        first = {"token": secrets.token_urlsafe(16), **(initial or {})}
        super().__init__(data, initial=first, use_required_attribute=False)
        self.home = home
        self.look = look

    @property
    def faulty(self) -> list[BoundField]:
        """The fields with faults, in the order of the page."""
        return [field for field in self if field.errors]

    @property
    def told(self) -> list[BoundField]:
        """The fields that something wrong can be typed in."""
        return [field for field in self.visible_fields() if isinstance(field.field, ReadField)]

    @property
    def token_sent(self) -> str:
        """The token this form came with."""
        return str(self.cleaned_data["token"])

    @property
    def version_seen(self) -> int:
        """The version that stood in the store when this form was opened."""
        return self.cleaned_data["version"] or 0

    def be_patient(self) -> None:
        """Take back what is said of fields not reached yet."""
        for field in [one for one in self.faulty if not one.value()]:
            del self.errors[field.name]

    def typed(self) -> dict[str, str]:
        """The words of each amount, with the unit that was meant."""
        words = {
            field.name: field.field.words(str(field.value() or ""))
            for field in self
            if isinstance(field.field, AmountField | FigureField) and field.value()
        }
        return {name: text for name, text in words.items() if text}

    def entry(self) -> T:
        """What is to be kept, once the form is valid."""
        raise NotImplementedError
