"""A garden as typed becomes a garden, or is refused with everything that is wrong."""

from fractions import Fraction

import pytest

from halfpail.application.open_garden import open_garden
from halfpail.domain.bed import NeedRange
from halfpail.domain.garden import Garden
from halfpail.findings import Refusal
from halfpail.garden_file.reader import read_text
from halfpail.quantities.units import size_of
from halfpail.sources import Mark
from halfpail.wiring import sample_garden_text

PER_100_SQ_FT = size_of("lb") / (100 * size_of("sq ft"))

TOP = """
[tools]
scoop = "2 cups"
pail = "5 gal"
[[bags]]
name = "Blend"
label = "4-4-4"
[[beds]]
name = "North"
size = "100 sq ft"
"""


def opened(text: str) -> Garden:
    return open_garden(read_text(text)).garden


def need(text: str, nutrient: str) -> NeedRange:
    """The range of one nutrient for the only bed."""
    found = opened(TOP + text).beds[0].need(nutrient)
    assert found is not None
    return found


def per_100(found: NeedRange) -> list[Fraction]:
    """Least, aim, most and cap in lb per 100 sq ft."""
    return [side / PER_100_SQ_FT for side in (found.least, found.aim, found.most, found.cap)]


# The ranges are this project's own, not published; these tests hold the way they are chosen.


@pytest.mark.parametrize(
    ("crop", "least", "aim"),
    [
        ("peas", "0", "0"),
        ("carrots", "0.05", "0.10"),
        ("Tomatoes", "0.10", "0.18"),
        ("heavy", "0.20", "0.25"),
    ],
)
def test_nitrogen_follows_the_crop_or_its_group(crop, least, aim):
    assert per_100(need(f'crop = "{crop}"', "N"))[:2] == [Fraction(least), Fraction(aim)]


def test_phosphorus_of_fed_ground_is_what_a_crop_removes_up_to_the_stop():
    found = per_100(need('crop = "tomato"', "P2O5"))
    assert found == [0, 0, Fraction("0.05"), Fraction("0.55")]


def test_virgin_ground_may_aim_at_some_phosphorus():
    assert need('crop = "tomato"\nhistory = "virgin"', "P2O5").aim > 0


def test_half_an_inch_of_compost_for_three_years_means_nitrogen_only():
    # The rule and its 0.6 lb P2O5 an inch on 100 sq ft: 310 lb of moist compost at 0.2 %.
    text = 'crop = "tomato"\ncompost_each_year = "1/2 in"\ncompost_years = 3'
    assert per_100(need(text, "P2O5")) == [0, 0, 0, 0]
    assert per_100(need(text, "K2O")) == [0, 0, 0, 0]
    assert need(text, "N").aim > 0


def test_a_little_compost_narrows_the_room_for_phosphorus_by_its_surplus():
    text = 'crop = "tomato"\ncompost_each_year = "1/4 in"\ncompost_years = 2'
    # Twice (0.15 - 0.05) lb on 100 sq ft.
    assert per_100(need(text, "P2O5"))[3] == Fraction("0.55") - 2 * Fraction("0.10")


def test_more_compost_never_means_more_of_anything():
    caps = [
        sum(
            need(
                f'crop = "tomato"\ncompost_each_year = "{tenths}/10 in"\ncompost_years = 2', name
            ).cap
            for name in ("P2O5", "K2O")
        )
        for tenths in range(1, 10)
    ]
    assert caps == sorted(caps, reverse=True)


def test_a_typed_range_takes_the_place_of_the_table():
    rates = '{ aim = "0.2 lb per 100 sq ft", most = "0.3 lb per 100 sq ft" }'
    text = f'crop = "tomato"\nneed.K2O = {rates}'
    found = need(text, "K2O")
    assert per_100(found) == [0, Fraction("0.2"), Fraction("0.3"), Fraction("0.3")]
    assert found.citation.mark is Mark.TYPED
    assert need(text, "P2O5").citation.mark is Mark.PROPOSAL


def test_an_unknown_crop_will_do_where_nitrogen_is_typed():
    text = 'crop = "moonflower"\nneed.N = { aim = "1 g/m2", most = "2 g/m2" }'
    assert need(text, "N").aim == Fraction(1, 1000)


def test_an_unknown_crop_is_refused_with_near_ones_and_the_groups():
    with pytest.raises(Refusal) as refused:
        opened(TOP + 'crop = "tomatos"')
    (fault,) = refused.value.faults
    assert fault.place == "beds[1].crop (line 11)"
    assert "tomato" in fault.remedy and "heavy" in fault.remedy


def test_faults_of_file_labels_and_crops_come_together_in_order():
    text = TOP.replace("2 cups", "2 cupz").replace("4-4-4", "44-44-44") + 'crop = "tomatos"'
    with pytest.raises(Refusal) as refused:
        opened(text)
    places = [fault.place.split(",")[0].split(" ")[0] for fault in refused.value.faults]
    assert places == ["tools.scoop", "bags[1].label", "beds[1].crop"]


def test_a_bad_label_is_told_with_its_line():
    text = TOP + 'crop = "tomato"'
    with pytest.raises(Refusal) as refused:
        opened(text.replace('"4-4-4"', '"""\nTotal Nitrogen (N) 140%\n"""'))
    assert all("(line 7)" in fault.place for fault in refused.value.faults)


def test_a_missing_crop_is_told_once():
    with pytest.raises(Refusal) as refused:
        opened(TOP)
    assert [fault.sentence for fault in refused.value.faults] == ["crop is missing."]


def test_labels_may_state_the_elements():
    text = "[preferences]\nelemental_labels = true\n" + TOP + 'crop = "tomato"'
    grade = opened(text).bags[0].label.analysis.grade
    # P2O5 is 2.29 times P, K2O 1.20 times K, by their atomic weights.
    assert round(float(grade.p2o5), 2) == 9.17
    assert round(float(grade.k2o), 2) == 4.82


def test_the_sample_garden_is_whole_and_says_that_it_is_invented():
    text = sample_garden_text()
    garden = opened(text)
    assert "INVENTED" in text and "invented" in garden.name
    assert len(garden.beds) == 13
    assert len({bed.group for bed in garden.beds}) == 4
    assert len(garden.bags) == 14
    assert sum(1 for bag in garden.bags if bag.shed_kg) == 2
    assert sum(1 for bag in garden.bags if bag.straight_ok) == 1


def test_the_sample_garden_has_a_bed_of_each_kind():
    beds = read_text(sample_garden_text()).beds
    tests = [bed.soil_test for bed in beds if bed.soil_test]
    assert 0 < len(tests) < len(beds)
    assert any(test.ph and test.ph < Fraction("5.5") for test in tests)
    assert sum(1 for bed in beds if bed.container_l) == 1
    assert any(len(bed.crops) > 1 for bed in beds)
    hard_stops = [
        bed.name for bed in opened(sample_garden_text()).beds if bed.need("P2O5").cap == 0
    ]
    assert "Cabbage family" in hard_stops
