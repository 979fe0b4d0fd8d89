"""Temperatures as people type and read them: °C or °F, always with the unit."""

import re
from fractions import Fraction

from halfpail.findings import Fault, Refusal
from halfpail.quantities.rounding import to_nearest
from halfpail.quantities.units import System

# The ice point is 32 °F, and 9 °F are 5 °C (NIST Special Publication 811, appendix B.8).
_ICE_POINT_F = 32
_C_PER_F = Fraction(5, 9)
_TYPED = re.compile(
    r"([-\N{MINUS SIGN}]?[0-9]{1,3}(?:[.,][0-9]{1,3})?) ?°? ?([cf])?", re.IGNORECASE
)
_COLDEST_C, _WARMEST_C = -60, 60


def celsius(fahrenheit: Fraction) -> Fraction:
    """°C for °F [°C].

    >>> celsius(Fraction(50)), celsius(Fraction(-40))
    (Fraction(10, 1), Fraction(-40, 1))
    """
    return (fahrenheit - _ICE_POINT_F) * _C_PER_F


def fahrenheit(celsius: Fraction) -> Fraction:
    """°F for °C [°F].

    >>> fahrenheit(Fraction(10))
    Fraction(50, 1)
    """
    return celsius / _C_PER_F + _ICE_POINT_F


def read_temperature_c(text: str, place: str = "", unit: str | None = None) -> Fraction:
    """A temperature of ground or air [°C]; `unit` is meant where none is typed.

    Raises:
        Refusal: it is no temperature, has no unit, or is none that a garden has.

    >>> read_temperature_c("50 F"), read_temperature_c("-2.5 °C")
    (Fraction(10, 1), Fraction(-5, 2))
    """
    match = _TYPED.fullmatch(" ".join(text.split()))
    if match is None:
        raise _refused(text, place, "This is no temperature.")
    letter = (match[2] or unit or "").upper()
    if not letter:
        raise _refused(text, place, "There is no unit.")
    number = Fraction(match[1].replace("\N{MINUS SIGN}", "-").replace(",", "."))
    found = celsius(number) if letter == "F" else number
    if not _COLDEST_C <= found <= _WARMEST_C:
        raise _refused(text, place, "No garden is so cold or so hot.")
    return found


def temperatures_of(text: str, unit: str = "") -> tuple[str, ...]:
    """Each of several temperatures on one line, in words of its own.

    They are parted by spaces, commas or semicolons; a unit at the end holds for all without one,
    and `unit` where none is typed at all.

    >>> temperatures_of("24 F, 27 F"), temperatures_of("-2,5; 3 °C"), temperatures_of("1,2", "C")
    (('24 F', '27 F'), ('-2,5 C', '3 C'), ('1 C', '2 C'))
    """
    found: list[str] = []
    parts = [part.strip(",") for part in re.split(r"[;\s]+", text.replace("°", " "))]
    for part in parts if len(parts) > 1 else text.split(","):
        if part.upper() in ("C", "F") and found:
            found[-1] += f" {part}"
        elif part.strip():
            found.append(part.strip())
    last = found[-1][-1].upper() if found else ""
    common = last if last in ("C", "F") else unit
    return tuple(
        words if words[-1].upper() in ("C", "F") else f"{words} {common}".strip() for words in found
    )


def show_temperature(temperature_c: Fraction, system: System) -> str:
    """A temperature [°C] to the whole degree, in °F or °C.

    >>> show_temperature(Fraction(10), System.US), show_temperature(Fraction(-5, 2), System.METRIC)
    ('50 °F', '-2 °C')
    """
    shown = fahrenheit(temperature_c) if system is System.US else temperature_c
    return f"{to_nearest(shown, Fraction(1))} °{'F' if system is System.US else 'C'}"


def _refused(text: str, place: str, sentence: str) -> Refusal:
    remedy = "Write a number and its unit: 50 F or 10 C."
    return Refusal(Fault(place=place, read=text, sentence=sentence, remedy=remedy))
