"""The shipped kinds of release against the one rule of usable nitrogen, and against each other."""

from fractions import Fraction

import pytest

from halfpail.domain.matter import Nutrient
from halfpail.domain.release import released_at
from halfpail.reference.decay_series import decay_of
from halfpail.reference.materials import material, materials
from halfpail.reference.phosphorus_by_ph import phosphorus_by_ph
from halfpail.reference.release import release_kinds, release_of, release_of_label
from halfpail.sources import Mark

WITH_NITROGEN = [
    one.key
    for one in materials()
    if Nutrient.N in one.contents and one.contents[Nutrient.N].typical > 0
]
# Pellets of 40 to 50 % come to 56 % in 120 days at 25 C by the corrected slow rate.
_POINTS_OFF = 0.06


@pytest.mark.parametrize("key", WITH_NITROGEN)
def test_every_material_with_nitrogen_is_of_one_kind(key):
    assert len([kind for kind in release_kinds().values() if key in kind.materials]) == 1


@pytest.mark.parametrize("key", WITH_NITROGEN)
def test_a_warm_season_agrees_with_the_rule_of_usable_nitrogen(key):
    one = material(key)
    kind = release_of(key)
    assert kind is not None
    season = released_at(kind.curve, 120, 20)
    if one.usable_insoluble_n is None or one.soluble_n == 1:
        assert season == 1
        return
    assert float(one.usable_insoluble_n.low) - _POINTS_OFF <= season
    assert season <= float(one.usable_insoluble_n.high) + _POINTS_OFF


def test_figures_that_are_fitted_say_so():
    for kind in release_kinds().values():
        assert kind.citation.mark in (Mark.PROPOSAL, Mark.COMMON_PRACTICE)


@pytest.mark.parametrize(
    ("percent", "key"),
    [(4, "granular_organics"), (12, "other_fast_meals"), (21, "quick"), (46, "quick")],
)
def test_a_bag_without_sources_is_read_by_its_nitrogen(percent, key):
    assert release_of_label(percent / 100).key == key


def test_a_percent_is_no_share():
    with pytest.raises(ValueError, match="between 0 and 1"):
        release_of_label(4)


def test_what_holds_no_nitrogen_releases_none():
    assert release_of("gypsum") is None


def test_moist_compost_is_not_credited_by_its_dry_figure():
    """100 lb as sold at half water brings 5 % of 0.6 lb, not of the 1.2 lb of dry matter."""
    nitrogen = material("plant_compost").contents[Nutrient.N].typical
    assert 100 * nitrogen * Fraction(5, 100) == Fraction(3, 100)


def test_residues_come_from_published_series_where_there_is_one():
    assert decay_of("poultry_litter").key == "poultry"
    assert decay_of("feather_meal") is None


@pytest.mark.parametrize(
    ("key", "ph", "percent"),
    [
        ("rock_phosphate", "5.0", 10),
        ("rock_phosphate", "6.0", 5),
        ("rock_phosphate", "7.5", 0),
        ("bone_meal_steamed", "6.5", 60),
        ("bone_meal_steamed", "7.0", 30),
        ("bone_meal_steamed", "8.0", 0),
    ],
)
def test_phosphorus_falls_with_ph(key, ph, percent):
    """Our own guesses, so only that each stands where the table puts it and says what it is."""
    group = phosphorus_by_ph(key)
    assert group.usable_share(Fraction(ph)) * 100 == percent
    assert "guess" in group.citation.locator
