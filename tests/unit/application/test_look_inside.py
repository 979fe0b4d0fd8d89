"""What is in a bag, told from its label and the shipped table of materials."""

from fractions import Fraction

import pytest

from halfpail.application.look_inside import look_inside
from halfpail.domain.label_reading import read_label
from halfpail.solvers.highs import Highs

# The label worked out in labels-and-lime, section 2.8, from a batch of 25, 25, 20, 18, 12 lb
# (computed). The shares are of the batch; the table's trade grades differ from its pure salts.
BLEND = """5-8-10
Total Nitrogen (N) 5%
     5% Ammoniacal Nitrogen
Available Phosphate (P2O5) 8%
Soluble Potash (K2O) 10%
Calcium (Ca) 8.0%
Magnesium (Mg) 1.0%
Sulfur (S) 15.0%
Derived from: ammonium sulfate, gypsum, potassium sulfate,
     triple superphosphate, magnesium sulfate.
"""
BATCH = {
    "ammonium_sulfate": 25,
    "gypsum": 25,
    "potassium_sulfate": 20,
    "triple_superphosphate": 18,
    "epsom_salt": 12,
}


def inside(text: str, name: str = "bag"):
    return look_inside(read_label(text), name, Highs())


def test_the_batch_lies_in_the_ranges_told():
    found = inside(BLEND)
    assert found.explained
    parts = {part.material: part for part in found.parts}
    assert set(parts) == {*BATCH, None}
    for key, percent in BATCH.items():
        share = Fraction(percent, 100)
        assert parts[key].least_share <= share <= parts[key].most_share
        assert abs(parts[key].likely_share - share) <= Fraction(3, 100)


def test_likely_shares_and_the_rest_are_one():
    assert sum(part.likely_share for part in inside(BLEND).parts) == 1


def test_the_working_adds_up_each_number_of_the_label():
    reasons = [step.reason for step in inside(BLEND).working]
    for nutrient in ("N", "P2O5", "K2O", "Ca", "Mg", "S"):
        assert any(reason.startswith(f"bag, {nutrient}: the label says") for reason in reasons)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("10-10-10\nDerived from: urea, sulfate of potash", "None of its sources holds any P2O5."),
        ("16-0-0\nDerived from: blood meal, feather meal", "the richest of its sources"),
        ("40-0-40\nDerived from: urea, muriate of potash", "give all its numbers at once"),
        ("4-4-4", "names no source"),
    ],
)
def test_a_label_that_cannot_be_explained_is_told_plainly(text, sentence):
    found = inside(text)
    assert not found.explained
    assert sentence in found.sentence
    assert all(part.least_share is None for part in found.parts)


def test_a_source_not_known_is_told():
    notices = inside("12-4-8\nDerived from: urea, moon dust, sulfate of potash, bone meal").notices
    assert any("moon dust" in notice.sentence for notice in notices)
    assert any("counted as holding nothing" in notice.sentence for notice in notices)


def test_an_order_that_does_not_fit_is_told_and_not_kept():
    found = inside("20-0-2\nDerived from: sulfate of potash, urea")
    assert found.explained
    assert found.parts[0].likely_share < found.parts[1].likely_share
    assert any("order" in notice.sentence for notice in found.notices)
