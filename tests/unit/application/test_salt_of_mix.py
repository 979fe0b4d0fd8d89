"""The salt of a mix: known for single salts, never guessed for meals; no urea with the seed."""

from dataclasses import replace
from fractions import Fraction

import pytest

from halfpail.application.salt_of_mix import salt_index_of, salt_steps, with_seed_kg_per_m
from halfpail.domain.mix import Mix, Part, stir
from halfpail.domain.stock import Bag
from halfpail.quantities.units import System, size_of
from tests.unit.domain.bags import bag

OZ_ON_100_FT = size_of("oz") / (100 * size_of("ft"))


def of(material: str, *grade: int) -> Bag:
    return replace(bag(material, *grade), materials=(material,))


def mix_of(*bags: Bag) -> Mix:
    return stir([Part(bag=one, scoops=1) for one in bags], Fraction(1))


def words(mix: Mix, system: System = System.US) -> str:
    return "\n".join(f"{step.reason} {step.sum}" for step in salt_steps(mix, system))


def test_it_is_the_mean_by_weight():
    """Half ammonium sulfate at 88.3, half potassium nitrate at 69.5: 78.9."""
    mix = mix_of(of("ammonium_sulfate", 21), of("potassium_nitrate", 13, 0, 46))
    assert salt_index_of(mix) == Fraction("78.9")
    assert "50% x 88.3 + 50% x 69.5 = 78.9" in words(mix)


@pytest.mark.parametrize("meal", ["blood_meal", "fish_meal", "poultry_litter", "kelp_meal"])
def test_of_meal_manure_and_kelp_it_is_not_known_and_not_nought(meal):
    mix = mix_of(of("ammonium_sulfate", 21), of(meal, 5))
    assert salt_index_of(mix) is None
    assert f"nobody lists one for {meal}" in words(mix)


def test_with_the_seed_it_goes_by_nitrogen_and_potash_on_the_poorest_soil():
    """0.49 oz of N and K2O on 100 ft (Kansas State University, computed); at 10 % ten times it."""
    most = with_seed_kg_per_m(mix_of(bag("blend", 6, 2, 4)))
    assert abs(most / OZ_ON_100_FT - Fraction("4.9")) < Fraction("0.06")


def test_no_urea_touches_seed_and_what_feeds_nothing_does_no_harm():
    assert with_seed_kg_per_m(mix_of(of("urea", 46), bag("blend", 4))) == 0
    assert "None of it may touch seed" in words(mix_of(of("urea", 46)))
    assert with_seed_kg_per_m(mix_of(of("gypsum"))) is None
    assert "neither nitrogen nor potash" in words(mix_of(of("gypsum")), System.METRIC)
