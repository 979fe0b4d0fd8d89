"""Whole rounds at half full, and pails for a weight."""

from fractions import Fraction

import pytest

from halfpail.domain.mix import Part, stir
from halfpail.domain.pail import pailful, pails_for, rounds_for
from tests.unit.domain.bags import bag

# Three scoops of a litre, at half a kilogram a litre: 3 L and 1.5 kg a round.
ROUND = stir([Part(bag=bag("meal", 4, density=Fraction(1, 2)), scoops=3)], Fraction(1))


def test_whole_rounds_stay_at_or_below_half():
    pail = pailful(ROUND, Fraction(20))
    assert (pail.rounds, pail.volume_l, pail.mass_kg) == (3, Fraction(9), Fraction(9, 2))
    assert pail.full_share == Fraction(9, 20)
    assert pailful(ROUND, Fraction(18)).rounds == 3
    assert pailful(ROUND, Fraction(18) - Fraction(1, 10**9)).rounds == 2


def test_a_round_too_big_for_the_pail():
    small = pailful(ROUND, Fraction(5))
    assert small.rounds == 0
    assert pails_for(Fraction(1), small) is None


@pytest.mark.parametrize(("mass", "rounds", "pails"), [(0, 0, 0), ("4.5", 3, 1), ("4.6", 4, 2)])
def test_for_a_weight(mass, rounds, pails):
    pail = pailful(ROUND, Fraction(20))
    assert rounds_for(Fraction(mass), ROUND) == rounds
    assert pails_for(Fraction(mass), pail) == pails


@pytest.mark.parametrize(("pail", "full"), [(0, "1/2"), (20, 0), (20, "3/2")])
def test_no_such_pail(pail, full):
    with pytest.raises(ValueError, match="pail"):
        pailful(ROUND, Fraction(pail), Fraction(full))
