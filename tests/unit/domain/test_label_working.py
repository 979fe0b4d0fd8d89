"""The working of a label can be repeated with pencil and paper."""

from halfpail.domain.label_reading import read_label
from halfpail.domain.label_working import explain_label


def sums(text: str, *, elemental: bool = False) -> list[str]:
    return [step.sum for step in explain_label(read_label(text, elemental))]


def test_a_grade():
    assert sums("3-4-4") == ["3 % N, 4 % P2O5, 4 % K2O", "3 + 4 + 4 = 11 %, not more than 100 %"]


def test_phosphorus_as_the_element():
    """4 x 2.2914 = 9.165 (conversion tables of the International Fertilizer Industry
    Association)."""
    assert sums("0-4-0", elemental=True)[1] == "4 % x 141.943 / 61.948 = 9.165 % P2O5"


def test_calcium_counted_once():
    found = sums("Calcium (Ca) 10.0%\nCalcium oxide (CaO) 14.0%")
    assert found == ["14 % CaO = 10.006 % Ca, which agrees with 10 % Ca"]


def test_forms_are_not_counted_again():
    found = sums("Total Nitrogen (N) 5%\n3% Ammoniacal Nitrogen\n2% Urea Nitrogen")
    assert found == ["3 % + 2 % = 5 % N"]
