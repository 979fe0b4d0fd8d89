"""Rows of a spreadsheet: each fault in its words at its place, and what sound ones come to."""

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from halfpail.application.found_rows import Standing
from halfpail.domain.diary import Bought, Fed, Harvested, Made, Noted
from halfpail.domain.soil_test import Element
from halfpail.quantities.units import size_of
from tests.unit.application.sheets_of_rows import (
    looked_at,
    only,
    row_of,
    sample_now,
    sheet,
)

GOOD = {
    "Bags": {"bag": "Meal", "label": "4-4-4", "weight (lb)": "25", "price": "12.49"},
    "Beds": {"bed": "New bed", "crop": "tomato", "size": "4 x 12 ft"},
    "Soil tests": {"bed": "Salad bed", "method": "Mehlich-3 ICP", "P (ppm)": "42"},
    "Diary": {
        "day": "2027-05-12",
        "what": "fed",
        "bed": "Salad bed",
        "bag": "Blood meal",
        "scoops": "2",
    },
}
ODD = {"LONG 90": "x" * 90, "LONG 500": "x" * 500, "BIDI": "a\u202eb"}
BAD = Path(__file__).with_name("bad_rows.csv").read_text(encoding="utf-8")
CASES = list(csv.DictReader(BAD.splitlines()))
DIARY = ("day", "what", "bed", "bag", "mix", "crop", "bags", "rounds", "scoops", "weight", "note")


@pytest.mark.parametrize("table", GOOD)
def test_the_good_rows_are_good(table):
    (row,) = only(looked_at(sample_now(), row_of(table, GOOD[table]))).rows
    assert row.faults == ()


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case['head']} {case['cell']}")
def test_a_bad_cell_is_told_with_its_row_and_column(case):
    told = {**GOOD[case["table"]], case["head"]: ODD.get(case["cell"], case["cell"])}
    found = looked_at(sample_now(), row_of(case["table"], told))
    (row,) = only(found).rows
    (fault,) = row.faults
    assert (fault.place, fault.sentence) == (case["place"], case["sentence"])
    known = case["remedy"].removesuffix("*")
    assert fault.remedy.startswith(known) and (known or not fault.remedy)
    assert fault.read.isprintable()
    assert found.changes.count == 0


def test_a_bad_label_is_told_with_the_other_faults_of_its_row():
    told = {**GOOD["Bags"], "label": "99-99-99", "weight (lb)": "5 bushels", "price": "twelve"}
    (row,) = only(looked_at(sample_now(), row_of("Bags", told))).rows
    places = [fault.place for fault in row.faults]
    assert places == ["row 2, weight (lb)", "row 2, price", "row 2, label"]


def test_units_come_from_the_cell_else_from_the_head():
    rows = sheet(
        "Bags",
        ("product", "NPK", "weight (kg)", "in stock, lb"),
        ("A", "4-4-4", "#NUM 5", "3 kg"),
        ("B", "4-4-4", "10 lb", "3"),
    )
    first, second = (row.value for row in only(looked_at(sample_now(), rows)).rows)
    assert (first.bag_kg, first.shed_kg) == (5, 3)
    assert (second.bag_kg, second.shed_kg) == (10 * size_of("lb"), 3 * size_of("lb"))
    assert first.typed["weight"] == "5 kg"


def test_heads_may_stand_below_a_title_and_columns_beside_others():
    rows = sheet(
        "Sheet1",
        ("What we have in the barn",),
        (),
        ("colour", "fertilizer", "grade"),
        ("red", "Meal", "4-4-4"),
        ("", "", ""),
        ("blue", "Bone", "3-15-0"),
    )
    found = only(looked_at(sample_now(), rows))
    assert [(row.number, row.name) for row in found.rows] == [(4, "Meal"), (6, "Bone")]


def test_a_name_that_is_kept_is_left_alone_unless_the_file_is_to_be_believed():
    now = sample_now()
    rows = sheet("Bags", ("bag", "label", "price"), ("blood  MEAL", "", "8.50"))
    assert looked_at(now, rows).changes.count == 0
    (row,) = only(looked_at(now, rows)).rows
    assert (row.standing, row.differs) == (Standing.CHANGED, ("price: 9.49, in the file 8.5",))
    (change,) = looked_at(now, rows, put_over=True).changes.bags
    (before,) = [one for one in now.bags if one.value.name == "Blood meal"]
    assert change.seen == before
    assert (change.value.price, change.value.label) == (Fraction("8.5"), before.value.label)
    assert change.value.scoop_weighs_kg == before.value.scoop_weighs_kg


def test_a_name_spelled_otherwise_is_the_same_bag():
    rows = sheet("Bags", ("bag", "label"), ("BLOOD  meal", ""))
    (row,) = only(looked_at(sample_now(), rows)).rows
    assert (row.standing, row.value.name) == (Standing.SAME, "Blood meal")


