"""The mixing table against the pair rules of SEAP-3024 (IPNI, 2013)."""

from itertools import combinations

import pytest

from halfpail.reference.compatibility import Verdict, families, pair, pairs


@pytest.mark.parametrize(
    ("family", "other", "verdict"),
    [
        ("urea", "calcium_ammonium_nitrate", Verdict.APART),
        ("urea", "superphosphate", Verdict.APART),
        ("ammonium_phosphate", "limestone", Verdict.APART),
        ("superphosphate", "caustic_lime", Verdict.APART),
        ("superphosphate", "rock_phosphate", Verdict.APART),
        ("potassium_sulfate", "ammonium_phosphate", Verdict.MIX),
        ("potassium_chloride", "superphosphate", Verdict.MIX),
        ("potassium_sulfate", "calcium_ammonium_nitrate", Verdict.SAME_DAY),
    ],
)
def test_pair_rules(family, other, verdict):
    assert pair(family, other).verdict is verdict


def test_the_order_of_a_pair_does_not_matter():
    assert pair("manure", "limestone") == pair("limestone", "manure")


def test_every_pair_of_families_is_there():
    assert set(pairs()) == {frozenset(two) for two in combinations(families(), 2)}


def test_whoever_must_wait_or_stay_apart_is_told_why():
    silent = [two for two, one in pairs().items() if bool(one.reason) == (one.verdict == "Y")]
    assert silent == []


AMMONIA_GIVERS = (
    "ammonium_sulfate",
    "ammonium_nitrate",
    "ammonium_phosphate",
    "calcium_nitrate",
    "urea",
    "manure",
    "composted_manure",
    "meal",
)


@pytest.mark.parametrize("giver", AMMONIA_GIVERS)
def test_ash_and_hydrated_lime_never_meet_what_gives_ammonia(giver):
    """Not a published figure but a limit of safety: no verdict other than apart may slip in."""
    assert pair("caustic_lime", giver).verdict is Verdict.APART


def test_ground_limestone_may_go_with_meals_on_the_day():
    assert pair("limestone", "meal").verdict is Verdict.SAME_DAY
