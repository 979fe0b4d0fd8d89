"""A label of one's own: rounded down, in order, sources by weight."""

from fractions import Fraction

import pytest

from halfpail.domain.guarantee import (
    by_predominance,
    claimed,
    explain_guarantee,
    guaranteed_percent,
    least_insoluble,
    may_be_called_slow,
)
from halfpail.domain.label import Analysis, NitrogenForms
from halfpail.domain.label_print import print_label
from halfpail.domain.matter import Nutrient, ceiling
from halfpail.reference.label_rules import label_rules, least_claims
from tests.unit.domain.test_label_reading import MADE_UP

# The batch of the made-up label [lb]: our reference page on labels, computed from the atomic
# weights (Epsom salt, gypsum) and the grades named there.
BATCH: list[tuple[str, int, str | dict[str, str]]] = [
    ("ammonium sulfate", 25, {"N": "21", "S": "24"}),
    ("triple superphosphate", 18, {"P2O5": "46", "Ca": "14"}),
    ("potassium sulfate", 20, {"K2O": "50", "S": "17"}),
    ("magnesium sulfate", 12, "MgSO4.7H2O"),
    ("gypsum", 25, "CaSO4.2H2O"),
]
MINIMUMS = least_claims()


def batch_shares() -> dict[Nutrient, Fraction]:
    shares: dict[Nutrient, Fraction] = {}
    for _, pounds, held in BATCH:
        contents = (
            ceiling(held)
            if isinstance(held, str)
            else {Nutrient(symbol): Fraction(percent) / 100 for symbol, percent in held.items()}
        )
        for nutrient, share in contents.items():
            shares[nutrient] = shares.get(nutrient, Fraction(0)) + share * pounds / 100
    return shares


def test_the_batch_before_rounding():
    """Reference page, from salts rounded to five figures: Ca 8.340, Mg 1.183, S 15.617."""
    shares = batch_shares()
    expected = {"N": 5.250, "P2O5": 8.280, "K2O": 10.0, "Ca": 8.340, "Mg": 1.183, "S": 15.617}
    for symbol, percent in expected.items():
        assert float(100 * shares[Nutrient(symbol)]) == pytest.approx(percent, abs=0.001)


def test_the_made_up_label_is_printed_as_published():
    analysis = Analysis(
        shares=batch_shares(), nitrogen=NitrogenForms(ammoniacal=Fraction(525, 10000))
    )
    sources = [(name, Fraction(pounds)) for name, pounds, _ in BATCH]
    heading = MADE_UP.splitlines()[:2]
    printed = print_label(analysis, sources, MINIMUMS, heading)
    assert printed.splitlines()[:11] == MADE_UP.splitlines()[:11]
    assert by_predominance(sources)[:1] + by_predominance(sources)[-1:] == (
        "ammonium sulfate",
        "magnesium sulfate",
    )
    assert "Derived from: ammonium sulfate, gypsum, potassium sulfate," in printed


def test_never_rounded_up():
    for tenths in range(1, 1000, 7):
        share = Fraction(tenths, 1000) / 10
        assert guaranteed_percent(share) <= 100 * share


@pytest.mark.parametrize(
    ("percent", "printed"),
    [("0.99", "0.99"), ("0.999", "0.99"), ("0.0209", "0.02"), ("0.00051", "0.00051"), ("0", "0")],
)
def test_below_one_percent(percent, printed):
    assert guaranteed_percent(Fraction(percent) / 100) == Fraction(printed)


def test_what_may_not_be_claimed_is_left_out():
    """WAC 16-200-711: Mg 0.5 %, Fe 0.1 %."""
    shares = {
        Nutrient.N: Fraction(3, 100),
        Nutrient.MG: Fraction(49, 10000),
        Nutrient.FE: Fraction(1, 1000),
    }
    assert claimed(shares, MINIMUMS) == {Nutrient.N: 3, Nutrient.FE: Fraction(1, 10)}
    shares[Nutrient.MG] = Fraction(5, 1000)
    assert list(claimed(shares, MINIMUMS)) == [Nutrient.N, Nutrient.MG, Nutrient.FE]


def test_words_of_slow_release():
    """7 Pa. Code 73.6 and N.J.A.C. 2:69-1.6: not below 15 % of total nitrogen."""
    total = Fraction(10)
    rule = label_rules()["slow_least"]
    assert may_be_called_slow(Fraction("1.5"), total, rule)
    assert not may_be_called_slow(Fraction("1.49"), total, rule)
    assert not may_be_called_slow(Fraction(0), Fraction(0), rule)


def test_organic_nitrogen_of_a_whole_label():
    """N.J.A.C. 2:69-1.6: a 10-6-4 with a quarter of its nitrogen organic needs 1.5 % insoluble."""
    rule = label_rules()["organic_insoluble"]
    assert least_insoluble(Fraction(10) * Fraction(25, 100), rule) == Fraction("1.5")


def test_the_rounding_is_explained():
    (step,) = explain_guarantee(
        {Nutrient.N: Fraction(525, 10000), Nutrient.MG: Fraction("0.01183")}
    )
    assert step.sum == "N: 5.25 % becomes 5 %\nMg: 1.183 % becomes 1 %"
    assert step.citation is not None
