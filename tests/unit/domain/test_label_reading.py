"""Labels as they are printed and pasted: what is read, on which basis, and from which line."""

from fractions import Fraction

import pytest

from halfpail.domain.label import NitrogenForms
from halfpail.domain.label_reading import read_label
from halfpail.domain.matter import Nutrient, from_element, from_oxide
from halfpail.findings import Refusal

# "A made-up label in the correct order" of our reference page on labels: its guarantees are
# computed from the batch in test_label_print.py.
MADE_UP = """\
NET WEIGHT 25 LB (11.3 kg)
EXAMPLE GARDEN BLEND
5-8-10
GUARANTEED ANALYSIS
Total Nitrogen (N) ................  5%
     5% Ammoniacal Nitrogen
Available Phosphate (P2O5) ........  8%
Soluble Potash (K2O) .............. 10%
Calcium (Ca) ......................  8.0%
Magnesium (Mg) ....................  1.0%
Sulfur (S) ........................ 15.0%
Derived from: ammonium sulfate, gypsum, potassium sulfate,
     triple superphosphate, magnesium sulfate.
Directions: (rate per 100 sq ft, how often)
Made by: (name and address)
"""


def percents(text: str, *, elemental: bool = False) -> dict[str, float]:
    shares = read_label(text, elemental).analysis.shares
    return {nutrient.value: float(100 * share) for nutrient, share in shares.items()}


def test_the_made_up_label():
    label = read_label(MADE_UP)
    assert percents(MADE_UP) == {"N": 5, "P2O5": 8, "K2O": 10, "Ca": 8, "Mg": 1, "S": 15}
    assert label.analysis.nitrogen == NitrogenForms(ammoniacal=Fraction(5, 100))
    assert label.derived_from == (
        "ammonium sulfate",
        "gypsum",
        "potassium sulfate",
        "triple superphosphate",
        "magnesium sulfate",
    )
    assert label.net_weight == "25 LB (11.3 kg)"
    assert label.unread == ()


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("3-4-4", {"N": 3, "P2O5": 4, "K2O": 4}),
        ("  5 - 10 – 10 ", {"N": 5, "P2O5": 10, "K2O": 10}),
        ("NPK 2.5-0-0.5", {"N": 2.5, "K2O": 0.5}),
        ("(0-46-0)", {"P2O5": 46}),
        ("10%-5%-5%", {"N": 10, "P2O5": 5, "K2O": 5}),
        ("21-0-0-24S", {"N": 21, "S": 24}),
        ("0-0-22 + 11Mg + 22S", {"K2O": 22, "Mg": 11, "S": 22}),
        ("15.5-0-0 (19% Ca)", {"N": 15.5, "Ca": 19}),
        ("8-8-8 (+2Mg +4S +0.02B)", {"N": 8, "P2O5": 8, "K2O": 8, "Mg": 2, "S": 4, "B": 0.02}),
        ("Plant food 100 lb 4-4-4 since 1999", {"N": 4, "P2O5": 4, "K2O": 4}),
    ],
)
def test_the_three_numbers(text, expected):
    assert percents(text) == expected


