"""Is a label believable? What its sources cannot hold is refused, what is odd is told.

The label has been read already, so its figures agree with each other; here they are held against
the compounds it names, the order and minimums of the laws, and what people commonly mistype.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from halfpail.domain.ceilings import ceiling_findings
from halfpail.domain.guarantee import Rule
from halfpail.domain.label import Kind, Label, Statement
from halfpail.domain.label_agreement import counted, printed
from halfpail.domain.label_lines import shown
from halfpail.domain.material import Material
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.findings import Notice, Severity
from halfpail.sources import Citation, Mark

LABEL_ORDER = Citation(
    mark=Mark.VERIFIED, source="washington-minimums", locator="WAC 16-200-711, order of the list"
)


def check_label(
    label: Label,
    materials: Sequence[Material] = (),
    all_known: bool = True,
    minimums: Mapping[Nutrient, Rule] | None = None,
    warned_above: Mapping[Nutrient, Rule] | None = None,
) -> tuple[Notice, ...]:
    """What a reader should know of a label that has been read.

    Args:
        label: as read.
        materials: the sources it names, as far as they are known.
        all_known: whether `materials` are all of its sources.
        minimums: the least share of each nutrient that a label may claim.
        warned_above: the share of a nutrient above which a label may have to warn.

    Raises:
        Refusal: it promises more than the compounds it names can hold.

    >>> from halfpail.domain.label_reading import read_label
    >>> [notice.severity.value for notice in check_label(read_label("0.1-0.1-0.1"))]
    ['caution']
    """
    return (
        *ceiling_findings(label, materials, all_known),
        *_percent_or_share(label),
        *_plain_words(label),
        *_not_counted(label),
        *_grade_without_line(label),
        *_loose_forms(label),
        *_only_total_phosphate(label),
        *_order(label),
        *_noughts(label),
        *_below_minimum(label, minimums or {}),
        *_warned(label, warned_above or {}),
    )


def _note(sentence: str, citation: Citation | None = None) -> Notice:
    return Notice(severity=Severity.NOTE, sentence=sentence, citation=citation)


def _caution(sentence: str, citation: Citation | None = None) -> Notice:
    return Notice(severity=Severity.CAUTION, sentence=sentence, citation=citation)


def _percent_or_share(label: Label) -> Iterator[Notice]:
    primary = [100 * label.analysis.of(nutrient) for nutrient in PRIMARY]
    if any(primary) and max(primary) < 1 and len(label.analysis.shares) <= len(PRIMARY):
        yield _caution(
            "Every number of this grade is below 1 %. If the bag says 10-10-10, write 10-10-10 "
            "and not 0.10-0.10-0.10."
        )


def _plain_words(label: Label) -> Iterator[Notice]:
    for statement in label.statements:
        if statement.assumed:
            yield _note(
                f"Read as {statement.nutrient}, as a label must state it: "
                f"{shown(statement.text)}. If the bag means the element, read it as elemental."
            )


def _not_counted(label: Label) -> Iterator[Notice]:
    for line in label.unread:
        yield _caution(f"Not counted, since it is no plant nutrient known here: {shown(line)}")
    for statement in label.statements:
        if statement.kind is Kind.APART:
            yield _note(f"Not counted, since it is no guarantee: {shown(statement.text)}")


def _grade_without_line(label: Label) -> Iterator[Notice]:
    """Some of N, P2O5 and K2O have their line, but one that the grade promises has not."""
    used = {nutrient: counted(label.statements, nutrient) for nutrient in PRIMARY}
    lines = [s for s in used.values() if s and s.kind is Kind.GUARANTEE]
    for nutrient, statement in used.items():
        if lines and statement and statement.kind is Kind.GRADE and statement.percent:
            yield _note(
                f"The grade promises {printed(statement.percent)} {nutrient}, but its line is "
                "missing from the analysis; the grade is used."
            )


def _loose_forms(label: Label) -> Iterator[Notice]:
    total = counted(label.statements, Nutrient.N)
    forms = [s for s in label.statements if s.form]
    added = sum((s.percent for s in forms), Fraction(0))
    if total and forms and added != total.percent:
        yield _note(
            f"The forms of nitrogen add up to {printed(added)}, the total is "
            f"{printed(total.percent)}: within rounding, or a form is not listed."
        )


def _only_total_phosphate(label: Label) -> Iterator[Notice]:
    if label.analysis.total_p2o5 and not counted(label.statements, Nutrient.P2O5):
        yield _caution(
            "Only total phosphate is stated, so no available phosphate is counted. Add the grade "
            "if the bag has one."
        )


def _main_lines(label: Label) -> list[Statement]:
    return [s for s in label.statements if s.kind is Kind.GUARANTEE]


def _order(label: Label) -> Iterator[Notice]:
    order = list(Nutrient)
    used = [counted(label.statements, nutrient) for nutrient in Nutrient]
    lines = [statement for statement in _main_lines(label) if statement in used]
    for first, second in pairwise(lines):
        if order.index(second.nutrient) < order.index(first.nutrient):
            yield _note(
                f"{second.nutrient} stands after {first.nutrient}; labels list it before.",
                LABEL_ORDER,
            )


def _noughts(label: Label) -> Iterator[Notice]:
    for statement in _main_lines(label):
        if not statement.percent:
            yield _note(
                f"A line for {statement.nutrient} of nought promises nothing; only the forms of "
                "nitrogen may be listed so."
            )


def _below_minimum(label: Label, minimums: Mapping[Nutrient, Rule]) -> Iterator[Notice]:
    for nutrient, least in minimums.items():
        share = label.analysis.of(nutrient)
        if 0 < share < least.share:
            yield _note(
                f"{printed(100 * share)} {nutrient} is below the {printed(100 * least.share)} "
                "that a label may claim; check the decimal point.",
                least.citation,
            )


def _warned(label: Label, warned_above: Mapping[Nutrient, Rule]) -> Iterator[Notice]:
    """A little too much of these harms plants or animals."""
    for nutrient, most in warned_above.items():
        share = label.analysis.of(nutrient)
        if share > most.share:
            yield _caution(
                f"This product holds {printed(100 * share)} {nutrient}, of which a little too "
                "much harms plants or animals: keep to the bag's directions.",
                most.citation,
            )
