"""What a label may promise: guarantees rounded down, slow release, the order of the sources."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.quantities.rounding import down_to
from halfpail.sources import Citation, Mark
from halfpail.working import Step, Working

ROUNDING_RULE = Citation(
    mark=Mark.DERIVED,
    locator="a guarantee is a minimum (N.Y. Agriculture and Markets Law, section 143)",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A share [kg/kg] that decides what a label may say, and who says so."""

    share: Fraction
    citation: Citation


def guaranteed_percent(share: Fraction) -> Fraction:
    """A share [kg/kg] as the percentage [percent] a label may promise: rounded down, never up.

    Whole percents; below 1 % two digits that count (our default, laws differ).

    >>> [str(guaranteed_percent(Fraction(x) / 100)) for x in ("5.25", "9.999", "0.0129")]
    ['5', '9', '3/250']
    """
    percent = 100 * share
    step = Fraction(1)
    while 0 < percent < 10 * step and step > Fraction(1, 10**6):
        step /= 10
    return down_to(percent, step if percent < 1 else Fraction(1))


def claimed(
    shares: Mapping[Nutrient, Fraction], minimums: Mapping[Nutrient, Rule]
) -> dict[Nutrient, Fraction]:
    """What a label of this product promises by nutrient [percent], in label order.

    A secondary or trace nutrient below its least claimable share [kg/kg] is left out, and so is
    a guarantee of nought.

    >>> claimed({Nutrient.N: Fraction(52, 1000)}, {})
    {<Nutrient.N: 'N'>: Fraction(5, 1)}
    """
    promised = {}
    for nutrient in Nutrient:
        percent = guaranteed_percent(shares.get(nutrient, Fraction(0)))
        least = 100 * minimums[nutrient].share if nutrient in minimums else Fraction(0)
        if percent and (nutrient in PRIMARY or percent >= least):
            promised[nutrient] = percent
    return promised


def least_insoluble(organic_n: Fraction, rule: Rule) -> Fraction:
    """Water-insoluble nitrogen that must stand behind nitrogen called organic [same unit].

    >>> rule = Rule(share=Fraction(60, 100), citation=ROUNDING_RULE)
    >>> float(least_insoluble(Fraction("2.5"), rule))
    1.5
    """
    return rule.share * organic_n


def may_be_called_slow(slow: Fraction, total: Fraction, rule: Rule) -> bool:
    """Whether a slow part is enough of its nutrient for slow-release words [both in one unit].

    >>> rule = Rule(share=Fraction(15, 100), citation=ROUNDING_RULE)
    >>> [may_be_called_slow(Fraction(slow), Fraction(20), rule) for slow in (2, 3)]
    [False, True]
    """
    return total > 0 and slow >= rule.share * total


def by_predominance(sources: Sequence[tuple[str, Fraction]]) -> tuple[str, ...]:
    """Names of sources by falling weight [kg]; equal weights keep their order.

    >>> by_predominance([("kelp meal", Fraction(1)), ("bone meal", Fraction(3))])
    ('bone meal', 'kelp meal')
    """
    return tuple(name for name, mass in sorted(sources, key=lambda s: -s[1]) if mass > 0)


def explain_guarantee(shares: Mapping[Nutrient, Fraction]) -> Working:
    """How each share [kg/kg] became a guarantee.

    >>> explain_guarantee({Nutrient.N: Fraction(525, 10000)})[0].sum
    'N: 5.25 % becomes 5 %'
    """
    sums = [
        f"{nutrient}: {_text(100 * shares[nutrient])} % becomes "
        f"{_text(guaranteed_percent(shares[nutrient]))} %"
        for nutrient in Nutrient
        if shares.get(nutrient)
    ]
    reason = "A guarantee is a minimum, so every number is rounded down."
    return (Step(reason=reason, sum="\n".join(sums), citation=ROUNDING_RULE),)


def _text(percent: Fraction) -> str:
    """A percentage cut after the fourth decimal."""
    digits = f"{floor(percent * 10**4):05d}"
    return f"{digits[:-4]}.{digits[-4:]}".rstrip("0").rstrip(".")
