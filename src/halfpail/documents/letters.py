"""Words as paper can carry them: one line, no hidden signs, only letters that its fonts have.

Names are typed by people, copied from anywhere. Signs that turn the direction of writing would
turn the rest of a line; a letter without a glyph would be a hole in the page. So hidden signs
go, a picture is told by its name, and any other letter that the fonts lack becomes a square.
"""

import unicodedata

LACKING = "□"

# Blocks that the fonts of the press have whole; a test prints every letter of them.
_PRINTABLE = (
    *((0x20, 0x7E), (0xA1, 0xAC), (0xAE, 0x2FF), (0x388, 0x38A), (0x38E, 0x3A1), (0x3A3, 0x3FF)),
    *((0x400, 0x482), (0x48A, 0x4FF), (0x5D0, 0x5EA), (0x1E00, 0x1EFF)),
    *((0x2010, 0x2027), (0x2030, 0x2040), (0x2044, 0x2052), (0x2074, 0x208E), (0x20A0, 0x20BF)),
    *((0x2100, 0x211E), (0x2122, 0x2122), (0x2126, 0x2151), (0x2153, 0x2184), (0x2190, 0x23CE)),
    *((0x2460, 0x25FF), (0x2600, 0x262F), (0x2639, 0x268B), (0x2713, 0x2717)),
)


def plain(text: str) -> str:
    r"""A text on one line, without hidden signs, in letters that can be printed.

    >>> plain("  Beans\u202e and\npeas 🍅 "), plain("土")
    ('Beans and peas [tomato]', '□')
    """
    letters = "".join(_printed(letter) for letter in unicodedata.normalize("NFC", text))
    return " ".join(letters.split())


def visible(text: str) -> str:
    r"""A text on one line without signs that are not seen or that turn the direction of writing.

    >>> visible("Beans\u202e and\npeas 🍅\x07")
    'Beans and peas 🍅'
    """
    kept = (" " if letter.isspace() else letter for letter in text if not _turns(letter))
    return " ".join("".join(kept).split())


def _turns(letter: str) -> bool:
    kind = unicodedata.category(letter)
    joins = letter == "\u200d"  # between the parts of one picture
    return kind in ("Cc", "Cf", "Cs") and not letter.isspace() and not joins


def can_print(letter: str) -> bool:
    """Whether the fonts of the press have a letter."""
    return any(first <= ord(letter) <= last for first, last in _PRINTABLE)


def printable() -> str:
    """Every letter that the press says it can print."""
    return "".join(chr(code) for first, last in _PRINTABLE for code in range(first, last + 1))


def _printed(letter: str) -> str:
    if letter.isspace():
        return " "
    if can_print(letter):
        return letter
    kind = unicodedata.category(letter)
    if kind[0] in "CM" or kind == "Sk":  # controls, marks laid on a letter, shades of skin
        return "" if kind not in ("Cn", "Co") else LACKING
    name = unicodedata.name(letter, "")
    return f"[{name.lower()}]" if kind == "So" and name else LACKING
