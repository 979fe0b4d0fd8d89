"""Bags under other names: the same ingredients, or numbers that could pass for each other."""

from dataclasses import replace
from fractions import Fraction

from halfpail.application.group_same_stuff import Sameness, SameStuff, group_same_stuff
from halfpail.domain.stock import Bag
from tests.unit.domain.bags import Number, bag


def made_of(key: str, *sources: str, **how: Number) -> Bag:
    plain = bag(key, **how)
    return replace(plain, label=replace(plain.label, derived_from=sources))


def keys(groups: tuple[SameStuff, ...], same_in: Sameness) -> list[tuple[str, ...]]:
    return [group.bags for group in groups if group.same_in is same_in]


def test_the_same_ingredients_in_any_order_and_under_any_name():
    bags = [
        made_of("green", "feather meal", "bone meal", n=6, price_per_kg=2),
        made_of("red", "steamed bone meal", "hydrolyzed feather meal", n=3, price_per_kg=3),
        made_of("blue", "feather meal", n=12, price_per_kg=4),
    ]
    assert keys(group_same_stuff(bags), Sameness.INGREDIENTS) == [("green", "red")]


def test_bags_of_unknown_ingredients_are_not_the_same_by_them():
    bags = [
        made_of("one", "moon dust", "bone meal", n=4),
        made_of("two", "moon dust", "bone meal", n=9),
    ]
    assert group_same_stuff(bags) == ()


# The table of allowances is remembered (labels-and-lime, section 2.5): 4 % N may be found at
# 3.51 %. So the cases stand far from its edge and hold whatever its last digits are.
def test_numbers_within_what_a_label_may_fall_short():
    bags = [bag("four", "4.0", 4, 4), bag("hardly less", "3.8", 4, 4), bag("three", 3, 4, 4)]
    assert keys(group_same_stuff(bags), Sameness.EFFECT) == [("four", "hardly less")]


def test_quick_nitrogen_is_not_the_same_as_slow():
    assert group_same_stuff([bag("quick", 10, usable=1), bag("slow", 10, usable="0.5")]) == ()


def test_every_bag_of_a_group_could_pass_for_every_other():
    chain = [bag(str(n), str(n), 4, 4) for n in ("4.0", "3.7", "3.4", "3.1")]
    for group in group_same_stuff(chain):
        numbers = [Fraction(key) for key in group.bags]
        assert max(numbers) - min(numbers) < Fraction(1, 2)


def test_bags_worth_different_sums_to_a_plan_do_not_do_the_same():
    bags = [bag("one", 4, 4, 4), bag("other", 4, 4, 4)]
    assert group_same_stuff(bags, {"one": Fraction(2), "other": Fraction(1)}) == ()
    alike = group_same_stuff(bags, {"one": Fraction(2), "other": Fraction(19, 10)})
    assert keys(alike, Sameness.EFFECT) == [("one", "other")]


def test_a_larger_bag_may_be_worth_less_by_weight():
    bags = [bag("one", 4, 4, 4), replace(bag("big", 4, 4, 4), bag_kg=Fraction(9))]
    alike = group_same_stuff(bags, {"one": Fraction(2), "big": Fraction(1)})
    assert keys(alike, Sameness.EFFECT) == [("one", "big")]


def test_prices_lie_apart_by_weight_and_by_usable_nitrogen():
    bags = [
        bag("dear", 4, 4, 4, usable="0.5", price_per_kg=3),
        bag("cheap", 4, 4, 4, usable="0.5", price_per_kg=2),
    ]
    (group,) = group_same_stuff(bags)
    assert group.by_weight is not None and group.by_usable_n is not None
    assert (group.by_weight.lowest_price_per_kg, group.by_weight.highest_price_per_kg) == (2, 3)
    assert group.by_usable_n.lowest_price_per_kg == 100
    assert group.by_usable_n.highest_price_per_kg == 150
    assert group.cheapest == "cheap"


def test_a_group_without_prices_has_no_spread():
    (group,) = group_same_stuff([bag("one", 4), bag("other", 4)])
    assert (group.by_weight, group.by_usable_n, group.cheapest) == (None, None, None)
