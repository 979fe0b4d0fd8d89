"""Whole texts held against a kept copy; with UPDATE_SNAPSHOTS=1 the new one is kept."""

import os
from pathlib import Path

HERE = Path(__file__).parent


def assert_as_kept(name: str, text: str) -> None:
    """The text is the one that is kept under this name."""
    path = HERE / f"{name}.txt"
    if os.environ.get("UPDATE_SNAPSHOTS"):
        path.write_text(text, encoding="utf-8")
    assert text == path.read_text(encoding="utf-8")
