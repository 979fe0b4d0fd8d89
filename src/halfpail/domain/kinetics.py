"""First-order release and how warmth speeds it: rates, half-lives, Q10, Arrhenius.

Exponentials have no exact value, so this is worked in floats. A rate and its half-life may be per
day or per week, as long as the times of one call agree.
"""

from math import exp, log

_GAS_CONSTANT_J_PER_MOL_K = 8.314
_FREEZING_K = 273.15
# Below this the rule of Q10 no longer holds (Biology and Fertility of Soils 27:258, 1998).
_Q10_HOLDS_FROM_C = 5.0


def released(rate: float, time: float) -> float:
    """Share of a pool that has come after a time [0-1]: 1 - exp(-k t).

    `rate` k is per unit of the time. Poultry litter at 11 °C, 0.018 per day, in 28 days: 39.6 %
    (Journal of Environmental Quality 15:423, 1986).

    >>> round(released(0.018, 28), 3)
    0.396
    """
    return 1 - exp(-rate * time)


def half_life(rate: float) -> float:
    """Time in which half of what is left comes: ln 2 / k.

    Raises:
        ValueError: the rate is not above nought.

    >>> round(half_life(0.031), 2)
    22.36
    """
    if rate <= 0:
        raise ValueError("a rate is above nought")
    return log(2) / rate


def q10_between(rate: float, at_c: float, other_rate: float, other_c: float) -> float:
    """How many times faster it goes for 10 °C more, from the rates at two temperatures [°C].

    Raises:
        ValueError: both temperatures are the same.

    >>> round(q10_between(0.018, 15, 0.031, 25), 2)
    1.72
    """
    if at_c == other_c:
        raise ValueError("two temperatures are needed")
    return float((other_rate / rate) ** (10 / (other_c - at_c)))


def arrhenius_rate(intercept: float, slope_k: float, at_c: float) -> float:
    """Rate by log10 k = intercept - slope / T, with T in kelvin for `at_c` [°C].

    Surface soils have 6.14 and 2285 K, per week (Australian Journal of Soil Research, 1981).

    >>> round(arrhenius_rate(6.14, 2285, 25), 4)
    0.0299
    """
    return float(10 ** (intercept - slope_k / (at_c + _FREEZING_K)))


def activation_energy_kj_per_mol(slope_k: float) -> float:
    """Activation energy for the slope of an Arrhenius line in log10 [kJ/mol].

    >>> round(activation_energy_kj_per_mol(2285), 1)
    43.7
    """
    return slope_k * log(10) * _GAS_CONSTANT_J_PER_MOL_K / 1000


def pace(q10: float, at_c: float, reference_c: float) -> float:
    """How fast it goes at a temperature against the reference temperature, both [°C].

    Q10 to the power of a tenth of the difference. Below 5 °C, where that rule does not hold, the
    pace falls straight to nought at 0 °C, our own choice.

    >>> pace(2, 15, 25)
    0.5
    >>> pace(2, -1, 25)
    0.0
    """
    if at_c <= 0:
        return 0.0
    warm_c = max(at_c, _Q10_HOLDS_FROM_C)
    return float(q10 ** ((warm_c - reference_c) / 10)) * min(1.0, at_c / _Q10_HOLDS_FROM_C)
