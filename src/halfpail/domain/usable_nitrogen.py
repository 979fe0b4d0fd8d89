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
class UnnamedSource:
    """What is counted where a bag does not name the source of its nitrogen [shares, 0-1].

    `of_all` is the usable share of all its nitrogen; where its high figure is the whole, the
    nitrogen may be a salt and counts as quick. `of_insoluble` is the usable share of the part
    that a label says is insoluble.
    """

    of_all: Spread
    of_insoluble: Spread


def usable_nitrogen(
    analysis: Analysis,
    materials: Sequence[Material],
    unnamed: UnnamedSource,
    all_sources_known: bool = True,
) -> UsableNitrogen:
    """Usable nitrogen of a product [kg/kg], from its label and the materials it is made of.

    The soluble part is what the label's forms say, else what the materials say. A label does
    not give the shares of several sources, so the widest reading is taken: the lowest low, the
    highest high, and the plain mean of the typical figures.

    >>> half = Spread(low=Fraction("0.35"), typical=Fraction("0.5"), high=Fraction("0.55"))
    >>> unnamed = UnnamedSource(of_all=half, of_insoluble=half)
    >>> usable_nitrogen(Analysis(shares={Nutrient.N: Fraction(4, 100)}), (), unnamed).typical
    Fraction(1, 50)
    """
    total = analysis.of(Nutrient.N)
    carriers = [material for material in materials if _holds_nitrogen(material)]
    doubtful = not (carriers and all_sources_known)
    stated = _stated_soluble_share(total, analysis.nitrogen)
    if stated is None:
        usable, quick = _by_materials(carriers, unnamed, doubtful)
    else:
        usable, quick = _by_label(stated, carriers, unnamed, doubtful), stated
    return UsableNitrogen(
        low=total * usable.low,
        typical=total * usable.typical,
        high=total * usable.high,
        quick=total * quick,
        label=total,
    )


def _holds_nitrogen(material: Material) -> bool:
    content = material.contents.get(Nutrient.N)
    return content is not None and content.typical > 0


def _stated_soluble_share(total: Fraction, forms: NitrogenForms) -> Fraction | None:
    """Soluble share of the nitrogen by the label's own forms [0-1]; None where it states none."""
    if not total:
        return None
    if forms.insoluble is not None:
        return max(1 - forms.insoluble / total, Fraction(0))
    listed = (forms.ammoniacal, forms.nitrate, forms.urea, forms.other_soluble)
    stated = [form for form in listed if form is not None]
    return min(sum(stated, Fraction(0)) / total, Fraction(1)) if stated else None


def _by_materials(
    carriers: Sequence[Material], unnamed: UnnamedSource, doubtful: bool
) -> tuple[Spread, Fraction]:
    """Usable share and quick share of the nitrogen [0-1] where only its sources are known."""
    usable = [
        _counted(material.soluble_n, material.usable_insoluble_n or unnamed.of_insoluble)
        for material in carriers
    ]
    quick = [material.soluble_n for material in carriers]
    if doubtful:
        usable.append(unnamed.of_all)
        quick.append(Fraction(int(unnamed.of_all.high == 1)))
    return _widest(usable), max(quick)


def _by_label(
    soluble: Fraction, carriers: Sequence[Material], unnamed: UnnamedSource, doubtful: bool
) -> Spread:
    """Usable share of the nitrogen [0-1] where the label says how much of it is soluble."""
    known = [m.usable_insoluble_n for m in carriers if m.usable_insoluble_n is not None]
    if doubtful or not known:
        known.append(unnamed.of_insoluble)
    return _counted(soluble, _widest(known))


def _counted(soluble: Fraction, insoluble: Spread) -> Spread:
    """The soluble part in full, the rest by its usable share."""
    rest = 1 - soluble
    return Spread(
        low=soluble + rest * insoluble.low,
        typical=soluble + rest * insoluble.typical,
        high=soluble + rest * insoluble.high,
    )


def _widest(spreads: Sequence[Spread]) -> Spread:
    return Spread(
        low=min(one.low for one in spreads),
        typical=sum((one.typical for one in spreads), Fraction(0)) / len(spreads),
        high=max(one.high for one in spreads),
    )
