"""Prices of a bag, against the ceiling and the list price; W11 to W17 are in test_rate.py."""

from dataclasses import replace
from fractions import Fraction

import pytest

from halfpail.domain.matter import Nutrient
from halfpail.domain.price import Verdict, highest_price, judge, price_view
from tests.unit.domain.bags import bag


def test_every_price_of_a_bag():
    """W13 and W14: 27-0-0 at $330 a ton, 540 lb N, 61.11 cents (Noble Research Institute, 2007)."""
    ton = replace(bag("nitrate", 27), bag_kg=Fraction(2000), price=Fraction(330))
    view = price_view(ton, ceiling_per_kg=Fraction(1))
    assert view is not None
    assert view.per_kg == Fraction("0.165")
    assert abs(view.per_kg_of[Nutrient.N] - Fraction("0.6111")) < Fraction("0.0001")
    assert set(view.per_kg_of) == {Nutrient.N}
    assert view.verdict is Verdict.BELOW


def test_usable_nitrogen_costs_more_than_label_nitrogen():
    view = price_view(bag("meal", 4, usable="0.5", price_per_kg=2))
    assert view is not None
    assert view.per_kg_of[Nutrient.N] == 50
    assert view.per_kg_usable_n == 100


def test_no_usable_nitrogen_no_price_of_it():
    view = price_view(bag("stone", 0, 3, price_per_kg=2))
    assert view is not None and view.per_kg_usable_n is None


def test_sale_against_list():
    sale = replace(bag("meal", 4, price_per_kg=9), list_price=Fraction(12))
    view = price_view(sale)
    assert view is not None
    assert (view.saved, view.saved_share) == (Fraction(3), Fraction(1, 4))


@pytest.mark.parametrize(
    ("price", "verdict"),
    [("0.99", Verdict.BELOW), ("1", Verdict.AT), ("1.01", Verdict.ABOVE)],
)
def test_ceiling(price, verdict):
    assert judge(Fraction(price), Fraction(1)) is verdict


def test_the_highest_price_is_just_at_the_ceiling():
    most = highest_price(Fraction(25), Fraction("1.10"))
    assert judge(most / 25, Fraction("1.10")) is Verdict.AT


def test_a_bag_without_a_price_has_no_view():
    assert price_view(bag("found", 4)) is None
    free = price_view(replace(bag("own compost", 1, price_per_kg=0), bag_kg=None))
    assert free is not None and free.per_kg == 0
