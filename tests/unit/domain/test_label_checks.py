"""What is odd about a label is told; what its sources cannot hold is refused."""

from fractions import Fraction

import pytest

from halfpail.application.read_label import understand_label
from halfpail.domain.ceilings import ROUNDING, capacity, needs
from halfpail.domain.matter import Nutrient
from halfpail.findings import Refusal, Severity
from halfpail.reference.materials import material
from tests.unit.domain.test_label_reading import MADE_UP


def told(text: str) -> list[str]:
    return [notice.sentence for notice in understand_label(text).notices]


def one(text: str, words: str, severity: Severity) -> None:
    found = [notice for notice in understand_label(text).notices if words in notice.sentence]
    assert [notice.severity for notice in found] == [severity], told(text)


def test_nothing_is_odd_about_the_made_up_label():
    assert told(MADE_UP) == []


@pytest.mark.parametrize(
    ("percent", "odd"),
    [("0.49", True), ("0.50", False)],
)
def test_the_least_claimable_magnesium(percent, odd):
    """WAC 16-200-711 and Utah R68-3-4: Mg 0.5 %."""
    found = told(f"3-4-4\nMagnesium (Mg) {percent}%")
    assert any("below the 0.5 % that a label may claim" in sentence for sentence in found) is odd


def test_lines_out_of_order():
    """WAC 16-200-711: Ca, Mg, S, B, Cl, Co, Cu, Fe, Mn, Mo, Na, Zn after K2O."""
    one("3-4-4\nSulfur (S) 5%\nCalcium (Ca) 8%", "Ca stands after S", Severity.NOTE)
    assert told("3-4-4\nCalcium (Ca) 8%\nSulfur (S) 5%") == []


def test_a_line_of_nought():
    """ARM 4.12.604, Montana: no guarantee of nought but in a breakdown of nitrogen forms."""
    one("12-0-0\nSoluble Potash (K2O) 0%", "of nought promises nothing", Severity.NOTE)
    assert told("Total Nitrogen (N) 12%\n12% Urea Nitrogen\n0% Nitrate Nitrogen") == []


def test_shares_typed_for_percents():
    one("0.10-0.10-0.10", "write 10-10-10", Severity.CAUTION)


def test_plain_phosphorus_is_taken_for_the_oxide_and_told():
    """NH Revised Statutes 431:5 and Minn. Stat. 18C.211: P as P2O5, K as K2O."""
    one("Available Phosphorus 4%", "Read as P2O5", Severity.NOTE)
    one("Soluble Potassium 4%", "Read as K2O", Severity.NOTE)
    assert told("Available Phosphorus (P2O5) 4%\nPotassium oxide 4%") == []


def test_a_line_missing_beneath_the_grade():
    text = "3-4-4\nTotal Nitrogen (N) 3%\nAvailable Phosphate (P2O5) 4%"
    one(text, "promises 4 % K2O, but its line is missing", Severity.NOTE)


def test_forms_within_rounding():
    one(
        "Total Nitrogen (N) 5%\n2% Nitrate Nitrogen\n2% Urea Nitrogen",
        "add up to 4 %",
        Severity.NOTE,
    )


def test_only_total_phosphate():
    one("Total Phosphate (P2O5) 22%\nCalcium (Ca) 20%", "Only total phosphate", Severity.CAUTION)


def test_what_was_not_counted_is_told():
    one("3-4-4\nHumic acids 3%", "Not counted, since it is no plant nutrient", Severity.CAUTION)
    one("0-0-50\nChlorine (Cl) max 2%", "Not counted, since it is no guarantee", Severity.NOTE)


@pytest.mark.parametrize(("percent", "warned"), [("0.1", False), ("0.11", True)])
def test_the_boron_warning(percent, warned):
    """WAC 16-200-711: a warning may be required above 0.1 % B."""
    found = told(f"3-4-4\nBoron (B) {percent}%")
    assert any("keep to the bag's directions" in sentence for sentence in found) is warned


