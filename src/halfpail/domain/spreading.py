"""How a larger amount is parted into several spreadings, months apart."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from halfpail.sources import Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class PartingRule:
    """From `least` on, counted upwards in whole `step`s [both kg/m²], in so many equal parts."""

    least: Fraction
    step: Fraction
    parts: int
    months_apart: int
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class Spreading:
    """Equal parts of an amount [kg/m²], months apart, and what waits for a new soil test."""

    part_kg_per_m2: Fraction
    parts: int
    months_apart: int = 0
    waits_kg_per_m2: Fraction = Fraction(0)
    rule: PartingRule | None = None

    @property
    def planned_kg_per_m2(self) -> Fraction:
        """All parts together [kg/m²], without what waits."""
        return self.part_kg_per_m2 * self.parts


def part(
    rate_kg_per_m2: Fraction,
    rules: Sequence[PartingRule],
    most_at_once: Fraction | None = None,
    weighing: Fraction = Fraction(1),
) -> Spreading:
    """An amount [kg/m²] parted by the strictest rule it reaches.

    No part is more than `most_at_once` [kg/m²]; what is beyond waits for a new test. A rule and
    that most count `weighing` kilograms for each kilogram of the material [kg/kg], where a pound
    of it does more than a pound of what the rule speaks of.

    >>> from halfpail.sources import Mark
    >>> halves = PartingRule(least=Fraction(11), step=Fraction(1), parts=2, months_apart=6,
    ...                      citation=Citation(mark=Mark.PROPOSAL))
    >>> [part(Fraction(rate), [halves]).parts for rate in (10, 11)]
    [1, 2]
    >>> part(Fraction(30), [halves], most_at_once=Fraction(10)).waits_kg_per_m2
    Fraction(10, 1)
    """
    counted = rate_kg_per_m2 * weighing
    reached = [rule for rule in rules if ceil(counted / rule.step) * rule.step >= rule.least]
    rule = max(reached, key=lambda one: one.parts, default=None)
    parts = rule.parts if rule else 1
    one = rate_kg_per_m2 / parts
    if most_at_once is not None:
        one = min(one, most_at_once / weighing)
    return Spreading(
        part_kg_per_m2=one,
        parts=parts,
        months_apart=rule.months_apart if rule else 0,
        waits_kg_per_m2=rate_kg_per_m2 - one * parts,
        rule=rule,
    )
