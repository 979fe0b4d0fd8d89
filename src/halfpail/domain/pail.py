"""Whole rounds of a recipe in a pail that is never more than so full, and pails for a weight."""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from halfpail.domain.mix import Mix

HALF = Fraction(1, 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pailful:
    """What is stirred in the pail at one go: whole rounds, their volume [L] and weight [kg].

    `rounds` is nought where one round already rises above the limit.
    """

    rounds: int
    volume_l: Fraction
    mass_kg: Fraction
    pail_l: Fraction

    @property
    def full_share(self) -> Fraction:
        """How full the pail is [0-1]."""
        return self.volume_l / self.pail_l


def pailful(mix: Mix, pail_l: Fraction, most_full: Fraction = HALF) -> Pailful:
    """The most whole rounds of a mix that leave the pail at most `most_full` full [0-1].

    Raises:
        ValueError: where the pail holds nothing, or the limit is not above 0 and at most 1.

    >>> from halfpail.domain.mix import Part, stir
    >>> mix = stir([Part(bag=bag("a", 4), scoops=3)], Fraction(1))
    >>> pailful(mix, Fraction(20)).rounds
    3
    """
    if pail_l <= 0 or not 0 < most_full <= 1:
        raise ValueError("a pail holds something, and is filled to more than 0 and at most 1")
    rounds = floor(pail_l * most_full / mix.volume_l)
    return Pailful(
        rounds=rounds,
        volume_l=rounds * mix.volume_l,
        mass_kg=rounds * mix.mass_kg,
        pail_l=pail_l,
    )


def rounds_for(mass_kg: Fraction, mix: Mix) -> int:
    """Whole rounds that give at least a weight of the mix [kg].

    >>> from halfpail.domain.mix import Part, stir
    >>> rounds_for(Fraction(7), stir([Part(bag=bag("a", 4), scoops=3)], Fraction(1)))
    3
    """
    return max(0, ceil(mass_kg / mix.mass_kg))


def pails_for(mass_kg: Fraction, one_pail: Pailful) -> int | None:
    """Pails to stir for at least a weight of the mix [kg]; None where no round fits the pail.

    >>> from halfpail.domain.mix import Part, stir
    >>> mix = stir([Part(bag=bag("a", 4), scoops=3)], Fraction(1))
    >>> pails_for(Fraction(10), pailful(mix, Fraction(20)))
    2
    """
    return max(0, ceil(mass_kg / one_pail.mass_kg)) if one_pail.rounds else None
