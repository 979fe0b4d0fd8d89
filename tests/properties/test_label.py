"""Labels: oxide and element there and back, read and print and read, nothing ever breaks."""

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from halfpail.application.read_label import understand_label
from halfpail.domain.derived_from import recognise, slips
from halfpail.domain.guarantee import guaranteed_percent
from halfpail.domain.label import Analysis
from halfpail.domain.label_print import print_label
from halfpail.domain.label_reading import read_label
from halfpail.domain.matter import (
    OXIDE,
    Nutrient,
    factor,
    from_element,
    from_oxide,
    to_element,
    to_oxide,
)
from halfpail.findings import Refusal
from halfpail.reference.materials import materials

shares = st.fractions(min_value=0, max_value=1, max_denominator=10**6)
small_shares = st.fractions(min_value=0, max_value=Fraction(1, 16), max_denominator=10**5)
analyses = st.dictionaries(st.sampled_from(list(Nutrient)), small_shares, min_size=1).map(
    lambda found: Analysis(shares=found)
)
LABEL_WORDS = st.sampled_from(
    [
        *(
            "Total Nitrogen (N)",
            "Available Phosphate (P2O5)",
            "Soluble Potash",
            "Calcium",
            "as CaO",
        ),
        *("5%", "0.10%", "....", " . ", "\n", "\t", "3-4-4", "10", "-", "Urea Nitrogen", "(", ")"),
        *(
            "Derived from:",
            "urea",
            "kelp meal",
            ",",
            "and",
            "max",
            "ppm",
            "½",
            "\u202e",
            "Iron (Fe)",
        ),
    ]
)


@given(st.sampled_from(list(OXIDE)), shares)
def test_oxide_and_element_there_and_back(nutrient, share):
    assert to_oxide(nutrient, from_oxide(nutrient, share)) == share
    assert to_element(nutrient, from_element(nutrient, share)) == share
    assert from_element(nutrient, to_element(nutrient, share)) == share


@given(st.sampled_from(list(OXIDE)))
def test_there_and_back_is_one(nutrient):
    there = factor(OXIDE[nutrient], nutrient.element, nutrient.element)
    assert there * factor(nutrient.element, OXIDE[nutrient], nutrient.element) == 1


@given(shares)
def test_a_guarantee_is_never_above_the_truth_and_close_below(share):
    percent = guaranteed_percent(share)
    assert 0 <= 100 * share - percent < 1
    assert guaranteed_percent(percent / 100) == percent


@given(analyses)
def test_what_is_printed_is_read_and_printed_the_same(analysis):
    printed = print_label(analysis)
    try:
        label = read_label(printed)
    except Refusal:
        assert not any(guaranteed_percent(share) for share in analysis.shares.values())
        return
    promised = {
        nutrient: guaranteed_percent(share) / 100
        for nutrient, share in analysis.shares.items()
        if guaranteed_percent(share)
    }
    assert label.analysis.shares == promised
    assert print_label(label.analysis) == printed


@settings(max_examples=200)
@given(st.lists(LABEL_WORDS, max_size=12).map(" ".join))
def test_any_jumble_is_read_or_refused(text):
    try:
        answer = understand_label(text)
    except Refusal as refusal:
        assert all(fault.sentence and fault.remedy for fault in refusal.faults)
    else:
        total = sum(answer.label.analysis.shares.values())
        assert 0 < total <= 1 or answer.label.analysis.total_p2o5


@given(st.text(max_size=80))
def test_any_text_is_read_or_refused(text):
    try:
        understand_label(text)
    except Refusal as refusal:
        assert refusal.faults


@given(st.text(alphabet="abcdefghi", max_size=7), st.text(alphabet="abcdefghi", max_size=7))
def test_slips_count_the_same_from_both_sides(one, other):
    assert slips(one, other) == slips(other, one)
    assert (slips(one, other) == 0) == (one == other)


@given(st.lists(st.sampled_from(materials()), min_size=1, max_size=5, unique_by=lambda m: m.key))
def test_sources_keep_their_order(listed):
    found = recognise(tuple(material.name for material in listed), materials())
    assert [material.key for material in found.materials] == [m.key for m in listed]
