"""The lines of a pasted label, cleaned, and the figures in them.

Dot leaders, tabs, stars, subscripts and the usual slips of scanned text (`P205`, `K20`) are put
right here. What could be read in two ways is refused, never guessed.
"""

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from halfpail.domain.label_wording import understand
from halfpail.findings import Fault, Refusal
from halfpail.quantities.numerals import Unreadable, read_numeral

MOST_CHARACTERS = 20_000
PPM_PER_PERCENT = 10_000

_SUBSCRIPTS = str.maketrans("₀₁₂₃₄₅₆₇₈₉", "0123456789")
_SPACES = re.compile(r"[ \t\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]+")
_DASHES = re.compile("[\u2010-\u2015\u2212\u2043\ufe58\ufe63\uff0d]")
_DIRECTION_MARKS = re.compile("[\u202a-\u202e\u2066-\u2069]")
_SCANNED = (
    (re.compile(r"\bP\s*2\s*[O0]\s*5\b", re.IGNORECASE), "P2O5"),
    (re.compile(r"\bK\s*2\s*[O0](?![\w.])", re.IGNORECASE), "K2O"),
    (re.compile(r"\b(Ca|Mg)0\b", re.IGNORECASE), r"\1O"),
    (re.compile(r"(?<=[0-9])\s*[%％]"), "%"),
    (re.compile(r"(?<=[0-9]) \. ?(?=[0-9]+ ?%)"), "."),
)
# A leader that ends against a figure may have swallowed its decimal point. Three dots or more
# in a row become SURE, a shorter or a broken run becomes DOUBTFUL.
SURE, DOUBTFUL = "…", "‥"
_BULLETS = re.compile("[\u00b7\u2022\u2024\u2219\u22c5]+")
_RAISED_POINT = re.compile("(?<=[0-9])[\u00b7\u2024\u2219\u22c5](?=[0-9])")
_LONG_RUN = re.compile(r"\.{3,}")
_BROKEN_RUN = re.compile(r"…\.|\.(?: ?\.)+")
_RULES = re.compile(r"[-=_:|~*]{2,}|[=_:|~*†‡§¹®™]")
_FIGURE = re.compile(
    r"(?<![A-Za-z0-9.,/-])(?P<digits>-?[.,]?[0-9][0-9.,/-]*)"
    r"(?: ?(?P<unit>%|(?:percent|per cent|pct|ppm|mg/kg)\b))?(?![A-Za-z0-9])",
    re.IGNORECASE,
)
_LETTER_FOR_DIGIT = re.compile(r"(?<![A-Za-z0-9])(?=[lIO0-9.,]*[0-9%.])[lIO0-9.,]*[lIO][0-9.,]*%")


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line: its number from 1, as typed, and cleaned for reading."""

    number: int
    typed: str
    clean: str

    def fault(self, sentence: str, remedy: str) -> Fault:
        """A fault of this line."""
        return Fault(
            place=f"line {self.number}", read=shown(self.typed), sentence=sentence, remedy=remedy
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A percentage with the words beside it; `leader` is the dot leader it touches, if any.

    `percent` and `last_digit`, one unit of its last printed digit, are in [percent]. `aside` marks
    a second reading in brackets, as in "5 % (2.2 % P)".
    """

    name: str
    percent: Fraction
    last_digit: Fraction
    leader: str = ""
    aside: bool = False
    has_unit: bool = True


def shown(text: str, most: int = 60) -> str:
    r"""Text as it can be shown safely: cut short, without characters that cannot be seen.

    >>> shown("3\u202e-4-4")
    '3\ufffd-4-4'
    """
    cut = text if len(text) <= most else text[:most] + "…"
    return "".join(mark if mark.isprintable() else "\ufffd" for mark in cut).strip()


def lines_of(text: str) -> tuple[Line, ...]:
    """The lines of a label, cleaned; blank ones are kept, they end a list of sources.

    Raises:
        Refusal: nothing is written, it is far too long, or a character cannot be trusted.

    >>> [line.clean for line in lines_of("Soluble Potash (K20).....4 %")]
    ['Soluble Potash (K2O)…4%']
    """
    if len(text) > MOST_CHARACTERS:
        raise Refusal(
            Fault(
                place="label",
                read=shown(text),
                sentence=f"This is longer than {MOST_CHARACTERS} characters.",
                remedy="Paste the guaranteed analysis only.",
            )
        )
    lines = tuple(
        Line(number=number, typed=typed, clean=_clean(typed))
        for number, typed in enumerate(unicodedata.normalize("NFC", text).splitlines(), 1)
    )
    if not any(line.clean for line in lines):
        raise Refusal(
            Fault(
                place="label",
                read=shown(text),
                sentence="Nothing is written here.",
                remedy="Write the three numbers, such as 3-4-4, or paste the analysis.",
            )
        )
    faults = [fault for line in lines if (fault := _character_fault(line))]
    if faults:
        raise Refusal(*faults)
    return lines


