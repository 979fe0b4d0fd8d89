from fractions import Fraction

import pytest

from halfpail.findings import Refusal
from halfpail.quantities.reading import read_area_m2, read_mass_kg, read_money, read_whole
from tests.unit.quantities.readers import READERS, rows

GOOD = rows("good_quantities.csv")
BAD = rows("bad_quantities.csv")


def named(row):
    return ascii(f"{row['measures']} {row['text'] or 'nothing'} {row['unit']}".strip())


# The exact figures follow from the legal definitions that halfpail.quantities.units names (24
# Federal Register 5348; NIST Handbook 44, Appendix C), written out as decimals.
@pytest.mark.parametrize("row", GOOD, ids=named)
def test_what_people_type_is_read_exactly(row):
    read = READERS[row["measures"]]
    assert read(row["text"], "", row["unit"] or None) == Fraction(row["exact"])


@pytest.mark.parametrize("row", BAD, ids=named)
def test_what_is_wrong_or_doubtful_is_refused_with_its_place_and_a_remedy(row):
    read = READERS[row["measures"]]
    with pytest.raises(Refusal) as refused:
        read(row["text"], "bags[2].weight", row["unit"] or None)
    [fault] = refused.value.faults
    assert row["sentence"] in fault.sentence
    assert fault.place == "bags[2].weight"
    assert fault.remedy


def test_there_are_at_least_sixty_bad_quantities_and_none_stands_twice():
    typed = [(row["measures"], row["text"], row["unit"]) for row in BAD]
    assert len(set(typed)) == len(typed) >= 60


def test_ten_thousand_characters_are_refused_and_quoted_short():
    with pytest.raises(Refusal) as refused:
        read_mass_kg("9" * 10_000 + " lb")
    [fault] = refused.value.faults
    assert "longer than 40 characters" in fault.sentence
    assert fault.read == "9" * 40 + "…"


def test_what_was_typed_is_quoted_without_what_cannot_be_seen():
    with pytest.raises(Refusal) as refused:
        read_mass_kg("5\x1b[2J lb")
    assert refused.value.faults[0].read == "5�[2J lb"


def test_nought_is_read_where_it_is_asked_for():
    assert read_mass_kg("0 lb", nought=True) == 0
    assert read_area_m2("0 sq ft", nought=True) == 0


def test_money_in_the_currency_of_the_garden_is_read():
    assert read_money("$5", currency="USD") == read_money("5", currency="EUR") == 5


def test_a_whole_number_has_no_most_unless_one_is_given():
    assert read_whole("900") == 900
    with pytest.raises(Refusal, match="3 or more"):
        read_whole("2", least=3)


@pytest.mark.parametrize("unit", ["cup", "smidgen"])
def test_a_wrong_default_unit_is_a_mistake_in_the_program(unit):
    with pytest.raises((KeyError, ValueError)):
        read_mass_kg("5", unit=unit)
