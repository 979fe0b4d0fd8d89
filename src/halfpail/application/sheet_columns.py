"""Columns of a sheet: what stands in a cell, and the unit that stands in the head of its column."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from fractions import Fraction

from halfpail.quantities.units import System, size_of

Cell = str | bool | int | Fraction | date | None

_CENT = Fraction(1, 100)
_AREA_OF_RATE = 100 * size_of("sq ft")


class Kind(StrEnum):
    """What the cells of a column hold."""

    WORDS = "words"
    YES_NO = "yes or no"
    WHOLE = "whole number"
    NUMBER = "number"
    DATE = "date"
    MONEY = "money"
    PRICE = "price of a weight"
    MASS = "weight"
    LIGHT = "light weight"
    VOLUME = "volume"
    AREA = "area"
    DEPTH = "depth"
    RATE = "weight for an area"
    PERCENT = "percent"
    PPM = "parts per million"
    NITRATE = "nitrate nitrogen"
    MEQ = "milliequivalents"
    TEMPERATURE = "temperature"


# The word in the head, as the readers of amounts know it, and its size in the project's own units.
_UNITS: dict[Kind, tuple[tuple[str, Fraction], tuple[str, Fraction]]] = {
    Kind.MASS: (("lb", size_of("lb")), ("kg", Fraction(1))),
    Kind.LIGHT: (("oz", size_of("oz")), ("g", size_of("g"))),
    Kind.VOLUME: (("cups", size_of("cup")), ("L", Fraction(1))),
    Kind.AREA: (("sq ft", size_of("sq ft")), ("m²", Fraction(1))),
    Kind.DEPTH: (("in", size_of("in")), ("cm", size_of("cm"))),
    Kind.RATE: (
        ("lb per 100 sq ft", size_of("lb") / _AREA_OF_RATE),
        ("g per m²", size_of("g")),
    ),
    Kind.PRICE: (("per lb", 1 / size_of("lb")), ("per kg", Fraction(1))),
    Kind.PERCENT: (("%", _CENT), ("%", _CENT)),
    Kind.PPM: (("ppm", Fraction(1)), ("ppm", Fraction(1))),
    Kind.NITRATE: (("ppm NO3-N", Fraction(1)), ("ppm NO3-N", Fraction(1))),
    Kind.MEQ: (("meq/100 g", Fraction(1)), ("meq/100 g", Fraction(1))),
    Kind.TEMPERATURE: (("°F", Fraction(1)), ("°C", Fraction(1))),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Units:
    """The units of a sheet's heads: a system, and the currency of its money."""

    system: System = System.US
    currency: str = "USD"

    def word(self, kind: Kind) -> str:
        """The unit in the head of a column; nothing where it has none.

        >>> Units().word(Kind.RATE), Units(currency="EUR").word(Kind.MONEY), Units().word(Kind.DATE)
        ('lb per 100 sq ft', 'EUR', '')
        """
        if kind is Kind.MONEY:
            return self.currency
        if kind is Kind.PRICE:
            return f"{self.currency} {self._unit(kind)[0]}"
        return self._unit(kind)[0] if kind in _UNITS else ""

    def size(self, kind: Kind) -> Fraction:
        """The size of that unit in the project's own [kg, L, m, m², kg/m²]; else one.

        >>> Units().size(Kind.MASS) == size_of("lb")
        True
        """
        return self._unit(kind)[1] if kind in _UNITS else Fraction(1)

    def _unit(self, kind: Kind) -> tuple[str, Fraction]:
        us, metric = _UNITS[kind]
        return metric if self.system is System.METRIC else us


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column: the key in the garden file, the head, and what a cell holds.

    A cell of a kind with a unit holds a number in the unit of the head, or words with a unit of
    their own (`7 lb 8 oz`). `example` is such words; `needed` columns must not be empty.
    """

    key: str
    head: str
    kind: Kind = Kind.WORDS
    needed: bool = False
    example: str = ""
    meaning: str = ""

    def head_in(self, units: Units) -> str:
        """The head with its unit.

        >>> Column(key="weight", head="weight of a bag", kind=Kind.MASS).head_in(Units())
        'weight of a bag (lb)'
        """
        unit = units.word(self.kind)
        return f"{self.head} ({unit})" if unit else self.head


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """One sheet: its name, what its rows are, and its columns.

    `name` is the name of the sheet, and of the file in a zip of CSV.
    """

    name: str
    rows_are: str
    columns: tuple[Column, ...]

    def heads(self, units: Units) -> tuple[str, ...]:
        """The first row of the sheet."""
        return tuple(one.head_in(units) for one in self.columns)

    def column(self, key: str) -> Column:
        """The column of a key.

        Raises:
            KeyError: there is none.
        """
        found = next((one for one in self.columns if one.key == key), None)
        if found is None:
            raise KeyError(key)
        return found


def column_of(kind: Kind) -> Callable[..., Column]:
    """A short way to write many columns of one kind."""

    def column(key: str, head: str, example: str = "", meaning: str = "") -> Column:
        return Column(key=key, head=head, kind=kind, example=example, meaning=meaning)

    return column
