"""Read a label and say what it promises, what is odd about it, and how that was reached."""

from dataclasses import dataclass

from halfpail.domain.derived_from import Recognition, recognise
from halfpail.domain.label import Label
from halfpail.domain.label_checks import check_label
from halfpail.domain.label_reading import read_label
from halfpail.domain.label_working import explain_label
from halfpail.domain.matter import Nutrient
from halfpail.findings import Notice
from halfpail.reference.label_rules import Minimum, minimums
from halfpail.reference.materials import materials
from halfpail.working import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelAnswer:
    """A label understood: its analysis, its sources, notices and the working."""

    label: Label
    sources: Recognition
    notices: tuple[Notice, ...]
    working: Working


def understand_label(text: str, elemental: bool = False) -> LabelAnswer:
    r"""What a label says, held against the shipped tables.

    Raises:
        Refusal: with every fault of the label, or what its sources cannot hold.

    >>> answer = understand_label("46-0-0\nDerived from: urea")
    >>> [material.key for material in answer.sources.materials]
    ['urea']
    """
    label = read_label(text, elemental)
    sources = recognise(label.derived_from, materials())
    least = least_claimable()
    checked = check_label(
        label,
        sources.materials,
        {nutrient: minimum.share for nutrient, minimum in least.items()},
        all_known=sources.all_known,
        minimums_cited={nutrient: minimum.citation for nutrient, minimum in least.items()},
    )
    return LabelAnswer(
        label=label,
        sources=sources,
        notices=(*checked, *sources.notices),
        working=explain_label(label),
    )


def least_claimable() -> dict[Nutrient, Minimum]:
    """For each nutrient the lowest of the least shares that a state lets a label claim."""
    lowest: dict[Nutrient, Minimum] = {}
    for minimum in sorted(minimums(), key=lambda minimum: -minimum.share):
        lowest[minimum.nutrient] = minimum
    return lowest
