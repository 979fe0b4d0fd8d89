"""From the nitrogen on the label to the nitrogen a crop can use this season: one rule, everywhere.

The soluble part counts in full. The insoluble part counts by the material it sits in, with a
low, a typical and a high figure. What is left comes in later years.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from halfpail.domain.label import Analysis, NitrogenForms
from halfpail.domain.material import Material, Spread
from halfpail.domain.matter import Nutrient
from halfpail.domain.stock import UsableNitrogen


@dataclass(frozen=True, slots=True, kw_only=True)
class UnknownSource:
    """What is counted for nitrogen whose source the bag does not name.

    `usable_insoluble` is the usable share of its insoluble part [0-1]. Above `organic_most_n`
    [kg N per kg product] the nitrogen may as well be a salt, so any part of it may be soluble.
    """

    usable_insoluble: Spread
    organic_most_n: Fraction


def usable_nitrogen(
    analysis: Analysis,
    materials: Sequence[Material],
    unknown: UnknownSource,
    all_sources_known: bool = True,
) -> UsableNitrogen:
    """Usable nitrogen of a product [kg/kg], from its label and the materials it is made of.

    The soluble part is what the label's forms say, else what the materials say. A label does
    not give the shares of several sources, so the widest reading is taken: the lowest low, the
    highest high, and the plain mean of the typical figures.

    >>> half = Spread(low=Fraction("0.35"), typical=Fraction("0.5"), high=Fraction("0.55"))
    >>> unknown = UnknownSource(usable_insoluble=half, organic_most_n=Fraction("0.06"))
    >>> usable_nitrogen(Analysis(shares={Nutrient.N: Fraction(4, 100)}), (), unknown).typical
    Fraction(1, 50)
    """
    total = analysis.of(Nutrient.N)
    carriers = tuple(material for material in materials if _holds_nitrogen(material))
    doubtful = not (carriers and all_sources_known)
    soluble = _soluble_share(analysis, carriers, unknown, doubtful)
    insoluble = _insoluble_share(carriers, unknown, doubtful)
    return UsableNitrogen(
        low=total * _usable_share(soluble.low, insoluble.low),
        typical=total * _usable_share(soluble.typical, insoluble.typical),
        high=total * _usable_share(soluble.high, insoluble.high),
        quick=total * soluble.high,
        label=total,
    )


def _usable_share(soluble: Fraction, insoluble_usable: Fraction) -> Fraction:
    return soluble + (1 - soluble) * insoluble_usable


def _holds_nitrogen(material: Material) -> bool:
    content = material.contents.get(Nutrient.N)
    return content is not None and content.typical > 0


def _soluble_share(
    analysis: Analysis, carriers: Sequence[Material], unknown: UnknownSource, doubtful: bool
) -> Spread:
    """Soluble share of the nitrogen [0-1]."""
    total = analysis.of(Nutrient.N)
    stated = _stated_soluble(total, analysis.nitrogen)
    if stated is not None:
        return _exactly(stated / total)
    known = [_exactly(material.soluble_n) for material in carriers]
    if doubtful:
        may_be_salt = total > unknown.organic_most_n
        guess = Spread(low=Fraction(0), typical=Fraction(1, 2), high=Fraction(1))
        known.append(guess if may_be_salt else _exactly(Fraction(0)))
    return _widest(known)


def _stated_soluble(total: Fraction, forms: NitrogenForms) -> Fraction | None:
    """Soluble nitrogen by the label's own forms [kg/kg]; None where it states none."""
    if not total:
        return None
    if forms.insoluble is not None:
        return max(total - forms.insoluble, Fraction(0))
    listed = (forms.ammoniacal, forms.nitrate, forms.urea, forms.other_soluble)
    stated = [form for form in listed if form is not None]
    return min(sum(stated, Fraction(0)), total) if stated else None


def _insoluble_share(
    carriers: Sequence[Material], unknown: UnknownSource, doubtful: bool
) -> Spread:
    """Usable share of the insoluble nitrogen [0-1]."""
    known = [m.usable_insoluble_n for m in carriers if m.usable_insoluble_n is not None]
    if doubtful or not known:
        known.append(unknown.usable_insoluble)
    return _widest(known)


def _exactly(share: Fraction) -> Spread:
    return Spread(low=share, typical=share, high=share)


def _widest(spreads: Sequence[Spread]) -> Spread:
    return Spread(
        low=min(one.low for one in spreads),
        typical=sum((one.typical for one in spreads), Fraction(0)) / len(spreads),
        high=max(one.high for one in spreads),
    )