def test_a_grade_does_not_take_the_place_of_the_whole_label_it_is_of():
    rows = sheet("Bags", ("bag", "label", "price"), ("Blood meal", "12-0-0", "8.50"))
    now = sample_now()
    (row,) = only(looked_at(now, rows)).rows
    assert row.differs == ("price: 9.49, in the file 8.5",)
    assert row.value.label == row.seen.value.label != "12-0-0"
    other = sheet("Bags", ("bag", "label"), ("Blood meal", "13-0-0"))
    assert only(looked_at(now, other)).rows[0].value.label == "13-0-0"


def test_the_three_numbers_may_stand_in_columns_of_their_own():
    heads = ("fertilizer", "N", "P", "K %", "price now")
    rows = sheet("Sheet1", heads, ("Meal", "#NUM 4", "3 %", "", ""), ("Kelp", "", "", "0.5", ""))
    first, second = only(looked_at(sample_now(), rows)).rows
    assert (first.value.label, second.value.label) == ("4-3-0", "0-0-0.5")
    doubtful = sheet("Bags", ("bag", "N"), ("Meal", "0.04"))
    (fault,) = only(looked_at(sample_now(), doubtful)).rows[0].faults
    assert (fault.place, fault.remedy) == ("row 2, N", "Write 0.04 % if that is meant.")


def test_a_name_twice_in_the_file_is_told():
    rows = sheet("Bags", ("bag", "label"), ("Meal", "4-4-4"), ("MEAL ", "3-3-3"))
    first, second = only(looked_at(sample_now(), rows)).rows
    assert first.faults == ()
    assert second.faults[0].sentence == "Row 2 has the same name."


def test_a_guarded_name_is_itself_again():
    rows = sheet("Bags", ("bag", "label"), ("'=1+1", "4-4-4"), ("'-5", "4-4-4"))
    assert [row.name for row in only(looked_at(sample_now(), rows)).rows] == ["=1+1", "-5"]


def test_a_soil_test_finds_a_bed_of_the_same_file():
    beds = sheet("Beds", ("bed", "crop", "size"), ("South", "kale", "48 sq ft"))
    tests = row_of("Soil tests", {**GOOD["Soil tests"], "bed": "south", "pH": "6.3"})
    found = looked_at(sample_now(), tests, beds)
    (change,) = found.changes.beds
    assert (change.value.name, change.value.crop, change.seen) == ("South", "kale", None)
    assert change.value.soil_test.ph == Fraction("6.3")
    assert change.value.soil_test.figures[0].element is Element.P


def test_a_soil_test_may_stand_in_the_row_of_its_bed():
    heads = ("bed", "crop", "size", "lab method", "P (ppm)", "soil pH")
    row = ("South", "kale", "48 sq ft", "Mehlich-3 ICP", "42", "6.3")
    found = looked_at(sample_now(), sheet("Sheet1", heads, row))
    (change,) = found.changes.beds
    assert (change.value.crop, change.value.soil_test.ph) == ("kale", Fraction("6.3"))
    wrong = looked_at(sample_now(), sheet("Sheet1", heads, (*row[:-1], "15")))
    assert [fault.place for fault in only(wrong).rows[0].faults] == ["row 2, soil pH"]


def test_a_first_soil_test_of_a_bed_is_new_and_another_is_not():
    now = sample_now()
    (first,) = only(looked_at(now, row_of("Soil tests", GOOD["Soil tests"]))).rows
    told = {**GOOD["Soil tests"], "bed": "Cabbage family"}
    (second,) = only(looked_at(now, row_of("Soil tests", told))).rows
    assert (first.standing, second.standing) == (Standing.NEW, Standing.CHANGED)


def test_a_needed_column_that_is_missing_is_told_once():
    rows = sheet("Bags", ("grade", "price"), *[("4-4-4", "12")] * 50)
    found = only(looked_at(sample_now(), rows))
    assert found.rows == ()
    assert [fault.sentence for fault in found.faults] == [
        "No column is chosen for “bag”: nothing of this sheet can be brought in without it."
    ]


def test_more_rows_than_a_garden_has_are_refused():
    rows = sheet("Bags", ("bag", "label"), *[(f"Meal {at}", "4-4-4") for at in range(201)])
    (fault,) = only(looked_at(sample_now(), rows)).faults
    assert (fault.read, fault.sentence) == ("201", "There are more than 200 rows here.")


