"""Writing exact amounts for people, in the units they use and no finer than they can measure.

Each amount is rounded to the nearest step of the first row of its scale that it still fits, an
exact half upwards. The same amount is written the same way on screen, card and handout, and what is
written here `reading` reads back.
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from halfpail.quantities.numerals import mixed
from halfpail.quantities.rounding import decimal, shortest, to_nearest
from halfpail.quantities.units import System, size_of, unit_named

# A page of a large garden writes thousands of amounts, and most of them again the next time.
REMEMBERED = 10_000
_SIGNS = {"USD": "$", "EUR": "€", "GBP": "£"}


@dataclass(frozen=True, slots=True)
class _Face:
    """How amounts below `below` units are written: the unit, the step, and a smaller unit."""

    unit: str
    step: Fraction
    below: Fraction | None = None
    then: str = ""

    def fits(self, size: Fraction) -> bool:
        return self.below is None or self.rounded(size) < self.below * size_of(self.unit)

    def rounded(self, size: Fraction) -> Fraction:
        return to_nearest(size, self.step * size_of(self.then or self.unit))

    def write(self, size: Fraction) -> str:
        rounded = self.rounded(size)
        if not self.then:
            return self.counted(rounded / size_of(self.unit), self.unit)
        whole, rest = divmod(rounded, size_of(self.unit))
        text = self.counted(Fraction(whole), self.unit)
        return f"{text} {self.counted(rest / size_of(self.then), self.then)}" if rest else text

    def counted(self, number: Fraction, word: str) -> str:
        unit = unit_named(word)
        decimal_step = self.step.denominator >= 10
        digits = shortest(number, 2) if decimal_step else mixed(number)
        return f"{digits} {unit.symbol if 0 < number <= 1 else unit.plural}"


def _face(unit: str, step: str, below: str | None = None, then: str = "") -> _Face:
    return _Face(unit, Fraction(step), None if below is None else Fraction(below), then)


_MASS = {
    System.US: (
        _face("oz", "1/4", "1"),
        _face("oz", "1/2", "16"),
        _face("lb", "1", "10", then="oz"),
        _face("lb", "1/2", "100"),
        _face("lb", "1"),
    ),
    System.METRIC: (
        _face("g", "1", "100"),
        _face("g", "5", "1000"),
        _face("kg", "0.01", "10"),
        _face("kg", "0.1", "100"),
        _face("kg", "1"),
    ),
}
_VOLUME = {
    System.US: (
        _face("tsp", "1/4", "3"),
        _face("tbsp", "1/2", "4"),
        _face("cup", "1/4", "1"),
        _face("cup", "1/2", "16"),
        _face("gal", "1/4", "10"),
        _face("gal", "1/2", "100"),
        _face("gal", "1"),
    ),
    System.METRIC: (
        _face("mL", "1", "50"),
        _face("mL", "5", "250"),
        _face("mL", "10", "1000"),
        _face("L", "0.1", "100"),
        _face("L", "1"),
    ),
}
_AREA = {
    System.US: (
        _face("sq ft", "1/2", "10"),
        _face("sq ft", "1", "43560"),
        _face("acre", "0.01"),
    ),
    System.METRIC: (
        _face("m²", "0.01", "10"),
        _face("m²", "0.1", "100"),
        _face("m²", "1", "10000"),
        _face("ha", "0.01"),
    ),
}
_LENGTH = {
    System.US: (
        _face("in", "1/2", "12"),
        _face("in", "1", "48"),
        _face("ft", "1", "20", then="in"),
        _face("ft", "1"),
    ),
    System.METRIC: (
        _face("cm", "1", "100"),
        _face("m", "0.01", "10"),
        _face("m", "0.1"),
    ),
}


@lru_cache(maxsize=REMEMBERED)
def show_mass(mass_kg: Fraction, system: System) -> str:
    """A weight [kg] in words: ounces, pounds with ounces, pounds; or grams, kilograms.

    >>> show_mass(Fraction("2.041165665"), System.US)
    '4 lb 8 oz'
    """
    return _write(mass_kg, _MASS[system])


@lru_cache(maxsize=REMEMBERED)
def show_volume(volume_l: Fraction, system: System) -> str:
    """A volume [L] in words: spoons below a quarter cup, then cups, then gallons; or mL and L.

    >>> show_volume(Fraction("0.6"), System.US)
    '2 1/2 cups'
    """
    return _write(volume_l, _VOLUME[system])


@lru_cache(maxsize=REMEMBERED)
def show_area(area_m2: Fraction, system: System) -> str:
    """An area [m²] in words.

    >>> show_area(Fraction(3), System.US)
    '32 sq ft'
    """
    return _write(area_m2, _AREA[system])


@lru_cache(maxsize=REMEMBERED)
def show_length(length_m: Fraction, system: System) -> str:
    """A length [m] in words.

    >>> show_length(Fraction("0.9"), System.US)
    '35 in'
    """
    return _write(length_m, _LENGTH[system])


@lru_cache(maxsize=REMEMBERED)
def show_rate(rate_kg_per_m2: Fraction, system: System) -> str:
    """A weight for an area [kg/m²] as lb per 100 sq ft or g per m².

    >>> show_rate(Fraction("0.05"), System.METRIC)
    '50 g per m²'
    """
    if system is System.METRIC:
        return f"{_figures(rate_kg_per_m2 / size_of('g'), 1)} g per m²"
    pounds = rate_kg_per_m2 / size_of("lb") * 100 * size_of("sq ft")
    return f"{_figures(pounds, 2)} lb per 100 sq ft"


def show_money(amount: Fraction, currency: str = "USD") -> str:
    """A sum of money to the cent; the sign of its currency, or the code after it.

    >>> show_money(Fraction("12.995")), show_money(Fraction(3), "CHF")
    ('$13.00', '3.00 CHF')
    """
    digits = decimal(abs(amount), 2)
    minus = "-" if amount < 0 and digits != "0.00" else ""
    sign = _SIGNS.get(currency)
    return f"{minus}{sign}{digits}" if sign else f"{minus}{digits} {currency}"


def show_price_per_mass(price_per_kg: Fraction, currency: str, system: System) -> str:
    """Money for a weight [money/kg] to the cent, per lb or per kg.

    >>> show_price_per_mass(Fraction(1), "USD", System.US)
    '$0.45 per lb'
    """
    unit = "kg" if system is System.METRIC else "lb"
    return f"{show_money(price_per_kg * size_of(unit), currency)} per {unit}"


def show_percent(percent: Fraction, places: int = 1) -> str:
    """A share [percent] with so many decimal places.

    >>> show_percent(Fraction(7, 2))
    '3.5%'
    """
    return f"{decimal(percent, places)}%"


def show_scoops(scoops: Fraction, measure: Fraction = Fraction(1, 4)) -> str:
    """A number of level scoops to the smallest measure given.

    >>> show_scoops(Fraction(9, 4)), show_scoops(Fraction(1, 4)), show_scoops(Fraction(1))
    ('2 1/4 scoops', '1/4 scoop', '1 scoop')
    """
    rounded = to_nearest(scoops, measure)
    return f"{mixed(rounded)} {'scoop' if 0 < rounded <= 1 else 'scoops'}"


def _write(size: Fraction, scale: tuple[_Face, ...]) -> str:
    if size < 0:
        raise ValueError("an amount below nought cannot be shown as a measure")
    face = next(face for face in scale if face.fits(size))
    if size > 0 and face.rounded(size) == 0:
        return f"less than {face.counted(face.step, face.unit)}"
    return face.write(size)


def _figures(value: Fraction, most_places: int) -> str:
    """At most so many decimal places, never more than one from 1 on and none from 10 on."""
    places = min(most_places, 2 - (value >= 1) - (value >= 10))
    least = Fraction(1, 10**places)
    return (
        f"less than {shortest(least, places)}" if 0 < value < least / 2 else shortest(value, places)
    )