@pytest.mark.parametrize(
    "text",
    [
        "Magnesium (Mg) 10%\nSulfur (S) 13%\nDerived from: Epsom salt",
        "15.5-0-0\nCalcium (Ca) 19%\nDerived from: calcium nitrate",
        "46-0-0\nDerived from: urea",
        "47-0-0\nDerived from: urea",
        "21-0-0-24S\nDerived from: ammonium sulfate",
        "11-52-0\nDerived from: monoammonium phosphate",
        "18-46-0\nDerived from: diammonium phosphate",
        "0-46-0\nDerived from: triple superphosphate",
        "0-0-60\nDerived from: potassium chloride",
        "0-0-50\nSulfur (S) 18%\nDerived from: potassium sulfate",
        "Calcium (Ca) 23%\nMagnesium (Mg) 12%\nDerived from: dolomite",
        "Calcium (Ca) 22%\nMagnesium (Mg) 13%\nDerived from: dolomite",
    ],
)
def test_trade_figures_pass(text):
    """Trade figures as in the conversion table after the International Fertilizer Industry
    Association (urea 46, MAP 11-52, DAP 18-46, TSP 46, KCl 60, K2SO4 50 and 18 S); Epsom salt and
    calcium nitrate within a label's rounding of their formulas."""
    assert told(text) == []


@pytest.mark.parametrize(
    "text",
    [
        "48-0-0\nDerived from: urea",
        "0-64-0\nDerived from: triple superphosphate",
        "0-0-64\nDerived from: potassium chloride",
        "22-0-0\nDerived from: ammonium sulfate",
        "0-0-23\nMagnesium (Mg) 13%\nDerived from: langbeinite",
        "20-20-20\nDerived from: ammonium sulfate, potassium chloride, triple superphosphate",
    ],
)
def test_more_than_the_formulas_hold_is_refused(text):
    """Ceilings computed from IUPAC weights: urea 46.65 N, (NH4)2SO4 21.20 N, KCl 63.18 K2O."""
    with pytest.raises(Refusal):
        understand_label(text)


def test_a_salt_that_lost_its_water_is_odd_and_not_refused():
    one(
        "Magnesium (Mg) 17%\nSulfur (S) 23%\nDerived from: magnesium sulfate",
        "17 % Mg is more than epsom salt commonly holds",
        Severity.CAUTION,
    )


def test_a_natural_source_is_never_certain():
    found = told("16-0-0\nDerived from: blood meal")
    assert any("16 % N is more than blood meal commonly holds" in sentence for sentence in found)
    found = told("12-0-9\nDerived from: feather meal")
    assert any("None of the named sources is known to hold K2O" in sentence for sentence in found)


def test_unknown_sources_decide_nothing():
    found = understand_label("46-0-5\nDerived from: urea, moon dust")
    assert [notice.sentence for notice in found.notices] == list(
        notice.sentence for notice in found.sources.notices
    )


def test_two_sources_of_one_nutrient_share_the_bag():
    """15-0-15 fits urea and potassium nitrate; 40-0-40 cannot: 39.5 % K2O takes 85 % KNO3."""
    assert told("15-0-15\nDerived from: urea, potassium nitrate") == []
    with pytest.raises(Refusal):
        understand_label("13-0-50\nDerived from: urea, potassium nitrate")


@pytest.mark.parametrize("text", ["99-0-0", "0-63-0", "0-0-64"])
def test_more_than_the_richest_source(text):
    """Ceilings computed from IUPAC weights: urea 46.65 N, MAP 61.70 P2O5, KCl 63.18 K2O."""
    one(text, "is more than pure", Severity.CAUTION)


def test_need_by_hand():
    """46 % N less half a percent, over the 46.646 % of pure urea."""
    found = needs({Nutrient.N: Fraction(46, 100)}, [capacity(material("urea"))])
    assert [need.nutrient for need in found] == [Nutrient.N]
    assert float(found[0].share) == pytest.approx(45.5 / 46.646, abs=1e-4)
    assert needs({Nutrient.N: ROUNDING}, [capacity(material("urea"))]) == ()
