"""A file that is brought along: a garden, or a mix or plan that was handed on."""

from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile

MOST_BYTES = 10_000_000


class UploadForm(forms.Form):
    """One file of text."""

    file = forms.FileField(label="File", error_messages={"required": "Choose a file first."})

    @property
    def faulty(self) -> list[forms.BoundField]:
        """The fields with faults."""
        return [field for field in self if field.errors]

    def clean_file(self) -> str:
        """The text of the file.

        Raises:
            ValidationError: it is too long, or no text.
        """
        file: UploadedFile[Any] = self.cleaned_data["file"]
        if (file.size or 0) > MOST_BYTES:
            raise forms.ValidationError(f"The file is longer than {MOST_BYTES // 1_000_000} MB.")
        try:
            return str(file.read(), "utf-8-sig")
        except UnicodeDecodeError:
            raise forms.ValidationError(
                "The file is not text in UTF-8. A spreadsheet is read on another page."
            ) from None


class ConfirmForm(forms.Form):
    """The token of the file that was looked at."""

    token = forms.SlugField(max_length=40)
