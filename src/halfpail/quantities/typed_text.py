"""The characters people type: which may stand in an amount, and how to quote what was typed."""

import re
import unicodedata

from halfpail.quantities.numerals import VULGAR, Unreadable

MOST_CHARACTERS = 40
TIMES_SIGN = "\N{MULTIPLICATION SIGN}"

_SLASHES = "\N{FRACTION SLASH}\N{DIVISION SLASH}"
_DASHES = "-\N{MINUS SIGN}\N{EN DASH}"
_OTHER_CHARACTERS = (
    f"{_SLASHES}{_DASHES}{TIMES_SIGN}²³€£"
    "\N{PRIME}\N{DOUBLE PRIME}\N{RIGHT SINGLE QUOTATION MARK}\N{RIGHT DOUBLE QUOTATION MARK}"
)
_SPACES = re.compile(r"[ \t\u00a0\u2000-\u200a\u202f\u205f\u3000]+")


def quoted(text: str) -> str:
    r"""The text as it can be shown safely: cut short, and nothing that cannot be seen.

    >>> quoted("5 lb\x00")
    '5 lb�'
    """
    shown = text if len(text) <= MOST_CHARACTERS else text[:MOST_CHARACTERS] + "…"
    return "".join(character if character.isprintable() else "�" for character in shown)


def tidied(text: str) -> str:
    r"""The text with one kind of space and stroke.

    Raises:
        Unreadable: it holds something that has no place in an amount.

    >>> tidied(" 2\u00a01\u20442  lb")
    '2 1/2 lb'
    """
    if len(text) > MOST_CHARACTERS:
        raise Unreadable(
            f"This is longer than {MOST_CHARACTERS} characters.", "Write one amount only."
        )
    tidy = _SPACES.sub(" ", unicodedata.normalize("NFC", text)).strip(" ")
    if not tidy:
        raise Unreadable("Nothing is written here.", "Write an amount.")
    for character in tidy:
        _check_character(character)
    if tidy[0] in _DASHES:
        raise Unreadable("An amount cannot be below nought.", "Leave out the minus sign.")
    if re.search(r"[0-9][eE][0-9]", tidy):
        raise Unreadable("Powers of ten are not read.", "Write the number in full.")
    if any(dash in tidy for dash in _DASHES):
        raise Unreadable(
            "A dash may mean a range, or a whole and a fraction.", "Write one amount: 2 1/2, say."
        )
    if re.search(r"[a-zA-Z]\.[0-9]", tidy):
        raise Unreadable(
            "A dot between a letter and a digit may end the word or begin the number.",
            "Put a space where it belongs.",
        )
    return re.sub(f"[{_SLASHES}]", "/", tidy)


def _check_character(character: str) -> None:
    if (
        (" " <= character <= "~" and character != "_")
        or character in VULGAR
        or character in _OTHER_CHARACTERS
    ):
        return
    if not character.isprintable():
        raise Unreadable(
            f"There is a character that cannot be seen (U+{ord(character):04X}).",
            "Delete the text and type it again.",
        )
    if unicodedata.category(character).startswith("N"):
        raise Unreadable(f"{character} is not one of the digits 0 to 9.", "Use the digits 0 to 9.")
    raise Unreadable(f"{character} has no place in an amount.", "Leave it out.")