def figures(line: Line) -> tuple[Figure, ...]:
    """The percentages of a line, each with the words that belong to it.

    Words come before their figure or after it, whichever the line begins with.

    Raises:
        Refusal: a figure can be read in two ways, or stands beside no words.

    >>> [(f.name, float(f.percent)) for f in figures(lines_of("2.5% Urea Nitrogen")[0])]
    [('Urea Nitrogen', 2.5)]
    """
    found = list(_FIGURE.finditer(line.clean))
    with_unit = [match for match in found if match["unit"]]
    if not with_unit and (len(found) != 1 or not understand(line.clean)):
        return ()
    for first, second in pairwise(found):
        if not first["unit"] and second["unit"] and first.end() + 1 >= second.start():
            raise Refusal(
                line.fault(
                    f"{first[0]} and {second[0]} stand beside each other.",
                    "Write one figure, such as 2.5 %.",
                )
            )
    return tuple(_named(line, with_unit or found))


def _clean(typed: str) -> str:
    text = _SPACES.sub(" ", _DASHES.sub("-", typed.translate(_SUBSCRIPTS)))
    text = "".join(mark for mark in text if unicodedata.category(mark) != "Cf")
    text = _RAISED_POINT.sub(".", text)
    text = _BULLETS.sub(lambda run: f" {SURE} " if len(run[0]) > 1 else " ", text)
    for slip, mended in _SCANNED:
        text = slip.sub(mended, text)
    text = _BROKEN_RUN.sub(DOUBTFUL, _LONG_RUN.sub(SURE, text))
    return _SPACES.sub(" ", _RULES.sub(" ", text)).strip()


def _character_fault(line: Line) -> Fault | None:
    for mark in line.typed.translate(_SUBSCRIPTS):
        category = unicodedata.category(mark)
        if _DIRECTION_MARKS.match(mark) or (category == "Cc" and mark != "\t"):
            return line.fault(
                f"There is a character that cannot be seen (U+{ord(mark):04X}).",
                "Delete the line and type it again.",
            )
        if category in ("Nd", "Nl", "No") and not mark.isascii() and mark != "¹":
            return line.fault(
                f"{mark} is not one of the digits 0 to 9.", "Write it with the digits 0 to 9."
            )
    slip = _LETTER_FOR_DIGIT.search(line.clean)
    if slip:
        return line.fault(
            f"{slip[0]} has a letter where a digit should be.",
            "Write the digits 1 and 0, not the letters l, I and O.",
        )
    return None


def _named(line: Line, found: list[re.Match[str]]) -> Iterator[Figure]:
    """Give each figure its words: those before it, or after it where the line begins with one."""
    text = line.clean
    edges = [0, *(edge for match in found for edge in match.span()), len(text)]
    pieces = [text[start:end] for start, end in zip(edges[::2], edges[1::2], strict=True)]
    before = _has_words(pieces[0])
    for index, match in enumerate(found):
        name = pieces[index] if before else pieces[index + 1]
        aside = before and index > 0 and name.strip().endswith("(")
        if aside:
            name = pieces[index + 1].partition(")")[0]
        elif before and index == len(found) - 1:
            name = f"{name} {pieces[-1]}"
        if not _has_words(name) and len(found) > 1:
            raise Refusal(
                line.fault(
                    "Two percentages stand beside each other.", "Write one line for each of them."
                )
            )
        yield _figure(line, match, name.strip(f" {SURE}{DOUBTFUL}."), aside)


def _has_words(piece: str) -> bool:
    return re.search("[A-Za-z]", piece) is not None


def _figure(line: Line, match: re.Match[str], name: str, aside: bool) -> Figure:
    digits = match["digits"].rstrip(".,-")
    leader = line.clean[match.start() - 1 : match.start()]
    try:
        if digits.startswith("-"):
            raise Unreadable(f"{digits} is below nought.", "Write it without the minus sign.")
        number = read_numeral(digits)
    except Unreadable as why:
        raise Refusal(line.fault(why.sentence, why.remedy)) from None
    hides_a_point = leader == DOUBTFUL or (leader == SURE and digits.startswith("0"))
    if hides_a_point and "." not in digits:
        raise Refusal(
            line.fault(
                f"The dots run into the figure: {digits} or .{digits}?",
                "Put a space before the figure, and a nought before its decimal point.",
            )
        )
    size = Fraction(1, PPM_PER_PERCENT) if _is_ppm(match["unit"]) else Fraction(1)
    decimals = len(re.split("[.,]", digits)[1]) if re.search("[.,]", digits) else 0
    return Figure(
        name=name,
        percent=number * size,
        last_digit=size / 10**decimals,
        leader=leader if leader == SURE else "",
        aside=aside,
        has_unit=bool(match["unit"]),
    )


def _is_ppm(unit: str | None) -> bool:
    return unit is not None and unit.lower() in ("ppm", "mg/kg")
