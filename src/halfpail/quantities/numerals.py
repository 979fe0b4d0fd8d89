"""Numbers as people write them, read exactly: `2 1/2`, `2½`, `0.25`, `2,5`.

A dot is always the decimal point. A comma is one only where nothing else can be meant: one digit
after it, or nought before it. Thousands are written without a separator. What could be read in two
ways is refused, and both readings are offered.
"""

import re
import unicodedata
from fractions import Fraction

VULGAR = {
    character: Fraction(unicodedata.normalize("NFKC", character).replace("\N{FRACTION SLASH}", "/"))
    for character in "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
}
NUMERAL_CHARACTERS = "0123456789.,/" + "".join(VULGAR)

_MOST_DIGITS = 9
_WHOLE = re.compile(r"[0-9]+")
_DECIMAL = re.compile(r"[0-9]*\.[0-9]+")
_COMMA = re.compile(r"([0-9]+),([0-9]+)")
_GROUPED = re.compile(
    r"[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]+)?|[0-9]{1,3}(?:\.[0-9]{3})+(?:,[0-9]+)?"
)
_FRACTION = re.compile(r"(?:([0-9]+) )?([0-9]+) ?/ ?([0-9]+)")
_VULGAR = re.compile(rf"([0-9]+)? ?([{''.join(VULGAR)}])")


class Unreadable(Exception):
    """What was typed cannot be read as an amount: why, and how to mend it."""

    def __init__(self, sentence: str, remedy: str = "") -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.remedy = remedy


def read_numeral(text: str) -> Fraction:
    """The number a text stands for.

    Raises:
        Unreadable: it is no number, or could be two different ones.

    >>> read_numeral("2 1/2"), read_numeral("2½"), read_numeral("2,5")
    (Fraction(5, 2), Fraction(5, 2), Fraction(5, 2))
    """
    if any(len(digits) > _MOST_DIGITS for digits in _WHOLE.findall(text)):
        raise Unreadable(
            f"The number {text} has more than {_MOST_DIGITS} digits in a row.",
            "Check the number, or use a larger unit.",
        )
    if _WHOLE.fullmatch(text) or _DECIMAL.fullmatch(text):
        return Fraction(text)
    if match := _VULGAR.fullmatch(text):
        return Fraction(match[1] or 0) + VULGAR[match[2]]
    if match := _FRACTION.fullmatch(text):
        return _fraction(text, match[1], match[2], match[3])
    if match := _COMMA.fullmatch(text):
        return _decimal_comma(text, match[1], match[2])
    raise _not_a_number(text)


def _fraction(text: str, whole: str | None, above: str, below: str) -> Fraction:
    if int(below) == 0:
        raise Unreadable(f"{text} divides by nought.", "Write the fraction again, such as 1/2.")
    fraction = Fraction(int(above), int(below))
    if whole is not None and fraction >= 1:
        raise Unreadable(
            f"In {text} the fraction {above}/{below} is one or more.",
            f"Write {mixed(int(whole) + fraction)} if that is meant.",
        )
    if whole is None and fraction >= 1 and len(above) > 1:
        apart = f"{above[:-1]} {above[-1]}/{below}"
        raise Unreadable(
            f"{text} could mean {mixed(fraction)} or {apart}.",
            f"Write {mixed(fraction)} or {apart}, with a space before the fraction.",
        )
    return int(whole or 0) + fraction


def _decimal_comma(text: str, whole: str, after: str) -> Fraction:
    if len(after) == 1 or int(whole) == 0:
        return Fraction(f"{whole}.{after}")
    raise _doubtful(text, f"{whole}.{after}", f"{whole}{after}")


def _not_a_number(text: str) -> Unreadable:
    if _GROUPED.fullmatch(text):
        digits = re.sub("[.,]", "", text)
        first, last = re.search("[.,]", text), max(text.rfind(","), text.rfind("."))
        if first is not None and first[0] != text[last]:
            return _doubtful(
                text,
                f"{re.sub('[.,]', '', text[:last])}.{text[last + 1 :]}",
                f"{digits[: first.start()]}.{digits[first.start() :]}",
            )
        return Unreadable(f"{text} has signs between its thousands.", f"Write {digits}.")
    if re.fullmatch(r"[0-9]+(?: [0-9]+)+", text):
        return Unreadable(
            f"{text} is more than one number.",
            f"Write {text.replace(' ', '')} without spaces if it is one number, "
            "or give each number its unit.",
        )
    return Unreadable(f"{text} is not a number.", "Write it as 2.5 or 2 1/2.")


def _doubtful(text: str, *readings: str) -> Unreadable:
    meant = " or ".join(readings)
    return Unreadable(
        f"{text} could mean {meant}.",
        f"Write {meant}: a dot for the decimal point, and no sign between thousands.",
    )


def mixed(value: Fraction) -> str:
    """A number as whole and fraction, written in plain text.

    >>> mixed(Fraction(5, 2)), mixed(Fraction(1, 3)), mixed(Fraction(4))
    ('2 1/2', '1/3', '4')
    """
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)
