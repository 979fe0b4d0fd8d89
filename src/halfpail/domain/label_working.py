"""How the analysis was got from the figures of a label, with pencil and paper."""

from collections.abc import Iterator
from fractions import Fraction

from halfpail.domain.label import Kind, Label, Statement
from halfpail.domain.label_agreement import counted, printed
from halfpail.domain.matter import Nutrient, atoms, molar_mass_g_per_mol
from halfpail.quantities.rounding import shortest
from halfpail.sources import Citation, Mark
from halfpail.working import Step, Working

ATOMIC_WEIGHTS = Citation(mark=Mark.DERIVED, source="atomic-weights")
_PLACES = 3


def explain_label(label: Label) -> Working:
    """Each step from the printed figures to the analysis.

    >>> from halfpail.domain.label_reading import read_label
    >>> explain_label(read_label("Calcium as CaO 14%"))[0].sum
    '14 % x 40.078 / 56.077 = 10.006 % Ca'
    """
    used = {nutrient: counted(label.statements, nutrient) for nutrient in Nutrient}
    statements = [statement for statement in used.values() if statement]
    return (
        *_grade_step(label, statements),
        *(step for statement in statements for step in _conversion(statement)),
        *(step for statement in statements for step in _counted_once(label, statement)),
        *_forms(label),
        *_whole(label),
    )


def _grade_step(label: Label, used: list[Statement]) -> Iterator[Step]:
    from_grade = [s for s in used if s.kind is Kind.GRADE and s.percent]
    if from_grade:
        yield Step(
            reason="The numbers of a grade are percent by weight, in the order N, P2O5, K2O.",
            sum=", ".join(f"{printed(s.percent)} {s.stated}" for s in from_grade),
        )


def _conversion(statement: Statement) -> Iterator[Step]:
    """A figure on another basis than its nutrient's own, put on it by the atomic weights."""
    nutrient = statement.nutrient
    if statement.stated == nutrient.value:
        return
    element = nutrient.element
    top = molar_mass_g_per_mol(nutrient.value) * atoms(statement.stated)[element]
    bottom = molar_mass_g_per_mol(statement.stated) * atoms(nutrient.value)[element]
    yield Step(
        reason=f"The label states {statement.stated}; it is counted as {nutrient}.",
        sum=f"{printed(statement.percent)} x {_mass(top)} / {_mass(bottom)} = "
        f"{_percent(statement.share)} {nutrient}",
        citation=ATOMIC_WEIGHTS,
    )


def _counted_once(label: Label, used: Statement) -> Iterator[Step]:
    for other in label.statements:
        same = other.nutrient is used.nutrient and other.kind is Kind.GUARANTEE
        if same and other is not used:
            yield Step(
                reason=f"{used.nutrient.element} stands twice on the label and is counted once.",
                sum=f"{printed(other.percent)} {other.stated} = {_percent(other.share)} "
                f"{used.nutrient}, which agrees with {printed(used.percent)} {used.stated}",
                citation=ATOMIC_WEIGHTS if other.stated != used.stated else None,
            )


def _forms(label: Label) -> Iterator[Step]:
    forms = [s for s in label.statements if s.form]
    if forms:
        added = sum((s.percent for s in forms), Fraction(0))
        yield Step(
            reason="The forms of nitrogen are parts of the total and are not counted again.",
            sum=" + ".join(printed(s.percent) for s in forms) + f" = {printed(added)} N",
        )


def _whole(label: Label) -> Iterator[Step]:
    shares = label.analysis.shares
    total = sum(shares.values(), Fraction(0))
    if len(shares) > 1:
        yield Step(
            reason="All that is promised must fit into the bag.",
            sum=" + ".join(shortest(100 * share, _PLACES) for share in shares.values())
            + f" = {_percent(total)}, not more than 100 %",
        )


def _mass(mass: Fraction) -> str:
    return shortest(mass, _PLACES)


def _percent(share: Fraction) -> str:
    return f"{shortest(100 * share, _PLACES)} %"
