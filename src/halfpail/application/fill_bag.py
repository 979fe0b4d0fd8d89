"""From what a person writes of a bag to the whole bag: label, density, usable nitrogen."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from halfpail.application.garden_entry import BagEntry
from halfpail.application.read_label import LabelAnswer, understand_label
from halfpail.domain.derived_from import Recognition
from halfpail.domain.matter import Nutrient
from halfpail.domain.stock import Bag, Density, DensityBasis
from halfpail.domain.usable_nitrogen import usable_nitrogen
from halfpail.findings import Notice, Refusal, Severity
from halfpail.reference.defaults import default
from halfpail.reference.usable_nitrogen import unnamed_shares, unnamed_source


def fill_bag(
    entry: BagEntry, scoop_l: Fraction, elemental: bool = False
) -> tuple[Bag, tuple[Notice, ...]]:
    """The whole bag, and what should be known about how it was filled in.

    Args:
        entry: what was typed.
        scoop_l: what the level scoop holds that was weighed, if one was [L].
        elemental: whether labels state P and K, as some countries print them.

    Raises:
        Refusal: the label is wrong; its faults stand at the place of the entry.
    """
    answer = _understood(entry, elemental)
    label, sources = answer.label, answer.sources
    density = _density(entry, scoop_l, sources)
    nitrogen = label.analysis.of(Nutrient.N)
    bag = Bag(
        key=entry.name,
        name=entry.name,
        label=label,
        density=density,
        usable_n=usable_nitrogen(
            label.analysis, sources.materials, unnamed_source(nitrogen), sources.all_known
        ),
        materials=tuple(material.key for material in sources.materials),
        bag_kg=entry.bag_kg,
        price=entry.price,
        list_price=entry.list_price,
        shed_kg=entry.shed_kg,
        offered=entry.offered,
        straight_ok=entry.straight_ok,
        avoid=entry.avoid,
    )
    return bag, tuple(_notices(bag, answer))


def _understood(entry: BagEntry, elemental: bool) -> LabelAnswer:
    try:
        return understand_label(entry.label, elemental, entry.name)
    except Refusal as refusal:
        raise Refusal(
            *(replace(fault, place=f"{entry.place}, {fault.place}") for fault in refusal.faults)
        ) from None


def _density(entry: BagEntry, scoop_l: Fraction, sources: Recognition) -> Density:
    if entry.scoop_weighs_kg is not None:
        weighed = entry.scoop_weighs_kg / scoop_l
        return Density(low=weighed, typical=weighed, high=weighed, basis=DensityBasis.WEIGHED)
    known = [m.density_kg_per_l for m in sources.materials if m.density_kg_per_l is not None]
    if sources.all_known and len(known) == len(sources.materials):
        return Density(
            low=min(one.low for one in known),
            typical=sum((one.typical for one in known), Fraction(0)) / len(known),
            high=max(one.high for one in known),
            basis=DensityBasis.INGREDIENTS,
        )
    usual = default("blend_density")
    return Density(
        low=usual.low or usual.value,
        typical=usual.value,
        high=usual.high or usual.value,
        basis=DensityBasis.DEFAULT,
    )


def _notices(bag: Bag, answer: LabelAnswer) -> Iterator[Notice]:
    yield from (
        replace(notice, sentence=f"{bag.name}: {notice.sentence}") for notice in answer.notices
    )
    nitrogen = bag.label.analysis.of(Nutrient.N)
    if nitrogen and not answer.sources.materials:
        unnamed = unnamed_shares(nitrogen)
        meaning = unnamed.meaning[0].lower() + unnamed.meaning[1:]
        yield Notice(
            severity=Severity.NOTE,
            sentence=f"{bag.name}: its nitrogen has no named source; it counts so: {meaning}.",
            citation=unnamed.citation,
        )
    if bag.density.basis is DensityBasis.DEFAULT:
        yield Notice(
            severity=Severity.NOTE,
            sentence=f"{bag.name}: a usual weight of a scoop is taken until you weigh one.",
            citation=default("blend_density").citation,
        )
