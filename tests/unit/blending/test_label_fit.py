"""Made-up mixes of pure salts: the shares that went in must come out again."""

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from halfpail.blending.label_fit import fit_label
from halfpail.domain.label import Analysis
from halfpail.domain.material import Material, Spread
from halfpail.domain.matter import Nutrient, ceiling
from halfpail.solvers.highs import Highs
from halfpail.sources import Citation, Mark

N, P2O5, K2O, CA, MG, S = (
    Nutrient.N,
    Nutrient.P2O5,
    Nutrient.K2O,
    Nutrient.CA,
    Nutrient.MG,
    Nutrient.S,
)


def salt(name: str, formula: str, contents: dict[Nutrient, Fraction] | None = None) -> Material:
    """A salt of certain contents [kg/kg]: those given, or those of its formula."""
    held = contents or dict(ceiling(formula))
    return Material(
        key=name,
        name=name,
        synonyms=(),
        contents={n: Spread(low=share, typical=share, high=share) for n, share in held.items()},
        formula="" if contents else formula,
        citation=Citation(mark=Mark.DERIVED),
    )


def percents(**figures: str) -> dict[Nutrient, Fraction]:
    given = {Nutrient[name.upper()]: Fraction(value) / 100 for name, value in figures.items()}
    return {nutrient: given.get(nutrient, Fraction(0)) for nutrient in (N, P2O5, K2O, CA, MG, S)}


# The batch of 100 lb whose label is worked out in labels-and-lime, section 2.8 (computed), with
# the pure salts of its section 1.3 (computed): pounds of each, then its contents.
BATCH = (
    (25, salt("ammonium sulfate", "", percents(n="21", s="24"))),
    (25, salt("gypsum", "", percents(ca="23.279", s="18.622"))),
    (20, salt("potassium sulfate", "", percents(k2o="50", s="17"))),
    (18, salt("triple superphosphate", "", percents(p2o5="46", ca="14"))),
    (12, salt("Epsom salt", "", percents(mg="9.8614", s="13.008"))),
)
UNROUNDED = {N: "5.250", P2O5: "8.280", K2O: "10.000", CA: "8.340", MG: "1.183", S: "15.617"}
PRINTED = {N: "5", P2O5: "8", K2O: "10", CA: "8", MG: "1", S: "15"}


def analysis(figures: dict[Nutrient, str]) -> Analysis:
    return Analysis(shares={n: Fraction(percent) / 100 for n, percent in figures.items()})


def test_the_batch_comes_out_of_its_unrounded_numbers():
    fit = fit_label(analysis(UNROUNDED), [material for _, material in BATCH], Highs())
    assert [round(float(100 * share), 1) for share in fit.likely] == [25, 25, 20, 18, 12]
    assert fit.in_order
    assert float(fit.rest) == pytest.approx(0, abs=1e-3)


def test_the_batch_lies_in_the_ranges_of_its_printed_label():
    fit = fit_label(analysis(PRINTED), [material for _, material in BATCH], Highs())
    assert fit.in_order
    for (pounds, _), likely, (least, most) in zip(BATCH, fit.likely, fit.ranges[:-1], strict=True):
        assert least <= Fraction(pounds, 100) <= most
        assert least - Fraction(1, 10**4) <= likely <= most + Fraction(1, 10**4)
        assert abs(likely - Fraction(pounds, 100)) <= Fraction(3, 100)


def test_a_list_in_the_wrong_order_gives_the_same_shares():
    fit = fit_label(analysis(UNROUNDED), [material for _, material in reversed(BATCH)], Highs())
    assert [round(float(100 * share), 1) for share in fit.likely] == [12, 18, 20, 25, 25]
    assert not fit.in_order


# Pure salts by formula; the atomic weights are held to a reference library elsewhere.
SALTS = (
    salt("urea", "CO(NH2)2"),
    salt("potassium chloride", "KCl"),
    salt("diammonium phosphate", "(NH4)2HPO4"),
    salt("calcite", "CaCO3"),
    salt("kieserite", "MgSO4.H2O"),
)


@given(st.permutations(SALTS), st.lists(st.integers(1, 30), min_size=1, max_size=5))
def test_any_mix_of_pure_salts_comes_out_again(salts, parts):
    parts = sorted(parts, reverse=True)
    chosen = salts[: len(parts)]
    shares = [Fraction(part, 150) for part in parts]
    held = {
        n: sum(
            (
                s * m.contents[n].typical
                for s, m in zip(shares, chosen, strict=True)
                if n in m.contents
            ),
            Fraction(0),
        )
        for n in (N, P2O5, K2O, CA, MG, S)
    }
    assume(any(held.values()))
    fit = fit_label(Analysis(shares={n: s for n, s in held.items() if s}), chosen, Highs())
    assert [float(s) for s in fit.likely] == pytest.approx([float(s) for s in shares], abs=1e-4)
    for share, (least, most) in zip(shares, fit.ranges[:-1], strict=True):
        assert float(least) - 1e-5 <= share <= float(most) + 1e-5


def test_numbers_the_sources_cannot_give_have_no_ranges():
    fit = fit_label(analysis({N: "20", P2O5: "20"}), [SALTS[0], SALTS[1]], Highs())
    assert fit.ranges == ()
