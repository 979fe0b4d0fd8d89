"""The grade in a line of a label: `3-4-4`, and the tails some carry, such as `21-0-0-24S`."""

import re
from collections.abc import Iterator
from fractions import Fraction

from halfpail.domain.label import Kind, Statement
from halfpail.domain.label_lines import Line
from halfpail.domain.label_wording import understand
from halfpail.domain.matter import PRIMARY, Nutrient

_NUMBER = r"(?:(?:0|[1-9][0-9]{0,2})(?:\.[0-9]{1,4})?|\.[0-9]{1,4})"
_TAIL = rf"(?:[ ,]*[-+(]{{1,2}} ?{_NUMBER} ?%? ?[A-Za-z]{{1,2}}[0-9A-Za-z]*\b\)?)*"
_GRADE = re.compile(
    rf"(?<![\w.,/-])({_NUMBER})%? ?- ?({_NUMBER})%? ?- ?({_NUMBER})%?({_TAIL})(?![\w/-]|[.,][0-9])"
)
_TAIL_ENTRY = re.compile(rf"({_NUMBER}) ?%? ?([A-Za-z][0-9A-Za-z]*)")


def take_grade(line: Line, *, elemental: bool = False) -> tuple[tuple[Statement, ...], Line]:
    """The figures of the grades in a line, and the line without them.

    >>> from halfpail.domain.label_lines import lines_of
    >>> found, rest = take_grade(lines_of("Lawn 21-0-0-24S")[0])
    >>> [(s.nutrient.value, int(s.percent)) for s in found], rest.clean
    ([('N', 21), ('P2O5', 0), ('K2O', 0), ('S', 24)], 'Lawn')
    """
    grades = list(_GRADE.finditer(line.clean))
    found = tuple(s for match in grades for s in _statements(line, match, elemental))
    rest = _GRADE.sub(" ", line.clean).strip()
    return found, Line(number=line.number, typed=line.typed, clean=rest)


def _statements(line: Line, match: re.Match[str], elemental: bool) -> Iterator[Statement]:
    for nutrient, digits in zip(PRIMARY, match.groups(), strict=False):
        stated = nutrient.element if elemental else nutrient.value
        yield _statement(line, nutrient, stated, digits)
    for digits, symbol in _TAIL_ENTRY.findall(match[4]):
        wording = understand(symbol, elemental=elemental)
        if wording and wording.nutrient not in PRIMARY:
            yield _statement(line, wording.nutrient, wording.stated, digits)


def _statement(line: Line, nutrient: Nutrient, stated: str, digits: str) -> Statement:
    decimals = len(digits.partition(".")[2])
    return Statement(
        line=line.number,
        text=line.typed.strip(),
        nutrient=nutrient,
        stated=stated,
        kind=Kind.GRADE,
        percent=Fraction(digits),
        last_digit=Fraction(1, 10**decimals),
    )
