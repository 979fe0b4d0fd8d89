"""A recipe in whole scoops, what it is wished to be, and how far it may be off."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from halfpail.domain.stock import Bag


class PerNitrogen(StrEnum):
    """Which nitrogen a ratio is counted against."""

    LABEL = "label N"
    USABLE = "usable N, typical"


@dataclass(frozen=True, slots=True, kw_only=True)
class GradeTarget:
    """A wished grade [percent] by nutrient, each with the tolerance allowed either side [percent].

    A nutrient that is not named is free. A named one without a tolerance may be off by any
    amount, and still counts in how close a recipe is.
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
    per: PerNitrogen = PerNitrogen.LABEL


Target = GradeTarget | RatioTarget


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """Whole scoops by bag key, in lowest terms unless it is a batch."""

    scoops: Mapping[str, int] = field(hash=False)

    @property
    def bags(self) -> frozenset[str]:
        """Keys of the bags that are in it."""
        return frozenset(self.scoops)

    @property
    def total(self) -> int:
        """Scoops in one round."""
        return sum(self.scoops.values())


class Prefer(StrEnum):
    """Which of the allowed recipes is the best one."""

    CHEAPEST = "the cheapest"
    CLOSEST = "the closest"


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeWish:
    """What a mix should be, from which bags, and what the gardener will put up with.

    `avoid` holds keys of bags to leave out, `apart` pairs of keys that may not share a mix.
    With `shed_is_free` what only lies in the shed costs nothing. `alternatives` says how many
    other recipes to name; `scoop_l` is the size of the scoop [L].
    """

    target: Target
    bags: tuple[Bag, ...]
    prefer: Prefer = Prefer.CHEAPEST
    most_scoops: int = 12
    most_bags: int = 4
    avoid: frozenset[str] = frozenset()
    apart: frozenset[frozenset[str]] = frozenset()
    shed_is_free: bool = True
    alternatives: int = 3
    scoop_l: Fraction = Fraction(1)