@pytest.mark.parametrize(
    "text",
    [
        "Total Nitrogen (N) 5%\nAvailable Phosphate (P2O5) 8%\nSoluble Potash (K2O) 10%",
        "TOTAL NITROGEN (N)......5.0%\nAVAILABLE PHOSPHATE (P205)..8.0%\nPOTASH (K20)..10.0%",
        "Total Nitrogen (N)\t5 %\nAvailable Phosphate (P₂O₅)\t8 %\nSoluble Potash (K₂O)\t10 %",
        "5.0% Total Nitrogen (N)*\n8% Available Phosphoric Acid (P2O5)\n10% Soluble Potash (K2O)",
        "Total Nitrogen (N) 5% Available Phosphate (P2O5) 8% Soluble Potash (K2O) 10%",
        "Total Nitrogen (N)\n5%\nAvailable Phosphate (P 2 O 5)\n8%\nSoluble Potash (K 2 0)\n10%",
        "• Total Nitrogen … 5%\n• Phosphate ____ 8%\n• Potash ----- 10%",
        "N 5\nP2O5 8\nK2O 10",
        "Total Nitrogen, minimum 5%\nAvailable Phosphate not less than 8%\nSoluble Potash 10% min.",
        "| Total Nitrogen (N) | 5 . 0 % |\n| Available P2O5 | 8·0% |\n| Soluble Potash = 10,0% |",
        "GUARANTEED ANALYSIS 5-8-10\n\nTotal Nitrogen (N): 5%\r\nPhosphate: 8%\r\nPotash: 10%",
        "Total Nitrogen (N) ... 5 percent\nAvailable Phosphate . . . . 8%\nPotash (K2O) 100000 ppm",
    ],
)
def test_the_same_analysis_in_many_wordings(text):
    assert percents(text) == {"N": 5, "P2O5": 8, "K2O": 10}


def test_forms_of_nitrogen():
    label = read_label(
        "8-2-4\nTotal Nitrogen (N) 8.0%\n  1.5% Ammoniacal Nitrogen\n  0.5% Nitrate Nitrogen\n"
        "  2.0% Urea Nitrogen*\n  1.0% Other Water Soluble Nitrogen\n"
        "  3.0% Water Insoluble Nitrogen\n* 2.0% slow release nitrogen from coated urea"
    )
    assert label.analysis.nitrogen == NitrogenForms(
        ammoniacal=Fraction(15, 1000),
        nitrate=Fraction(5, 1000),
        urea=Fraction(20, 1000),
        other_soluble=Fraction(10, 1000),
        insoluble=Fraction(30, 1000),
    )


def test_a_form_in_brackets_beside_its_total():
    label = read_label("GUARANTEED ANALYSIS: Total Nitrogen (N) 46% (46% Urea Nitrogen)")
    assert label.analysis.nitrogen == NitrogenForms(urea=Fraction(46, 100))
    assert label.analysis.of(Nutrient.N) == Fraction(46, 100)


def test_forms_may_lose_a_digit_by_rounding():
    label = read_label("Total Nitrogen (N) 5%\n2% Ammoniacal Nitrogen\n2% Urea Nitrogen")
    assert label.analysis.of(Nutrient.N) == Fraction(5, 100)


def test_no_form_is_counted_above_its_total():
    label = read_label("4-6-3\n4.9% Water Insoluble Nitrogen")
    assert label.analysis.nitrogen.insoluble == label.analysis.of(Nutrient.N)


@pytest.mark.parametrize(
    "text",
    [
        "Calcium (Ca) 10.0%\nCalcium oxide (CaO) 14.0%",
        "Calcium as CaO 14.0%\nCalcium (Ca) 10.0%",
        "Calcium (Ca) 10.0% (14% CaO)",
        "Calcium (Ca) 10.0%\nCalcium carbonate (CaCO3) 25%",
    ],
)
def test_calcium_and_its_oxide_are_one_calcium(text):
    assert percents(text) == {"Ca": 10}


def test_calcium_stated_as_oxide_only():
    label = read_label("Ca as CaO 14%")
    assert label.analysis.of(Nutrient.CA) == from_oxide(Nutrient.CA, Fraction(14, 100))


def test_a_label_that_states_the_elements():
    label = read_label("4-3-8\nPhosphorus (P) 3%\nPotassium 8%", elemental=True)
    assert label.analysis.of(Nutrient.P2O5) == from_element(Nutrient.P2O5, Fraction(3, 100))
    assert label.analysis.of(Nutrient.K2O) == from_element(Nutrient.K2O, Fraction(8, 100))


def test_an_oxide_stays_an_oxide_on_an_elemental_label():
    label = read_label("4-1.7-3.3\nPhosphate (P2O5) 4%\nPotash (K2O) 4%", elemental=True)
    assert label.analysis.grade.p2o5 == label.analysis.grade.k2o == 4


