"""A backup that is brought along from another machine."""

from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile

MOST_BYTES = 12_000_000
NO_FILE = "Choose a file first."


class BackupForm(forms.Form):
    """One file."""

    backup = forms.FileField(
        label="A backup from elsewhere",
        help_text="a file such as halfpail-20270501-080000-000000.sqlite3",
        error_messages={
            "required": NO_FILE,
            "missing": NO_FILE,
            "invalid": NO_FILE,
            "empty": "This file is empty.",
        },
    )

    @property
    def faulty(self) -> list[forms.BoundField]:
        """The fields with faults."""
        return [field for field in self if field.errors]

    def clean_backup(self) -> bytes:
        """What is in the file.

        Raises:
            ValidationError: it is too long.
        """
        file: UploadedFile[Any] = self.cleaned_data["backup"]
        if (file.size or 0) > MOST_BYTES:
            raise forms.ValidationError(
                f"The file is longer than {MOST_BYTES // 1_000_000} MB. Restore it on the command "
                "line: halfpail restore FILE."
            )
        return bytes(file.read())
