"""Lime requirement by equation from a buffer test, as pure calcium carbonate.

Each equation is written in the units of its source; the answer is turned into kg/m² at the end.
None lowers a pH: at or above the target the answer is nought.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from halfpail.quantities.units import size_of

NONE = Fraction(0)
_LB_PER_ACRE = size_of("lb") / size_of("acre")
_TONS_PER_ACRE = size_of("short ton") / size_of("acre")

# Where all acid of the Mehlich extract is neutralised; the line of the North Carolina equation.
MEHLICH_NEUTRAL = Fraction("6.6")
_ROOT_PLACES = 10**12


def mehlich_acidity(buffer_ph: Fraction) -> Fraction:
    """Acidity of a soil [meq per 100 cm³] from its Mehlich buffer pH [pH].

    North Carolina Department of Agriculture, notes to the lime factor table: (6.6 - buffer) x 4.

    >>> mehlich_acidity(Fraction("6.3"))
    Fraction(6, 5)
    """
    return max(NONE, (MEHLICH_NEUTRAL - buffer_ph) * 4)


def mehlich_need(acidity: Fraction, soil_ph: Fraction, target_ph: Fraction) -> Fraction:
    """Lime requirement [kg/m²] from Mehlich acidity [meq per 100 cm³] and two pH figures [pH].

    North Carolina: tons per acre = acidity x (target - pH) / (6.6 - pH), before any credit. Its
    own example, 1.2 at pH 5.0 to 6.0, is 0.75 ton an acre.

    Raises:
        ValueError: the soil is sour at or above the neutral point of the buffer.

    >>> need = mehlich_need(Fraction("1.2"), Fraction(5), Fraction(6))
    >>> need * size_of("acre") / size_of("short ton")
    Fraction(3, 4)
    """
    if target_ph <= soil_ph:
        return NONE
    if soil_ph >= MEHLICH_NEUTRAL:
        raise ValueError("the equation ends at pH 6.6")
    share = (target_ph - soil_ph) / (MEHLICH_NEUTRAL - soil_ph)
    return acidity * share * _TONS_PER_ACRE


def acidity_need(acidity: Fraction, soil_ph: Fraction, goal_ph: Fraction) -> Fraction:
    """Lime requirement [kg/m²] from exchangeable acidity [meq per 100 g], to 6.5 or 7.0 [pH].

    Pennsylvania, field crops, 7 inches deep: to 7.0 a thousand pounds an acre for each unit; to
    6.5, 840 for each where the acidity is above 4, else 2000 lb.

    Raises:
        ValueError: another goal.

    >>> need = acidity_need(Fraction("9.7"), Fraction(5), Fraction("6.5"))
    >>> float(need * size_of("acre") / size_of("lb"))
    8148.0
    """
    if goal_ph not in (Fraction("6.5"), 7):
        raise ValueError("the equation has the goals 6.5 and 7.0")
    if soil_ph >= goal_ph:
        return NONE
    if goal_ph == 7:
        return acidity * 1000 * _LB_PER_ACRE
    return (acidity * 840 if acidity > 4 else Fraction(2000)) * _LB_PER_ACRE


def exchangeable_hydrogen(buffer_ph: Fraction) -> Fraction:
    """Exchangeable acid [meq per 100 g] from the Adams-Evans buffer pH [pH]: 8 x (8.00 - buffer).

    University of Georgia, procedure of the soil testing laboratory.

    >>> exchangeable_hydrogen(Fraction("7.6"))
    Fraction(16, 5)
    """
    return max(NONE, 8 * (8 - buffer_ph))


def unsaturation(ph: Fraction) -> Fraction:
    """Share of a soil's exchange sites without bases [0-1] at a pH, by the Adams-Evans curve.

    pH = 7.79 - 5.55 h + 2.27 h², believed from Adams and Evans 1962 and not checked; the root is
    exact to twelve places.

    Raises:
        ValueError: the curve has no such pH.

    >>> round(float(unsaturation(Fraction(5))), 4), round(float(unsaturation(Fraction("6.5"))), 4)
    (0.7073, 0.2601)
    """
    linear, square = Fraction("5.55"), Fraction("2.27")
    under_root = linear**2 - 4 * square * (Fraction("7.79") - ph)
    if under_root < 0 or ph > Fraction("7.79"):
        raise ValueError("the curve runs from pH 4.4 to 7.79")
    return (linear - _root(under_root)) / (2 * square)


def adams_evans_need(buffer_ph: Fraction, soil_ph: Fraction, target_ph: Fraction) -> Fraction:
    """Lime requirement [kg/m²] by the Adams-Evans buffer; all three figures [pH].

    8000 (8 - buffer) / h1 x (h1 - h2) x 1.5 pounds an acre, h1 and h2 the base unsaturation at
    the soil's pH and at the target (as quoted in a journal text of 2005).

    Raises:
        ValueError: the curve has no such pH.

    >>> need = adams_evans_need(Fraction("7.6"), Fraction(5), Fraction("6.5"))
    >>> round(float(need * size_of("acre") / size_of("lb")))
    3035
    """
    if target_ph <= soil_ph:
        return NONE
    now, then = unsaturation(soil_ph), unsaturation(target_ph)
    acid = max(NONE, 8 - buffer_ph)
    return 8000 * acid * (now - then) / now * Fraction(3, 2) * _LB_PER_ACRE


@dataclass(frozen=True, slots=True, kw_only=True)
class IndexLine:
    """Lime by the SMP lime index: `intercept` less `slope` for each point, both [kg/m²]."""

    intercept: Fraction
    slope: Fraction


# The lines speak of ground limestone of this neutralising value [kg CaCO3 per kg].
SMP_LIME_VALUE = Fraction(90, 100)


def smp_lime(buffer_ph: Fraction, lines: Mapping[Fraction, IndexLine]) -> dict[Fraction, Fraction]:
    """Lime of neutralising value 90 [kg/m²] by goal [pH], from the SMP buffer pH [pH].

    The lime index is ten times the buffer pH. Below nought the line says that none is needed.

    >>> line = IndexLine(intercept=Fraction("60.4"), slope=Fraction("0.87"))
    >>> smp_lime(Fraction("6.8"), {Fraction("6.5"): line})
    {Fraction(13, 2): Fraction(31, 25)}
    """
    index = 10 * buffer_ph
    return {goal: max(NONE, line.intercept - line.slope * index) for goal, line in lines.items()}


def smp_need(
    buffer_ph: Fraction, lines: Mapping[Fraction, IndexLine], soil_ph: Fraction, target_ph: Fraction
) -> Fraction:
    """Lime requirement [kg/m²] by the SMP buffer, between the goals by their distance [pH].

    Raises:
        ValueError: the target lies outside the goals.

    >>> line = IndexLine(intercept=Fraction("60.4"), slope=Fraction("0.87"))
    >>> lines = {Fraction("6.5"): line}
    >>> float(smp_need(Fraction("6.8"), lines, Fraction(6), Fraction("6.5")))
    1.116
    """
    if target_ph <= soil_ph:
        return NONE
    return between(smp_lime(buffer_ph, lines), target_ph) * SMP_LIME_VALUE


def between(by_target: Mapping[Fraction, Fraction], target_ph: Fraction) -> Fraction:
    """Lime [kg/m²] for a target [pH] on the straight line between the two goals beside it.

    Raises:
        ValueError: the target lies outside the goals.

    >>> between({Fraction(6): Fraction(1), Fraction(7): Fraction(2)}, Fraction("6.5"))
    Fraction(3, 2)
    """
    below, *rest = goals_beside(by_target, target_ph)
    if not rest:
        return by_target[below]
    share = (target_ph - below) / (rest[0] - below)
    return by_target[below] + share * (by_target[rest[0]] - by_target[below])


def goals_beside(goals: Iterable[Fraction], target_ph: Fraction) -> list[Fraction]:
    """The goal that is the target, or the two beside it, the lower first [pH].

    Raises:
        ValueError: the target lies outside the goals.

    >>> goals_beside([Fraction(6), Fraction(7)], Fraction("6.5"))
    [Fraction(6, 1), Fraction(7, 1)]
    """
    known = sorted(goals)
    if not known[0] <= target_ph <= known[-1]:
        raise ValueError(f"the goals run from pH {float(known[0])} to {float(known[-1])}")
    below = max(goal for goal in known if goal <= target_ph)
    above = min(goal for goal in known if goal >= target_ph)
    return sorted({below, above})


def _root(value: Fraction) -> Fraction:
    """Square root, rounded down to twelve places."""
    return Fraction(isqrt(int(value * _ROOT_PLACES**2)), _ROOT_PLACES)
