"""Read a label and say what it promises, what is odd about it, and how that was reached."""

from dataclasses import dataclass

from halfpail.domain.derived_from import Recognition, recognise
from halfpail.domain.label import Label
from halfpail.domain.label_checks import check_label
from halfpail.domain.label_reading import read_label
from halfpail.domain.label_working import explain_label
from halfpail.findings import Notice
from halfpail.reference.label_rules import least_claims, warned_above
from halfpail.reference.materials import materials
from halfpail.working import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelAnswer:
    """A label understood: its analysis, its sources, notices and the working."""

    label: Label
    sources: Recognition
    notices: tuple[Notice, ...]
    working: Working


def understand_label(text: str, elemental: bool = False, name: str = "") -> LabelAnswer:
    r"""What a label says, held against the shipped tables.

    Args:
        text: the label as printed.
        elemental: whether it states P and K, as some countries print them.
        name: what the bag is called, which tells its source where the label names none.

    Raises:
        Refusal: with every fault of the label, or what its sources cannot hold.

    >>> answer = understand_label("46-0-0\nDerived from: urea")
    >>> [material.key for material in answer.sources.materials]
    ['urea']
    """
    label = read_label(text, elemental)
    sources = sources_of(label, name)
    checked = check_label(
        label,
        sources.materials,
        all_known=sources.all_known,
        minimums=least_claims(),
        warned_above=warned_above(),
    )
    return LabelAnswer(
        label=label,
        sources=sources,
        notices=(*checked, *sources.notices),
        working=explain_label(label),
    )


def sources_of(label: Label, name: str = "") -> Recognition:
    """The materials a label names; where it names none, the bag's own name if that is one.

    >>> sources_of(read_label("12-0-0"), "Blood meal").materials[0].key
    'blood_meal'
    """
    if label.derived_from:
        return recognise(label.derived_from, materials())
    by_name = recognise(name, materials())
    return by_name if by_name.all_known else Recognition(materials=())
