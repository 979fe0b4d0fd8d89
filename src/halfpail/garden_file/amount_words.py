"""Exact amounts in the shortest words that read back as the same amount."""

from collections.abc import Callable, Iterator
from datetime import date
from enum import Enum
from fractions import Fraction

from halfpail.findings import Refusal
from halfpail.quantities.numerals import mixed
from halfpail.quantities.rounding import shortest, to_nearest
from halfpail.quantities.units import size_of

MOST_PLACES = 9
_FINEST = Fraction(1, 10**MOST_PLACES)
_CENT = Fraction(1, 100)

Faces = tuple[tuple[str, Fraction], ...]


def _faces(*units: str) -> Faces:
    return tuple((f"{{}} {unit}", size_of(unit)) for unit in units)


def _rates(*pairs: tuple[str, int, str]) -> Faces:
    """Weights for an area: the unit of weight, and how many of which unit of area."""
    return tuple(
        (f"{{}} {mass} per {'' if many == 1 else f'{many} '}{area}", _rate(mass, many, area))
        for mass, many, area in pairs
    )


def _rate(mass: str, many: int, area: str) -> Fraction:
    return size_of(mass) / (many * size_of(area))


MASS = _faces("kg", "lb", "oz", "g")
VOLUME = _faces("L", "cup", "gal", "tsp", "mL")
AREA = _faces("m²", "sq ft", "sq yd")
LENGTH = _faces("m", "ft", "in", "cm")
RATE = _rates(
    ("kg", 1, "m²"), ("g", 1, "m²"), ("lb", 100, "sq ft"), ("oz", 100, "sq ft"), ("lb", 1, "acre")
)
PRICE_PER_MASS: Faces = (("{} per kg", Fraction(1)), ("{} per lb", 1 / size_of("lb")))
NUMBER: Faces = (("{}", Fraction(1)),)
PERCENT: Faces = (("{} %", _CENT),)
MEQ: Faces = (("{} meq/100 g", Fraction(1)),)
CELSIUS: Faces = (("{} C", Fraction(1)),)
NITRATE: Faces = (("{} ppm NO3-N", Fraction(1)),)

# The unit stands at the end of a field's name; the longest ending that fits is meant.
_BY_ENDING: tuple[tuple[str, Faces], ...] = (
    ("_kg_per_m2", RATE),
    ("_per_kg", PRICE_PER_MASS),
    ("_m_per_year", LENGTH),
    ("_kg", MASS),
    ("_l", VOLUME),
    ("_m2", AREA),
    ("_m", LENGTH),
)


def faces_of(field: str) -> Faces:
    """The ways to write an amount whose field bears this name."""
    return next((faces for ending, faces in _BY_ENDING if field.endswith(ending)), NUMBER)


def written(
    value: object, faces: Faces = NUMBER, read: Callable[[str], object] | None = None
) -> object:
    """A value as it stands in a garden file.

    `read` is how a text is read again: the shortest that gives the value back is taken. What no
    short number can hold is rounded to nine decimal places.

    >>> from halfpail.quantities.reading import read_mass_kg
    >>> written(Fraction("11.33980925"), MASS, read_mass_kg), written(Fraction(1, 7), MASS)
    ('25 lb', '0.142857143 kg')
    >>> written(True), written(3), written(None)
    (True, 3, 'find')
    """
    if value is None:
        return "find"
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    if not isinstance(value, Fraction):
        return value
    nearest = faces[0][0].format(shortest(to_nearest(value / faces[0][1], _FINEST), MOST_PLACES))
    if read is None:
        return nearest
    exact = [text for text in _texts(value, faces) if reads_as(text, value, read)]
    return min(exact, key=len, default=nearest)


def reads_as(text: str, value: object, read: Callable[[str], object]) -> bool:
    """Whether a text is read as just this value."""
    try:
        return bool(read(text) == value)
    except Refusal:
        return False


def _texts(value: Fraction, faces: Faces) -> Iterator[str]:
    numbers = [(face, value / size) for face, size in faces]
    for face, number in numbers:
        if (number / _FINEST).denominator == 1:
            yield face.format(shortest(number, MOST_PLACES))
    for face, number in numbers:
        yield face.format(mixed(number))
