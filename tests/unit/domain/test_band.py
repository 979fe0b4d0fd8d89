"""Bands by hand on two-bag mixes, and by trying every corner of the box."""

from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest

from halfpail.domain.band import Band, mix_bands
from halfpail.domain.matter import Nutrient
from halfpail.domain.mix import Mix, Part, stir
from halfpail.domain.stock import Bag, Density, DensityBasis
from tests.unit.domain.bags import bag

TENTH = Fraction(1, 10)


def test_one_scoop_each_ten_per_cent_off():
    """10 % and 0 %: between 0.9/2.0 and 1.1/2.0 of 10 %."""
    mix = stir([Part(bag=bag("a", 10), scoops=1), Part(bag=bag("b"), scoops=1)], Fraction(1))
    bands = mix_bands(mix, TENTH)
    assert bands.shares[Nutrient.N] == Band(
        low=Fraction("0.045"), value=Fraction("0.05"), high=Fraction("0.055")
    )
    assert bands.mass_kg == Band(low=Fraction("1.8"), value=Fraction(2), high=Fraction("2.2"))


def test_the_allowance_is_one_sided():
    mix = stir([Part(bag=bag("a", 10), scoops=2)], Fraction(1))
    band = mix_bands(mix, TENTH, lambda nutrient, share: Fraction("0.005")).shares[Nutrient.N]
    assert band == Band(low=Fraction("0.095"), value=Fraction("0.1"), high=Fraction("0.1"))


def test_no_error_no_band():
    mix = stir(
        [Part(bag=bag("a", 4, 2), scoops=1), Part(bag=bag("b", 1, 5), scoops=2)], Fraction(1)
    )
    bands = mix_bands(mix, Fraction(0))
    for band in (*bands.shares.values(), bands.mass_kg, bands.usable_n):
        assert band.low == band.value == band.high


def _corners(mix: Mix, error: Fraction, above: list[Fraction], below: list[Fraction]):
    sides = [
        (
            part.scoops * mix.scoop_l * (1 - error) * part.bag.density.low,
            part.scoops * mix.scoop_l * (1 + error) * part.bag.density.high,
        )
        for part in mix.parts
    ]
    for masses in product(*sides):
        yield sum(m * a for m, a in zip(masses, above, strict=True)) / sum(
            m * b for m, b in zip(masses, below, strict=True)
        )


def _loose(one: Bag, low: str, high: str) -> Bag:
    density = Density(
        low=Fraction(low), typical=Fraction(1), high=Fraction(high), basis=DensityBasis.DEFAULT
    )
    return replace(one, density=density)


def test_every_corner_is_inside_and_the_ends_are_corners():
    bags = [
        _loose(bag("a", 10, 1, 2, usable="0.5", price_per_kg=1), "0.8", "1.1"),
        _loose(bag("b", 2, 6, 0, usable="0.4", price_per_kg=3), "0.9", "1.3"),
        _loose(bag("c", 0, 0, 20, price_per_kg=2), "0.7", "1.2"),
    ]
    mix = stir(
        [Part(bag=one, scoops=n) for one, n in zip(bags, (1, 3, 2), strict=True)], Fraction(1)
    )
    bands = mix_bands(mix, TENTH)
    ones = [Fraction(1)] * 3
    p2o5 = [one.label.analysis.of(Nutrient.P2O5) for one in bags]
    usable = [one.usable_n.typical for one in bags]
    prices = [one.price_per_kg or Fraction(0) for one in bags]
    for band, above, below in (
        (bands.shares[Nutrient.P2O5], p2o5, ones),
        (bands.usable_n, usable, ones),
        (bands.cost_per_kg, prices, ones),
        (bands.p2o5_per_usable_n, p2o5, usable),
    ):
        corners = list(_corners(mix, TENTH, above, below))
        assert band is not None
        assert (band.low, band.high) == (min(corners), max(corners))


def test_what_is_not_known_has_no_band():
    bands = mix_bands(stir([Part(bag=bag("stone", 0, 3), scoops=1)], Fraction(1)), TENTH)
    assert bands.cost_per_kg is None
    assert bands.p2o5_per_usable_n is None


@pytest.mark.parametrize("error", ["-0.1", "1"])
def test_a_scoop_cannot_err_so(error):
    mix = stir([Part(bag=bag("a", 10), scoops=1)], Fraction(1))
    with pytest.raises(ValueError, match="scoop error"):
        mix_bands(mix, Fraction(error))