def test_the_lines_of_a_diary_take_the_figures_of_the_day_along():
    rows = sheet(
        "Diary",
        DIARY,
        ("2027-03-01", "bought", "", "blood meal", "", "", "2", "", "", "", ""),
        ("2027-04-01", "made", "", "", "Spring Pail", "", "", "3", "", "", "dry day"),
        ("2027-05-01", "fed", "salad bed", "", "spring pail", "", "", "", "2 1/2", "", ""),
        ("2027-05-02", "fed", "Salad bed", "Blood meal", "", "", "", "", "", "1 lb", ""),
        ("#DAY 2027-05-20", "Harvest", "Salad bed", "", "", "", "", "", "", "4 lb", ""),
        ("2027-05-21", "note", "", "", "", "", "", "", "", "", "first slugs"),
    )
    found = only(looked_at(sample_now(), rows))
    assert [fault for row in found.rows for fault in row.faults] == []
    bought, made, mixed, straight, picked, noted = (row.value for row in found.rows)
    assert isinstance(bought, Bought) and (bought.bags, bought.bag) == (2, "Blood meal")
    assert isinstance(made, Made) and [one.scoops for one in made.taken] == [6, 3]
    assert made.note == "dry day"
    assert isinstance(mixed, Fed) and (mixed.bed, mixed.scoops) == ("Salad bed", Fraction(5, 2))
    assert not mixed.straight and mixed.of == "Spring pail"
    assert isinstance(straight, Fed) and straight.mass_kg == size_of("lb")
    assert isinstance(picked, Harvested) and picked.mass_kg == 4 * size_of("lb")
    assert isinstance(noted, Noted) and noted.note == "first slugs"


def test_the_weight_that_was_told_counts_beside_the_scoops():
    line = {**GOOD["Diary"], "weight": "3 lb"}
    fed, told = (
        only(looked_at(sample_now(), row_of("Diary", one))).rows[0].value
        for one in (GOOD["Diary"], line)
    )
    assert (told.scoops, told.mass_kg) == (fed.scoops, 3 * size_of("lb"))
    assert told.cost / told.mass_kg == fed.cost / fed.mass_kg


def test_a_line_that_the_diary_has_is_not_told_twice():
    line = ("2027-05-21", "noted", "", "first slugs")
    rows = sheet("Diary", ("day", "what", "bed", "note"), line, line)
    now = sample_now()
    twice = only(looked_at(now, rows))
    assert [row.standing for row in twice.rows] == [Standing.NEW, Standing.NEW]
    known = sample_now(diary=(twice.rows[0].value,))
    again = only(looked_at(known, rows))
    assert [row.standing for row in again.rows] == [Standing.SAME, Standing.NEW]


BEDS = ("bed", "crop", "size")
CROPS = ("bed", "crop", "share of the bed (%)", "turn in the season")


def test_other_sheets_tell_more_of_a_bed():
    beds = sheet("Beds", BEDS, ("South", "", "48 sq ft"))
    crops = sheet("Crops", CROPS, ("south", "pea", "#NUM 50", "1"), ("South", "kale", "", "2"))
    ranges = sheet("Ranges", ("bed", "nutrient", "aim", "most"), ("South", "N", "2 g/m²", "3 g/m²"))
    manure = sheet("Manure", ("bed", "kind", "organic N (g per m²)"), ("South", "poultry", "6"))
    found = looked_at(sample_now(), crops, manure, beds, ranges)
    assert [fault for one in found.sheets for row in one.rows for fault in row.faults] == []
    (change,) = found.changes.beds
    south = change.value
    assert [(crop.crop, crop.share) for crop in south.crops] == [
        ("pea", Fraction(1, 2)),
        ("kale", 1),
    ]
    assert (south.needs[0].nutrient, south.needs[0].most) == ("N", Fraction(3, 1000))
    assert south.nitrogen.manure[0].organic_n_kg_per_m2 == Fraction(6, 1000)
    assert {row.standing for row in found.sheets[0].rows} == {Standing.MORE}


def test_a_bed_is_not_brought_in_by_half():
    beds = sheet("Beds", BEDS, ("South", "", "48 sq ft"), ("East", "kale", "48 sq ft"))
    crops = sheet("Crops", CROPS, ("South", "pea", "half", "1"), ("West", "pea", "", "1"))
    found = looked_at(sample_now(), beds, crops)
    assert [change.value.name for change in found.changes.beds] == ["East"]
    told = [(fault.place, fault.sentence) for row in found.sheets[0].rows for fault in row.faults]
    assert told == [
        ("row 2", "Another sheet tells more of this bed, and a row of it cannot be used.")
    ]
    told = [(fault.place, fault.sentence) for row in found.sheets[1].rows for fault in row.faults]
    assert told == [
        ("row 2, share of the bed (%)", "half is not a number alone."),
        ("row 3, bed", "No row of a sheet of beds is about this bed."),
    ]
