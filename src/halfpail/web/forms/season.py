"""How many mixes a season should have, and the name a plan is kept under."""

import secrets
from typing import Any

from django import forms

from halfpail.web.forms.fields import WORDS, ReadField, read_name

FIND_OUT = "find"
MIXES = (("1", "one mix"), ("2", "two mixes"), ("3", "three mixes"), (FIND_OUT, "find it out"))


class SeasonForm(forms.Form):
    """The wish for a plan; `token` tells a form sent twice."""

    token = forms.CharField(widget=forms.HiddenInput, required=False, max_length=80)

    def __init__(self, data: Any) -> None:
        first = {"token": secrets.token_urlsafe(16), "mixes": FIND_OUT}
        super().__init__(data, initial=first, use_required_attribute=False)
        self.fields["mixes"] = forms.ChoiceField(
            label="How many mixes",
            choices=MIXES,
            widget=forms.RadioSelect,
            error_messages={"required": "Choose one of these.", "invalid_choice": "Choose one."},
        )
        self.fields["from_today"] = forms.BooleanField(
            label="Plan from today on: count what the diary says was given this year",
            required=False,
        )

    @property
    def faulty(self) -> list[forms.BoundField]:
        """The fields with faults."""
        return [field for field in self if field.errors]

    def mixes(self) -> int | None:
        """How many mixes there may be; None where that is to be found."""
        chosen = self.cleaned_data["mixes"]
        return None if chosen == FIND_OUT else int(chosen)


class KeepForm(forms.Form):
    """The name of a plan."""

    def __init__(self, data: Any, name: str = "") -> None:
        super().__init__(data, initial={"name": name}, use_required_attribute=False)
        self.fields["name"] = ReadField(read_name, label="Keep this plan as", keys=WORDS)

    @property
    def faulty(self) -> list[forms.BoundField]:
        """The fields with faults."""
        return [field for field in self if field.errors]
