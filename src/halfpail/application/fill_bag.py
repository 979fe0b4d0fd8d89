"""From what a person writes of a bag to the whole bag: label, density, usable nitrogen."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction

from halfpail.application.garden_entry import BagEntry
from halfpail.application.read_label import LabelAnswer, understand_label
from halfpail.domain.derived_from import Recognition
from halfpail.domain.label import Label
from halfpail.domain.material import Material
from halfpail.domain.matter import Nutrient
from halfpail.domain.stock import Bag, Density, DensityBasis
from halfpail.domain.usable_nitrogen import usable_nitrogen
from halfpail.findings import Notice, Refusal, Severity
from halfpail.quantities.rounding import shortest
from halfpail.reference.defaults import default
from halfpail.reference.usable_nitrogen import unnamed_shares, unnamed_source

NONE = Fraction(0)


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
    sources = answer.sources
    label = with_all_phosphorus(answer.label, sources.materials)
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
        treatment=entry.treatment,
    )
    return bag, tuple(_notices(bag, answer))


def with_all_phosphorus(label: Label, sources: Iterable[Material]) -> Label:
    """The label with all its P2O5 where it claims only what is available.

    Bone and rock hold more than a label may claim. Each source that holds phosphorus is taken to
    bring it as it stands in the table, and of several each the same.
    """
    holding = [one for one in sources if Nutrient.P2O5 in one.contents]
    claimed = sum((one.contents[Nutrient.P2O5].typical for one in holding), NONE)
    held = sum((one.total_p2o5 or one.contents[Nutrient.P2O5].typical for one in holding), NONE)
    available = label.analysis.of(Nutrient.P2O5)
    if label.analysis.total_p2o5 is not None or not claimed or not available or held <= claimed:
        return label
    return replace(label, analysis=replace(label.analysis, total_p2o5=available * held / claimed))


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
    if bag.label.analysis.total_p2o5 != answer.label.analysis.total_p2o5:
        yield _all_phosphorus_notice(bag, answer)
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


def _all_phosphorus_notice(bag: Bag, answer: LabelAnswer) -> Notice:
    analysis = bag.label.analysis
    bone = next(one for one in answer.sources.materials if one.total_p2o5)
    return Notice(
        severity=Severity.NOTE,
        sentence=f"{bag.name}: {bone.name.lower()} holds more P2O5 than a label may claim; the "
        f"phosphorus account counts about {shortest(100 * (analysis.total_p2o5 or NONE), 1)} %, "
        f"the label claims {shortest(100 * analysis.of(Nutrient.P2O5), 1)} %.",
        citation=bone.citation,
    )
