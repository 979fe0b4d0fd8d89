"""The one rule from label nitrogen to usable nitrogen."""

from fractions import Fraction

import pytest

from halfpail.domain.label import Analysis, NitrogenForms
from halfpail.domain.material import Material, Spread
from halfpail.domain.matter import Nutrient
from halfpail.domain.usable_nitrogen import UnnamedSource, usable_nitrogen
from halfpail.sources import Citation, Mark


def spread(low: str, typical: str, high: str) -> Spread:
    return Spread(low=Fraction(low), typical=Fraction(typical), high=Fraction(high))


def material(key: str, soluble: str, usable: Spread | None, n: str = "0.1") -> Material:
    return Material(
        key=key,
        name=key,
        synonyms=(),
        contents={Nutrient.N: spread(n, n, n)},
        soluble_n=Fraction(soluble),
        usable_insoluble_n=usable,
        citation=Citation(mark=Mark.PROPOSAL),
    )


ORGANIC = spread("0.35", "0.45", "0.55")
UNNAMED = UnnamedSource(of_all=ORGANIC, of_insoluble=ORGANIC)
MAY_BE_SALT = UnnamedSource(of_all=spread("0.5", "0.6", "1"), of_insoluble=ORGANIC)
BLOOD = material("blood", "0", spread("0.60", "0.67", "0.75"))
PELLETS = material("pellets", "0", spread("0.40", "0.45", "0.50"))
SALT = material("salt", "1", None)
STONE = material("stone", "0", None, n="0")


def product(percent: int, **forms: str) -> Analysis:
    stated = {name: Fraction(value) / 100 for name, value in forms.items()}
    return Analysis(shares={Nutrient.N: Fraction(percent, 100)}, nitrogen=NitrogenForms(**stated))


def shares(
    analysis: Analysis,
    *materials: Material,
    known: bool = True,
    unnamed: UnnamedSource = UNNAMED,
) -> list[str]:
    usable = usable_nitrogen(analysis, materials, unnamed, all_sources_known=known)
    total = analysis.of(Nutrient.N)
    figures = (usable.low, usable.typical, usable.high, usable.quick)
    return [str(float(figure / total)) for figure in figures]


@pytest.mark.parametrize(
    ("analysis", "materials", "expected"),
    [
        pytest.param(product(12), [BLOOD], ["0.6", "0.67", "0.75", "0.0"], id="by material"),
        pytest.param(product(21), [SALT], ["1.0", "1.0", "1.0", "1.0"], id="a salt in full"),
        pytest.param(
            product(4, insoluble="3"),
            [BLOOD],
            ["0.7", "0.7525", "0.8125", "0.25"],
            id="water-insoluble N on the label",
        ),
        pytest.param(
            product(4, ammoniacal="0.5", urea="0.5"),
            [PELLETS],
            ["0.55", "0.5875", "0.625", "0.25"],
            id="soluble forms on the label",
        ),
        pytest.param(
            product(4), [BLOOD, PELLETS], ["0.4", "0.56", "0.75", "0.0"], id="widest of two"
        ),
        pytest.param(
            product(8), [BLOOD, SALT], ["0.6", "0.835", "1.0", "1.0"], id="a meal and a salt"
        ),
        pytest.param(
            product(4, insoluble="1"), [SALT], ["0.8375", "0.8625", "0.8875", "0.75"], id="a riddle"
        ),
        pytest.param(
            product(4), [BLOOD, STONE], ["0.6", "0.67", "0.75", "0.0"], id="stone holds none"
        ),
        pytest.param(product(4), [], ["0.35", "0.45", "0.55", "0.0"], id="unknown and organic"),
    ],
)
def test_rule(analysis, materials, expected):
    """Soluble counts in full, the rest by material: hand sums on the made-up materials above."""
    assert shares(analysis, *materials) == expected


def test_nitrogen_that_may_be_a_salt_counts_as_quick():
    assert shares(product(10), unnamed=MAY_BE_SALT) == ["0.5", "0.6", "1.0", "1.0"]


def test_a_word_nobody_knows_widens_the_range():
    assert shares(product(4), BLOOD, known=False) == ["0.35", "0.56", "0.75", "0.0"]


def test_no_nitrogen_gives_none():
    usable = usable_nitrogen(Analysis(shares={}), [STONE], UNNAMED)
    assert not any((usable.low, usable.high, usable.quick, usable.label))


def test_what_is_not_usable_now_comes_later():
    usable = usable_nitrogen(product(12), [BLOOD], UNNAMED)
    assert usable.typical + usable.later == usable.label
