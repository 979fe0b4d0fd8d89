"""Sulfur that lowers the pH of a soil without free lime, by texture."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class SulfurStep:
    """Sulfur that takes a soil from one pH down to another [pH and kg/m²]."""

    from_ph: Fraction
    to_ph: Fraction
    rate_kg_per_m2: Fraction


def sulfur_need(steps: Sequence[SulfurStep], soil_ph: Fraction, target_ph: Fraction) -> Fraction:
    """Sulfur from the soil's pH down to a target [kg/m²], a step in part by its part of pH.

    Raises:
        ValueError: the soil or the target lies outside the steps.

    >>> steps = [SulfurStep(from_ph=Fraction(7), to_ph=Fraction(6), rate_kg_per_m2=Fraction(2)),
    ...          SulfurStep(from_ph=Fraction(6), to_ph=Fraction(5), rate_kg_per_m2=Fraction(4))]
    >>> sulfur_need(steps, Fraction("6.5"), Fraction("5.5"))
    Fraction(3, 1)
    """
    if target_ph >= soil_ph:
        return Fraction(0)
    highest, lowest = max(step.from_ph for step in steps), min(step.to_ph for step in steps)
    if soil_ph > highest or target_ph < lowest:
        raise ValueError(f"the steps run from pH {float(highest)} to {float(lowest)}")
    return sum((_within(step, soil_ph, target_ph) for step in steps), Fraction(0))


def _within(step: SulfurStep, soil_ph: Fraction, target_ph: Fraction) -> Fraction:
    down = min(soil_ph, step.from_ph) - max(target_ph, step.to_ph)
    return max(Fraction(0), down) / (step.from_ph - step.to_ph) * step.rate_kg_per_m2
