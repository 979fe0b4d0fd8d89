"""The phosphorus account of a bed: all P2O5 that came, what harvests took, what it does to a test.

Bone and rock count in full: the label shows what is available, the ground receives all of it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from halfpail.domain.need import Movement, expected_test

NONE = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class PhosphorusYear:
    """A year of a bed: P2O5 given in all, and P2O5 its harvests took [kg/m²]."""

    year: int
    given_kg_per_m2: Fraction = NONE
    removed_kg_per_m2: Fraction = NONE


@dataclass(frozen=True, slots=True, kw_only=True)
class PhosphorusLine:
    """One line of the account: the year, the balance after it, and the test to be expected.

    `balance_kg_per_m2` runs on from year to year and may be below nought; `expected_mg_per_kg` is
    what a test after the year would show, None where none was made before it.
    """

    year: PhosphorusYear
    balance_kg_per_m2: Fraction
    expected_mg_per_kg: Fraction | None

    @property
    def surplus_kg_per_m2(self) -> Fraction:
        """What came beyond what harvests took [kg/m²], never below nought."""
        return max(NONE, self.balance_kg_per_m2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A soil test of phosphorus [mg/kg] and the year after which it was made."""

    mg_per_kg: Fraction
    year: int


def phosphorus_account(
    years: Sequence[PhosphorusYear], movement: Movement, tested: Measured | None = None
) -> tuple[PhosphorusLine, ...]:
    """The account line by line, oldest year first [kg/m²]; a test counts for the years after it.

    Twenty pounds of P2O5 an acre beyond the removal lift a test by about one part per million.

    >>> from halfpail.sources import Citation, Mark
    >>> movement = Movement(nutrient="P2O5", oxide_kg_per_m2=Fraction(2), years=4,
    ...                     citation=Citation(mark=Mark.PROPOSAL))
    >>> years = [PhosphorusYear(year=year, given_kg_per_m2=Fraction(5),
    ...                         removed_kg_per_m2=Fraction(1)) for year in (2025, 2026)]
    >>> tested = Measured(mg_per_kg=Fraction(30), year=2025)
    >>> [(line.year.year, int(line.balance_kg_per_m2), line.expected_mg_per_kg)
    ...  for line in phosphorus_account(years, movement, tested)]
    [(2025, 4, None), (2026, 8, Fraction(32, 1))]
    """
    lines: list[PhosphorusLine] = []
    balance = since = NONE
    for year in years:
        change = year.given_kg_per_m2 - year.removed_kg_per_m2
        balance += change
        expected = None
        if tested and year.year > tested.year:
            since += change
            expected = expected_test(tested.mg_per_kg, since, movement)
        lines.append(
            PhosphorusLine(year=year, balance_kg_per_m2=balance, expected_mg_per_kg=expected)
        )
    return tuple(lines)


def room_kg_per_m2(stop_kg_per_m2: Fraction, surplus_kg_per_m2: Fraction) -> Fraction:
    """What may still come beyond the removal before the account stops it [kg/m²].

    >>> room_kg_per_m2(Fraction(5), Fraction(7))
    Fraction(0, 1)
    """
    return max(NONE, stop_kg_per_m2 - surplus_kg_per_m2)