def test_both_readings_on_one_line():
    """10 % P2O5 is 4.36 % P (Virginia Cooperative Extension, SPES-201NP: factor 0.4365)."""
    assert percents("Phosphorus pentoxide (P2O5) 10% (4.4% P)") == {"P2O5": 10}
    with pytest.raises(Refusal):
        read_label("Phosphorus pentoxide (P2O5) 10% (10% P)")


def test_the_line_is_finer_than_the_grade():
    assert percents("5-8-10\nTotal Nitrogen (N) 5.25%")["N"] == 5.25


def test_a_grade_without_its_lines_is_used():
    assert percents("21-0-0\nSulfur (S) 24%") == {"N": 21, "S": 24}


def test_total_phosphate_stands_apart():
    analysis = read_label("2-14-0\nTotal Phosphate (P2O5) 22%").analysis
    assert analysis.total_p2o5 == Fraction(22, 100)
    assert analysis.grade.p2o5 == 14


def test_parts_of_a_trace_nutrient_are_not_counted_twice():
    text = (
        "Iron (Fe) 0.10%\n  0.05% Chelated Iron (Fe)\nMagnesium 1.0%\n1.0% Water Soluble Magnesium"
    )
    assert percents(text) == {"Mg": 1, "Fe": 0.1}


def test_a_part_counts_where_its_whole_is_not_printed():
    assert percents("4-0-0\n3% Combined Sulfur (S)") == {"N": 4, "S": 3}


@pytest.mark.parametrize(
    "line",
    [
        "Calcium carbonate equivalent 95%",
        "Humic acids 3%",
        "Sulfate of potash 20%",
        "ALSO CONTAINS NONPLANT FOOD INGREDIENTS: mycorrhizae 1%",
    ],
)
def test_what_is_no_nutrient_is_kept_apart(line):
    label = read_label(f"3-4-4\n{line}")
    assert label.unread == (line,)
    assert set(label.analysis.shares) == {Nutrient.N, Nutrient.P2O5, Nutrient.K2O}


def test_a_most_is_no_guarantee():
    assert percents("0-0-50\nChlorine (Cl) not more than 2%") == {"K2O": 50}


@pytest.mark.parametrize(
    "line",
    [
        "Call 800-555-0123 or 1-800-555-0123",
        "Apply 2-3 lb per 100 sq ft",
        "Lot 24-11-2026-A",
        "F-1234",
        "Iron clad and made for tomatoes",
        "Organic nitrogen feeds slowly",
        "Mill Rd 12/5",
    ],
)
def test_other_words_on_a_bag_are_left_alone(line):
    assert percents(f"3-4-4\n{line}") == {"N": 3, "P2O5": 4, "K2O": 4}


@pytest.mark.parametrize(
    ("listed", "sources"),
    [
        ("Derived from: urea.", ("urea",)),
        (
            "DERIVED FROM feather meal, bone meal\nand kelp meal",
            ("feather meal", "bone meal and kelp meal"),
        ),
        ("Derived from:\nurea,\npotash", ("urea", "potash")),
        ("Derived from: urea\n\nMade on a farm", ("urea",)),
        ("Derived from: urea\nDirections: water in", ("urea",)),
        ("Derived from: urea; potash. Keep dry.", ("urea", "potash")),
        ("Ingredients: manure (chicken, turkey), ash", ("manure (chicken, turkey)", "ash")),
    ],
)
def test_where_the_list_of_sources_ends(listed, sources):
    assert read_label(f"3-4-4\n{listed}").derived_from == sources


def test_all_faults_come_at_once():
    with pytest.raises(Refusal) as refused:
        read_label("Total Nitrogne 5%\nCalcium (Ca) 150%\nMagnesium (Mn) 2%\nBoron....02%")
    assert [fault.place for fault in refused.value.faults] == [f"line {n}" for n in (1, 2, 3, 4)]
