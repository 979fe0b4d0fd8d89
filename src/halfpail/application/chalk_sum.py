"""The mix as a sum on a board: a row for each bag, a total row, a divide row, the wish beside it.

Where a scoop of every bag weighs the same, scoops are all one needs: two scoops of a 3-4-4 count
2 x 3, 2 x 4, 2 x 4, and the total is divided by the scoops. Where they do not, the weight of the
scoops takes the place of their number.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.domain.mix import Mix, Part, part_mass_kg
from halfpail.quantities.numerals import mixed
from halfpail.quantities.rounding import decimal, down_to, shortest
from halfpail.quantities.units import System, size_of

TENTH = Fraction(1, 10)


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
    counts = _Weights(mix, system) if weighed else _Scoops(mix)
    columns = [_column(mix, counts, nutrient) for nutrient in PRIMARY]
    rows = [
        (part.bag.name, *counts.cells(part), *(column[number] for column in columns))
        for number, part in enumerate(mix.parts)
    ]
    blanks = ("",) * (len(counts.headings))
    return ChalkedSum(
        headings=("bag", *counts.headings, *PRIMARY),
        rows=tuple(rows),
        total=("total", *counts.total_cells, *(_total(mix, counts, n) for n in PRIMARY)),
        divide=(
            f"divide by {counts.divisor}",
            *blanks,
            *(grade_number(100 * mix.analysis.of(nutrient)) for nutrient in PRIMARY),
        ),
        wish=None if wish is None else ("wish", *blanks, *(_wish(wish, n) for n in PRIMARY)),
    )


class _Scoops:
    """Every scoop weighs the same: scoops count."""

    headings: tuple[str, ...] = ("scoops",)

    def __init__(self, mix: Mix) -> None:
        self.total = mix.scoops
        self.divisor = mixed(mix.scoops)
        self.total_cells: tuple[str, ...] = (self.divisor,)

    def count(self, part: Part) -> Fraction:
        return Fraction(part.scoops)

    def shown(self, part: Part) -> str:
        return mixed(Fraction(part.scoops))

    def cells(self, part: Part) -> tuple[str, ...]:
        return (self.shown(part),)


class _Weights(_Scoops):
    """Scoops weigh differently: their weight counts, in ounces or grams."""

    def __init__(self, mix: Mix, system: System) -> None:
        super().__init__(mix)
        self.scoop_l = mix.scoop_l
        self.unit, self.places = ("oz", 1) if system is System.US else ("g", 0)
        self.headings = ("scoops", self.unit)
        self.total = mix.mass_kg / size_of(self.unit)
        self.divisor = f"{self._written(self.total)} {self.unit}"
        self.total_cells = (mixed(mix.scoops), self._written(self.total))

    def count(self, part: Part) -> Fraction:
        return part_mass_kg(part, self.scoop_l) / size_of(self.unit)

    def shown(self, part: Part) -> str:
        return self._written(self.count(part))

    def cells(self, part: Part) -> tuple[str, ...]:
        return (mixed(Fraction(part.scoops)), self.shown(part))

    def _written(self, weight: Fraction) -> str:
        return decimal(weight, self.places)


def _column(mix: Mix, counts: _Scoops, nutrient: Nutrient) -> list[str]:
    return [
        f"{counts.shown(part)} x {shortest(_percent(part, nutrient), 2)}"
        f" = {shortest(counts.count(part) * _percent(part, nutrient), 1)}"
        for part in mix.parts
    ]


def _percent(part: Part, nutrient: Nutrient) -> Fraction:
    return 100 * part.bag.label.analysis.of(nutrient)


def _total(mix: Mix, counts: _Scoops, nutrient: Nutrient) -> str:
    return shortest(counts.total * 100 * mix.analysis.of(nutrient), 1)


def _wish(wish: Mapping[Nutrient, Fraction], nutrient: Nutrient) -> str:
    return shortest(wish[nutrient], 1) if nutrient in wish else "any"
