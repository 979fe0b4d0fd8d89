"""A garden file that is brought along, read whole before anything is kept."""

from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile

MOST_BYTES = 200_000


class UploadForm(forms.Form):
    """One file of text."""

    file = forms.FileField(label="Garden file", error_messages={"required": "Choose a file first."})

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
            raise forms.ValidationError(f"The file is longer than {MOST_BYTES // 1000} kB.")
        try:
            return str(file.read(), "utf-8-sig")
        except UnicodeDecodeError:
            raise forms.ValidationError("The file is not text in UTF-8. Save it as such.") from None


class ConfirmForm(forms.Form):
    """The text of the file that was looked at."""

    text = forms.CharField(max_length=MOST_BYTES, strip=False)
