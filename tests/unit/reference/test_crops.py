"""Crops, their groups and the ranges without a soil test."""

from fractions import Fraction

import pytest

from halfpail.domain.bed import Ground, History, needs_without_test
from halfpail.quantities.units import size_of
from halfpail.reference.crops import crop_called, crop_group, crop_groups, crops
from halfpail.reference.passport import cells

LB_PER_100_SQ_FT = size_of("lb") / (100 * size_of("sq ft"))


@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ("tomato", "tomato"),
        ("Cherry  Tomato", "tomato"),
        ("ZUCCHINI", "summer_squash"),
        ("brussels-sprouts", "brussels_sprouts"),
        ("black eyed pea", "cowpea"),
        ("Strawberries", "strawberry"),
    ],
)
def test_a_crop_is_found_by_its_words(typed, key):
    assert crop_called(typed).key == key


def test_an_unknown_crop_is_not_guessed():
    assert crop_called("triffid") is None


def test_each_word_means_one_crop():
    words = [
        " ".join(word.casefold().replace("-", " ").split())
        for crop in crops().values()
        for word in {crop.name.casefold(), *(word.casefold() for word in crop.synonyms)}
    ]
    assert sorted(words) == sorted(set(words))


def test_forty_crops_each_in_a_group():
    assert len(crops()) >= 40
    assert {crop.group for crop in crops().values()} == set(crop_groups())


@pytest.mark.parametrize(
    ("key", "group"),
    [
        # Master Gardener Notes 711, Colorado State University: high N need, low N need.
        ("potato", "heavy"),
        ("sweet_corn", "heavy"),
        ("cabbage", "heavy"),
        ("bean", "legumes"),
        ("pea", "legumes"),
        # Fertilizing vegetables, part 2, University of Maryland: heavy feeders.
        ("broccoli", "heavy"),
    ],
)
def test_published_groups(key, group):
    assert crops()[key].group == group


def test_ranges_run_upwards():
    sides = ("least", "aim", "most", "cap")
    for line in cells("crop_groups"):
        figures = [Fraction(line[f"{side}_lb_per_100_sq_ft"]) for side in sides]
        assert figures == sorted(figures)


def test_groups_ask_for_more_and_more_nitrogen():
    aims = [group.ranges.n.aim for group in crop_groups().values()]
    assert aims == sorted(set(aims))


def test_published_rates_lie_within_the_ranges():
    """2 lb N per 1000 sq ft in general, 3 for heavy feeders (University of Maryland)."""
    for group, pounds in (("medium", Fraction("0.2")), ("heavy", Fraction("0.3"))):
        needed = crop_group(group).ranges.n
        assert needed.least <= pounds * LB_PER_100_SQ_FT <= needed.most


def test_ground_that_was_fed_aims_at_no_phosphorus():
    needs = needs_without_test(crop_group("heavy").ranges, Ground(history=History.FED))
    phosphorus = next(need for need in needs if need.nutrient == "P2O5")
    assert phosphorus.aim == 0
    assert phosphorus.cap > phosphorus.most


def test_compost_brings_phosphorus():
    """An inch over 100 sq ft brings about 0.6 lb P2O5."""
    per_m3 = crop_group("light").ranges.compost_p2o5_kg_per_m3
    inch_over_100_sq_ft_m3 = size_of("in") * 100 * size_of("sq ft")
    assert per_m3 * inch_over_100_sq_ft_m3 / size_of("lb") == Fraction("0.6")


def test_an_unknown_group_is_refused():
    with pytest.raises(KeyError):
        crop_group("greedy")
