"""The bytes of a garden file as plain TOML tables, or a refusal that says where it breaks."""

import re
import tomllib
from pathlib import Path
from typing import Any

from halfpail.findings import Fault, Refusal

MOST_BYTES = 200_000

_LINE = re.compile(r"\s*\(at line (\d+), column \d+\)")


class TypedNumber(str):
    """A number with a decimal point, kept as it was typed."""


def text_of(path: Path) -> str:
    """The text of a file.

    Raises:
        Refusal: it cannot be opened, is too long, or is not text.
    """
    place = str(path)
    try:
        with path.open("rb") as file:
            raw = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "no file has such a name"
        raise _refusal(place, f"The file cannot be opened: {why}.", "Check its name.") from None
    if len(raw) > MOST_BYTES:
        sentence = f"The file is longer than {MOST_BYTES // 1000} kB."
        raise _refusal(place, sentence, "Keep one garden in one file.")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        sentence = "The file is not text in UTF-8."
        raise _refusal(f"{place} (line {line})", sentence, "Save it as UTF-8 text.") from None


def tables_of(text: str) -> dict[str, Any]:
    """The tables of a TOML text; numbers with a point stay as they were typed.

    Raises:
        Refusal: it is not TOML, with the line where reading stopped.
    """
    try:
        return tomllib.loads(text, parse_float=TypedNumber)
    except RecursionError:
        raise _refusal("the file", "Lists stand too deep in lists.", "Take some away.") from None
    except ValueError as error:
        raise Refusal(_syntax_fault(text, str(error))) from None


def _syntax_fault(text: str, message: str) -> Fault:
    at = _LINE.search(message)
    lines = text.splitlines()
    number = int(at[1]) if at else len(lines)
    why = _LINE.sub("", message).replace(" (at end of document)", "").rstrip(".")
    return Fault(
        place=f"line {number}",
        read=lines[number - 1].strip()[:78] if 0 < number <= len(lines) else "",
        sentence=f"This cannot be read as TOML: {why[:120]}.",
        remedy=(
            "Every line is key = value or a [header]; words and amounts with a unit stand in"
            ' "quotes", many lines in three of them, """ before and after.'
        ),
    )


def _refusal(place: str, sentence: str, remedy: str) -> Refusal:
    return Refusal(Fault(place=place, read="", sentence=sentence, remedy=remedy))
