"""Prices of a bag, against the ceiling and the list price; W11 to W17 are in test_rate.py."""

from dataclasses import replace
from fractions import Fraction

import pytest

from halfpail.domain.matter import Nutrient
from halfpail.domain.price import Verdict, highest_price, judge, price_view
from halfpail.quantities.units import size_of
from tests.unit.domain.bags import bag


def test_every_price_of_a_bag():
    """27-0-0 at $330 a ton, 540 lb N, 61.11 cents (W13 and W14: research institute, June 2007)."""
    ton = replace(bag("nitrate", 27), bag_kg=Fraction(2000), price=Fraction(330))
    view = price_view(ton, ceiling_per_kg=Fraction(1))
    assert view is not None
    assert view.per_kg == Fraction("0.165")
    assert abs(view.per_kg_of[Nutrient.N] - Fraction("0.6111")) < Fraction("0.0001")
    assert set(view.per_kg_of) == {Nutrient.N}
    assert view.verdict is Verdict.BELOW


@pytest.mark.parametrize(
    ("grade", "dollars_a_ton", "nutrient", "dollars_a_lb", "tolerance"),
    [
        ((46, 0, 0), 412, Nutrient.N, "0.45", "0.005"),  # W11, research institute, June 2007
        ((34, 0, 0), 370, Nutrient.N, "0.54", "0.005"),  # W12, the same
        ((46, 0, 0), 567, Nutrient.N, "0.62", "0.005"),  # W15, New Mexico State Guide A-133
        ((0, 46, 0), 996, Nutrient.P2O5, "1.08", "0.005"),  # W16, the same
        ((46, 0, 0), 462, Nutrient.N, "0.50", "0.005"),  # W17, farm page, March 2011
        ((21, 0, 0), 343, Nutrient.N, "0.82", "0.005"),  # W17, the same
    ],
)
def test_printed_prices_of_nutrients_through_a_bag_in_kilograms(
    grade, dollars_a_ton, nutrient, dollars_a_lb, tolerance
):
    ton_kg = size_of("short ton")
    ton = replace(bag("ton", *grade), bag_kg=ton_kg, price=Fraction(dollars_a_ton))
    view = price_view(ton)
    assert view is not None
    per_lb = view.per_kg_of[nutrient] * size_of("lb")
    assert abs(per_lb - Fraction(dollars_a_lb)) <= Fraction(tolerance)


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
