"""The name of a mix that is to be kept, and what it is for."""

import secrets
from collections.abc import Sequence
from typing import Any

from django import forms

from halfpail.application.kept import MixEntry
from halfpail.domain.mix import Part
from halfpail.reference.purposes import purposes
from halfpail.web.forms.fields import WORDS, ReadField, read_name


class KeepMixForm(forms.Form):
    """Only the name is due."""

    token = forms.CharField(widget=forms.HiddenInput, required=False, max_length=80)

    def __init__(self, data: Any) -> None:
        first = {"token": secrets.token_urlsafe(16)}
        super().__init__(data, initial=first, use_required_attribute=False)
        self.fields["name"] = ReadField(read_name, label="Keep this mix as", keys=WORDS)
        self.fields["purpose"] = forms.ChoiceField(
            label="What it is for",
            choices=[("", "not said"), *((key, one.name) for key, one in purposes().items())],
            required=False,
        )

    @property
    def faulty(self) -> list[forms.BoundField]:
        """The fields with faults."""
        return [field for field in self if field.errors]

    def entry(self, parts: Sequence[Part]) -> MixEntry:
        """The mix under its name, once the form is valid."""
        told = self.cleaned_data
        scoops = {part.bag.name: int(part.scoops) for part in parts}
        return MixEntry(name=told["name"], scoops=scoops, purpose=told["purpose"])
