"""The nitrate test before side-dressing: enough nitrate in the ground, and nothing is fed."""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from halfpail.domain.matter import molar_mass_g_per_mol


class SideDress(StrEnum):
    """What the test says."""

    FEED = "feed"
    SKIP = "skip"


@dataclass(frozen=True, slots=True, kw_only=True)
class NitrateLine:
    """The band in which the published line lies [mg NO3-N per kg soil]."""

    low_mg_per_kg: Fraction
    high_mg_per_kg: Fraction


def read_nitrate_test(nitrate_n_mg_per_kg: Fraction, line: NitrateLine) -> SideDress:
    """Skip at or above the low end of the line, else feed [mg NO3-N per kg].

    No side-dressing at or above 20 to 25 mg/kg (Texas A&M, Vegetable Production Management, 2006);
    the low end is taken, since more than enough is what washes down.

    Raises:
        ValueError: a figure below nought.

    >>> line = NitrateLine(low_mg_per_kg=Fraction(20), high_mg_per_kg=Fraction(25))
    >>> str(read_nitrate_test(Fraction(19), line)), str(read_nitrate_test(Fraction(25), line))
    ('feed', 'skip')
    """
    if nitrate_n_mg_per_kg < 0:
        raise ValueError("a soil test is not below nought")
    return SideDress.SKIP if nitrate_n_mg_per_kg >= line.low_mg_per_kg else SideDress.FEED


def within(nitrate_n_mg_per_kg: Fraction, line: NitrateLine) -> bool:
    """Whether a figure lies in the band, where sources differ [mg NO3-N per kg].

    >>> within(Fraction(22), NitrateLine(low_mg_per_kg=Fraction(20), high_mg_per_kg=Fraction(25)))
    True
    """
    return line.low_mg_per_kg <= nitrate_n_mg_per_kg < line.high_mg_per_kg


def nitrate_nitrogen(nitrate: Fraction) -> Fraction:
    """Nitrogen in an amount of nitrate, NO3 [any unit, the same for both].

    45 ppm NO3 is 10 ppm NO3-N (University of California, nitrogen in irrigation water).

    >>> round(float(nitrate_nitrogen(Fraction(45))), 1)
    10.2
    """
    return nitrate * molar_mass_g_per_mol("N") / molar_mass_g_per_mol("NO3")
