"""A mix or a plan of another gardener fits into one's own garden without harm to what is there."""

from dataclasses import replace
from fractions import Fraction

import pytest

from halfpail.application.fit_shared import HERE, NEW, OTHER, fit_mix, free_name, mix_of
from halfpail.application.garden_entry import BagEntry, GardenEntry
from halfpail.application.kept import MixEntry
from halfpail.application.shared_pieces import SharedMix, share_mix
from halfpail.application.store_trouble import Missing
from halfpail.domain.garden import Preferences, Tools


def bag(name: str, label: str = "4-4-4", **more) -> BagEntry:
    return BagEntry(name=name, place="", label=label, **more)


def garden(*bags: BagEntry, scoop_l: int = 1) -> GardenEntry:
    tools = Tools(scoop_l=Fraction(scoop_l), pail_l=Fraction(20))
    return GardenEntry(name="G", bags=bags, beds=(), tools=tools, preferences=Preferences())


def shared(*bags: BagEntry, scoop_l: int = 1) -> SharedMix:
    scoops = {one.name: number for number, one in enumerate(bags, 1)}
    return SharedMix(mix=MixEntry(name="Pail", scoops=scoops), bags=bags, scoop_l=Fraction(scoop_l))


def test_a_bag_of_the_same_label_is_the_same_bag():
    own = garden(bag("All Purpose", "4-4-4\nTotal  Nitrogen 4 %"))
    fit = fit_mix(shared(bag("all  purpose", "4-4-4 Total Nitrogen 4 %")), own, ())
    assert fit.mix.scoops == {"All Purpose": 1}
    assert fit.new_bags == ()
    assert fit.bags[0].how == HERE


def test_another_label_under_the_same_name_stays_apart():
    fit = fit_mix(shared(bag("Meal", "5-5-5"), bag("Bone", "3-15-0")), garden(bag("meal")), ())
    assert [one.how for one in fit.bags] == [OTHER, NEW]
    assert [one.name for one in fit.new_bags] == ["Meal (2)", "Bone"]
    assert fit.mix.scoops == {"Meal (2)": 1, "Bone": 2}


def test_two_strange_bags_never_share_a_name():
    fit = fit_mix(shared(bag("Meal", "5-5-5"), bag("MEAL (2)", "6-6-6")), garden(bag("meal")), ())
    assert len({one.casefold() for one in fit.mix.scoops}) == 2


def test_the_scoop_weighed_is_ones_own():
    fit = fit_mix(shared(bag("Meal", scoop_weighs_kg=Fraction(3)), scoop_l=2), garden(), ())
    assert fit.new_bags[0].scoop_weighs_kg == Fraction(3, 2)


def test_a_mix_of_the_same_name_gets_a_number():
    assert fit_mix(shared(bag("a")), garden(), ["pail"]).mix.name == "Pail (2)"
    assert len(free_name("x" * 200, ["x" * 200])) <= 60


def test_labels_of_another_basis_are_not_taken():
    other = replace(shared(bag("a")), elemental_labels=True)
    assert "misread" in fit_mix(other, garden(), ()).why_not


def test_a_mix_is_stirred_by_the_scoop_of_who_made_it():
    made = mix_of(shared(bag("a", "4-4-4"), bag("b", "10-0-0")))
    # One scoop of 4 and two of 10, of the same weight each: 24 in three.
    assert made.analysis.grade.n == 8


def test_only_what_a_mix_needs_is_handed_on():
    own = garden(bag("a", price=Fraction(9), bag_kg=Fraction(5), shed_kg=Fraction(1), offered=3))
    mix = MixEntry(name="Pail", scoops={"a": 2}, note="from my aunt")
    (only,) = share_mix(mix, own).bags
    assert (only.price, only.shed_kg, only.offered, only.bag_kg) == (None, 0, None, 5)
    assert share_mix(mix, own).mix.note == ""


def test_a_mix_whose_bag_is_gone_cannot_be_handed_on():
    with pytest.raises(Missing):
        share_mix(MixEntry(name="Pail", scoops={"gone": 1}), garden(bag("a")))
