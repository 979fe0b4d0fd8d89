"""The mix as a sum on a board: a row for each bag, a total row, a divide row, the wish beside it.

Where a scoop of every bag weighs the same, scoops are all one needs: two scoops of a 3-4-4 count
2 x 3, 2 x 4, 2 x 4, and the total is divided by the scoops. Where they do not, the weight of the
scoops takes the place of their number.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.domain.mix import Mix, Part, part_mass_kg
from halfpail.quantities.numerals import mixed
from halfpail.quantities.rounding import decimal, down_to, shortest, to_nearest
from halfpail.quantities.units import System, size_of

TENTH = Fraction(1, 10)
_MORE_PLACES = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class ChalkedSum:
    """Rows of cells for a board, a page or a terminal; each is as long as `headings`."""

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    total: tuple[str, ...]
    divide: tuple[str, ...]
    wish: tuple[str, ...] | None

    @property
    def all_rows(self) -> tuple[tuple[str, ...], ...]:
        """Every row from the first bag to the wish."""
        return (*self.rows, self.total, self.divide, *((self.wish,) if self.wish else ()))


def grade_number(percent: Fraction) -> str:
    """A number of a mix's grade [percent] as it stands everywhere: tenths, the rest dropped.

    >>> grade_number(Fraction(14, 3)), grade_number(Fraction(4))
    ('4.6', '4')
    """
    return shortest(down_to(percent, TENTH), 1)


def grade_words(mix: Mix) -> str:
    """The grade of a mix by weight, in tenths [percent].

    >>> from halfpail.domain.mix import stir
    >>> grade_words(stir([Part(bag=bag("a", 3, 4, 4), scoops=1)], Fraction(1)))
    '3-4-4'
    """
    return "-".join(grade_number(100 * mix.analysis.of(nutrient)) for nutrient in PRIMARY)


def chalk_sum(
    mix: Mix, system: System, wish: Mapping[Nutrient, Fraction] | None = None
) -> ChalkedSum:
    """The sum that gives the grade of a mix, with the wished grade [percent] below it.

    >>> from halfpail.domain.mix import stir
    >>> parts = [Part(bag=bag("a", 3, 4, 4), scoops=2), Part(bag=bag("b", 12), scoops=1)]
    >>> for row in chalk_sum(stir(parts, Fraction(1)), System.US).all_rows: print(row)
    ('a', '2', '2 x 3 = 6', '2 x 4 = 8', '2 x 4 = 8')
    ('b', '1', '1 x 12 = 12', '1 x 0 = 0', '1 x 0 = 0')
    ('total', '3', '18', '8', '8')
    ('divide by 3', '', '6', '2.6', '2.6')
    """
    weighed = len({part.bag.density.typical for part in mix.parts}) > 1
    counts = _weights(mix, system) if weighed else _scoops(mix)
    rows = [
        (part.bag.name, *cells, *(_product(part, n, count, counts) for n in PRIMARY))
        for part, cells, count in zip(mix.parts, counts.cells, counts.numbers, strict=True)
    ]
    blanks = ("",) * len(counts.headings)
    return ChalkedSum(
        headings=("bag", *counts.headings, *PRIMARY),
        rows=tuple(rows),
        total=(
            "total",
            *counts.total_cells,
            *(shortest(_points(mix, n, counts), 2) for n in PRIMARY),
        ),
        divide=(
            f"divide by {counts.divisor}",
            *blanks,
            *(grade_number(100 * mix.analysis.of(nutrient)) for nutrient in PRIMARY),
        ),
        wish=None if wish is None else ("wish", *blanks, *(_wish(wish, n) for n in PRIMARY)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Counts:
    """What each label is multiplied with, part by part, and how that is written."""

    numbers: tuple[Fraction, ...]
    places: int
    headings: tuple[str, ...]
    cells: tuple[tuple[str, ...], ...]
    total_cells: tuple[str, ...]
    divisor: str


def _scoops(mix: Mix) -> _Counts:
    """Every scoop weighs the same: scoops count."""
    numbers = tuple(Fraction(part.scoops) for part in mix.parts)
    return _Counts(
        numbers=numbers,
        places=2,
        headings=("scoops",),
        cells=tuple((mixed(number),) for number in numbers),
        total_cells=(mixed(mix.scoops),),
        divisor=mixed(mix.scoops),
    )


def _weights(mix: Mix, system: System) -> _Counts:
    """Scoops weigh differently: weights count, to as many places as make the sum come out."""
    unit, fewest = ("oz", 1) if system is System.US else ("g", 0)
    exact = [part_mass_kg(part, mix.scoop_l) / size_of(unit) for part in mix.parts]
    tries = range(fewest, fewest + _MORE_PLACES + 1)
    places = next((p for p in tries if _comes_out(mix, _rounded(exact, p))), tries[-1])
    numbers = _rounded(exact, places)
    total = decimal(sum(numbers, Fraction(0)), places)
    return _Counts(
        numbers=numbers,
        places=places,
        headings=("scoops", unit),
        cells=tuple(
            (mixed(Fraction(part.scoops)), decimal(number, places))
            for part, number in zip(mix.parts, numbers, strict=True)
        ),
        total_cells=(mixed(mix.scoops), total),
        divisor=f"{total} {unit}",
    )


def _rounded(numbers: Sequence[Fraction], places: int) -> tuple[Fraction, ...]:
    return tuple(to_nearest(number, Fraction(1, 10**places)) for number in numbers)


def _comes_out(mix: Mix, numbers: Sequence[Fraction]) -> bool:
    """Whether these weights, worked with a pencil, give the grade of the mix."""
    total = sum(numbers, Fraction(0))
    return all(
        down_to(_sum(mix, nutrient, numbers) / total, TENTH)
        == down_to(100 * mix.analysis.of(nutrient), TENTH)
        for nutrient in PRIMARY
    )


def _sum(mix: Mix, nutrient: Nutrient, numbers: Sequence[Fraction]) -> Fraction:
    products = (
        number * _percent(part, nutrient) for part, number in zip(mix.parts, numbers, strict=True)
    )
    return sum(products, Fraction(0))


def _points(mix: Mix, nutrient: Nutrient, counts: _Counts) -> Fraction:
    return _sum(mix, nutrient, counts.numbers)


def _product(part: Part, nutrient: Nutrient, number: Fraction, counts: _Counts) -> str:
    percent = _percent(part, nutrient)
    written = mixed(number) if counts.headings == ("scoops",) else decimal(number, counts.places)
    return f"{written} x {shortest(percent, 2)} = {shortest(number * percent, 2)}"


def _percent(part: Part, nutrient: Nutrient) -> Fraction:
    return 100 * part.bag.label.analysis.of(nutrient)


def _wish(wish: Mapping[Nutrient, Fraction], nutrient: Nutrient) -> str:
    return shortest(wish[nutrient], 1) if nutrient in wish else "any"
