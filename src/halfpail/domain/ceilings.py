"""What the named sources can hold at the most, from their formulas, against what a label promises.

A pure compound cannot hold more of a nutrient than its formula says. Each nutrient of a label
needs a least weight of the sources that hold it; sources of different nutrients share one bag.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from halfpail.domain.label import Label
from halfpail.domain.label_agreement import counted, printed
from halfpail.domain.label_lines import shown
from halfpail.domain.material import Material
from halfpail.domain.matter import CARBONATE, Nutrient, ceiling, factor
from halfpail.findings import Fault, Notice, Refusal, Severity
from halfpail.quantities.rounding import decimal
from halfpail.sources import Citation, Mark

# A label in whole percents may stand half a percent above the compound: Epsom salt is sold as
# 10 % Mg and holds 9.86 % [kg/kg].
ROUNDING = Fraction(5, 1000)
# Nothing sold for gardens holds more of these.
RICHEST = {
    Nutrient.N: ("urea", "CO(NH2)2"),
    Nutrient.P2O5: ("monoammonium phosphate", "NH4H2PO4"),
    Nutrient.K2O: ("potassium chloride", "KCl"),
}
CEILINGS = Citation(mark=Mark.DERIVED, source="atomic-weights", locator="from the formulas")


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """The least share of the bag [kg/kg] that the sources of one nutrient must fill."""

    nutrient: Nutrient
    promised: Fraction
    share: Fraction
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Capacity:
    """The most of each nutrient one source can hold [kg/kg], and whether that is certain.

    It is certain only where the source is one compound with a formula.
    """

    name: str
    most: Mapping[Nutrient, Fraction] = field(hash=False)
    certain: bool


def capacity(material: Material, with_water: bool = True) -> Capacity:
    """The most of each nutrient [kg/kg] that a material can hold.

    The formula, or the table's highest figure where that is more (a trade grade may hold another
    compound beside). `with_water` False leaves out crystal water, which may have been dried off.

    >>> from halfpail.sources import Citation, Mark
    >>> gypsum = Material(key="gypsum", name="Gypsum", synonyms=(), contents={},
    ...     formula="CaSO4.2H2O", citation=Citation(mark=Mark.PROPOSAL))
    >>> [round(float(capacity(gypsum, water).most[Nutrient.CA]), 3) for water in (True, False)]
    [0.233, 0.294]
    """
    most = {nutrient: spread.high for nutrient, spread in material.contents.items()}
    if material.formula:
        formula = material.formula if with_water else _dry(material.formula)
        for nutrient, share in ceiling(formula).items():
            most[nutrient] = max(share, most.get(nutrient, Fraction(0)))
    return Capacity(name=material.name, most=most, certain=bool(material.formula))


def needs(promised: Mapping[Nutrient, Fraction], sources: Sequence[Capacity]) -> tuple[Need, ...]:
    """The least share of the bag [kg/kg] for each promised nutrient that some source holds.

    >>> urea = Capacity(name="Urea", most={Nutrient.N: Fraction(4665, 10000)}, certain=True)
    >>> float(needs({Nutrient.N: Fraction(48, 100)}, [urea])[0].share) > 1
    True
    """
    found = []
    for nutrient, share in promised.items():
        holders = [source for source in sources if source.most.get(nutrient)]
        if holders and share > ROUNDING:
            richest = max(source.most[nutrient] for source in holders)
            found.append(
                Need(
                    nutrient=nutrient,
                    promised=share,
                    share=(share - ROUNDING) / richest,
                    sources=tuple(source.name for source in holders),
                )
            )
    return tuple(found)


def together(found: Sequence[Need]) -> tuple[Need, ...]:
    """Needs that no source can serve twice, largest first: their shares add up in one bag.

    >>> def need(n, share, *sources):
    ...     return Need(nutrient=n, promised=share, share=share, sources=sources)
    >>> half = Fraction(1, 2)
    >>> both = together([need(Nutrient.N, half, "Urea"), need(Nutrient.K2O, half, "Muriate")])
    >>> sum(each.share for each in both)
    Fraction(1, 1)
    """
    apart: list[Need] = []
    for each in sorted(found, key=lambda need: -need.share):
        if all(set(each.sources).isdisjoint(other.sources) for other in apart):
            apart.append(each)
    return tuple(apart)


def ceiling_findings(
    label: Label, materials: Sequence[Material], all_known: bool
) -> tuple[Notice, ...]:
    """Cautions where a label promises more than its sources, or any source, commonly hold.

    Raises:
        Refusal: it promises more than their formulas allow, even without crystal water.

    >>> from halfpail.domain.label_reading import read_label
    >>> ceiling_findings(read_label("46-0-0"), (), all_known=False)
    ()
    """
    if not materials or not all_known:
        return tuple(_beyond_the_richest(label))
    dry = [capacity(material, with_water=False) for material in materials]
    certain = all(source.certain for source in dry)
    if certain:
        faults = [*_impossible(label, dry), *_too_much_carbonate(label, materials)]
        if faults:
            raise Refusal(*faults)
    damp = [capacity(material) for material in materials]
    return tuple(_odd(label, damp))


def _beyond_the_richest(label: Label) -> Iterator[Notice]:
    for nutrient, (name, formula) in RICHEST.items():
        share, most = label.analysis.of(nutrient), ceiling(formula)[nutrient]
        if share - ROUNDING > most:
            yield _caution(
                f"{printed(100 * share)} {nutrient} is more than pure {name} holds, "
                f"{_tenths(most)}; check the figure."
            )


def _impossible(label: Label, sources: Sequence[Capacity]) -> Iterator[Fault]:
    for nutrient, share in label.analysis.shares.items():
        if share > ROUNDING and not any(source.most.get(nutrient) for source in sources):
            yield _fault(
                label,
                nutrient,
                f"{printed(100 * share)} {nutrient} is promised, but none of the named sources "
                "holds any.",
            )
    found = needs(label.analysis.shares, sources)
    over = [need for need in found if need.share > 1]
    for need in over:
        most = (need.promised - ROUNDING) / need.share
        yield _fault(
            label,
            need.nutrient,
            f"{' or '.join(need.sources)} holds at most {_tenths(most)} {need.nutrient}, and "
            f"{printed(100 * need.promised)} is promised.",
        )
    crowd = together(found)
    if not over and sum(need.share for need in crowd) > 1:
        sums = "; ".join(
            f"{printed(100 * need.promised)} {need.nutrient} takes {_tenths(need.share)} of the bag"
            for need in crowd
        )
        yield _fault(label, crowd[0].nutrient, f"The sources do not fit into one bag: {sums}.")


def _too_much_carbonate(label: Label, materials: Sequence[Material]) -> Iterator[Fault]:
    """Calcium and magnesium of limestones are carbonates, and both share the one bag."""
    carbonates = all("CO3" in material.formula for material in materials)
    promised = {n: label.analysis.of(n) for n in (Nutrient.CA, Nutrient.MG)}
    if not carbonates or not all(promised.values()):
        return
    filled = sum(
        (
            (share - ROUNDING) * factor(nutrient.element, CARBONATE[nutrient], nutrient.element)
            for nutrient, share in promised.items()
        ),
        Fraction(0),
    )
    if filled > 1:
        yield _fault(
            label,
            Nutrient.CA,
            f"{printed(100 * promised[Nutrient.CA])} Ca with {printed(100 * promised[Nutrient.MG])}"
            f" Mg would be {_tenths(filled)} carbonate.",
        )


def _odd(label: Label, sources: Sequence[Capacity]) -> Iterator[Notice]:
    for need in needs(label.analysis.shares, sources):
        if need.share > 1:
            yield _caution(
                f"{printed(100 * need.promised)} {need.nutrient} is more than "
                f"{' or '.join(need.sources).lower()} commonly holds; check the line."
            )
    for nutrient in (Nutrient.N, Nutrient.P2O5, Nutrient.K2O):
        if label.analysis.of(nutrient) > 2 * ROUNDING and not any(
            source.most.get(nutrient) for source in sources
        ):
            yield _caution(
                f"None of the named sources is known to hold {nutrient}; is one missing?"
            )


def _fault(label: Label, nutrient: Nutrient, sentence: str) -> Fault:
    statement = counted(label.statements, nutrient)
    return Fault(
        place=f"line {statement.line}" if statement else "label",
        read=shown(statement.text if statement else label.text),
        sentence=sentence,
        remedy="Check the figure and the derived-from list against the bag.",
    )


def _caution(sentence: str) -> Notice:
    return Notice(severity=Severity.CAUTION, sentence=sentence, citation=CEILINGS)


def _tenths(share: Fraction) -> str:
    return f"{decimal(100 * share, 1)} %"


def _dry(formula: str) -> str:
    return ".".join(part for part in formula.split(".") if not part.endswith("H2O"))
