"""A recipe in whole scoops, what it is wished to be, and how far it may be off."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class GradeTarget:
    """A wished grade [percent] by nutrient, each with the tolerance allowed either side [percent].

    A nutrient that is not named is free.
    """

    percent: Mapping[str, Fraction] = field(hash=False)
    tolerance: Mapping[str, Fraction] = field(hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class RatioTarget:
    """A wished ratio to nitrogen by nutrient (kg per kg N): low, aim and high of each.

    A purpose is a ratio target whose phosphorus is free or only limited upwards.
    """

    low: Mapping[str, Fraction] = field(hash=False)
    aim: Mapping[str, Fraction] = field(hash=False)
    high: Mapping[str, Fraction] = field(hash=False)


Target = GradeTarget | RatioTarget


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """Whole scoops by bag key, in lowest terms unless it is a batch."""

    scoops: Mapping[str, int] = field(hash=False)
