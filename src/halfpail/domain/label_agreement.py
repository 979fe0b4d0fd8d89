"""From the figures of a label to one analysis: each nutrient counted once, all of them agreeing.

A printed figure stands for a small range, since it was rounded: two figures on different bases
agree where their ranges meet. A grade is the guarantee rounded down.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from halfpail.domain.label import Analysis, Kind, NitrogenForm, NitrogenForms, Statement
from halfpail.domain.label_lines import shown
from halfpail.domain.matter import OXIDE, Nutrient, factor
from halfpail.findings import Fault, Refusal
from halfpail.quantities.rounding import shortest

_PLACES = 4


def analysis_of(statements: Sequence[Statement]) -> Analysis:
    """The analysis that the figures of one label state together.

    Raises:
        Refusal: figures disagree, add up to the impossible, or say nothing; every fault is listed.

    >>> calcium = Statement(line=1, text="Calcium as CaO 14%", nutrient=Nutrient.CA, stated="CaO",
    ...     kind=Kind.GUARANTEE, percent=Fraction(14), last_digit=Fraction(1))
    >>> round(float(analysis_of([calcium]).of(Nutrient.CA)), 4)
    0.1001
    """
    shares = {nutrient: _counted(_of(statements, nutrient)) for nutrient in Nutrient}
    forms = {form: s for form in NitrogenForm for s in statements if s.form is form}
    total_p2o5 = next((s.share for s in statements if s.kind is Kind.TOTAL_PHOSPHATE), None)
    claimed = {nutrient: share for nutrient, share in shares.items() if share}
    faults = [
        *(fault for nutrient in Nutrient for fault in _disagreements(_of(statements, nutrient))),
        *_form_faults(_of(statements, Nutrient.N), forms),
        *_phosphate_faults(statements, claimed.get(Nutrient.P2O5, Fraction(0)), total_p2o5),
        *_whole_faults(statements, claimed, total_p2o5),
    ]
    if faults:
        raise Refusal(*faults)
    return Analysis(
        shares=claimed,
        nitrogen=NitrogenForms(**_form_shares(forms, claimed.get(Nutrient.N, Fraction(0)))),
        total_p2o5=total_p2o5,
    )


def counted(statements: Sequence[Statement], nutrient: Nutrient) -> Statement | None:
    r"""The one figure of a nutrient that is counted, None where the label has none.

    The guarantee line goes before the grade, which is rounded; among lines, the one on the
    nutrient's own basis. A part ("chelated iron") counts only where its whole is not printed.

    >>> from halfpail.domain.label_reading import read_label
    >>> label = read_label("5-8-10 blend\nTotal Nitrogen (N) 5.2%")
    >>> counted(label.statements, Nutrient.N).percent
    Fraction(26, 5)
    """
    own = _of(statements, nutrient)
    lines = [s for s in own if s.kind is Kind.GUARANTEE]
    lines.sort(key=lambda s: s.stated != nutrient.value)
    grades = [s for s in own if s.kind is Kind.GRADE]
    parts = [s for s in own if s.kind is Kind.PART and nutrient is not Nutrient.N]
    return next(iter([*lines, *grades, *parts]), None)


def printed(percent: Fraction) -> str:
    """A percentage as a label prints it [percent].

    >>> printed(Fraction("8.50"))
    '8.5 %'
    """
    return f"{shortest(percent, _PLACES)} %"


def fault_of(statement: Statement, sentence: str, remedy: str) -> Fault:
    """A fault at the line of one figure.

    >>> from halfpail.domain.label_reading import read_label
    >>> fault_of(read_label("3-4-4").statements[0], "It is odd.", "Look again.").place
    'line 1'
    """
    place, read = f"line {statement.line}", shown(statement.text)
    return Fault(place=place, read=read, sentence=sentence, remedy=remedy)


def _of(statements: Sequence[Statement], nutrient: Nutrient) -> list[Statement]:
    return [s for s in statements if s.nutrient is nutrient]


def _counted(own: Sequence[Statement]) -> Fraction | None:
    best = counted(own, own[0].nutrient) if own else None
    return best.share if best else None


def _disagreements(own: Sequence[Statement]) -> Iterator[Fault]:
    best = counted(own, own[0].nutrient) if own else None
    if best is None:
        return
    for kind in (Kind.GUARANTEE, Kind.GRADE):
        first, *others = [s for s in own if s.kind is kind] or [best]
        for other in others:
            yield from _two_lines(first, other)
    if best.kind is Kind.GUARANTEE:
        for grade in (s for s in own if s.kind is Kind.GRADE):
            yield from _line_against_grade(best, grade)
    wholeless = best.kind is Kind.PART
    for part in (s for s in own if s.kind is Kind.PART and s is not best):
        if wholeless:
            yield fault_of(
                part,
                f"Two parts of {part.nutrient} stand here without their total.",
                f"Add the line with the total {part.nutrient}.",
            )
        elif part.lowest > best.highest:
            yield fault_of(
                part,
                f"A part of {printed(part.percent)} is more than its total of "
                f"{printed(best.percent)}.",
                "Check both lines.",
            )


def _two_lines(first: Statement, second: Statement) -> Iterator[Fault]:
    if first.stated == second.stated:
        agree = first.percent == second.percent
    else:
        agree = first.lowest <= second.highest and second.lowest <= first.highest
    if not agree:
        yield fault_of(
            second,
            f"{first.nutrient.element} stands twice, and the two differ: line {first.line} says "
            f"{printed(first.percent)} {first.stated}, this one {printed(second.percent)} "
            f"{second.stated}.",
            "Keep the one printed on the bag.",
        )


def _line_against_grade(line: Statement, grade: Statement) -> Iterator[Fault]:
    if line.stated == grade.stated:
        agree = grade.percent <= line.percent < grade.percent + grade.last_digit
    else:
        agree = line.lowest <= grade.highest and grade.lowest <= line.highest
    if not agree:
        yield fault_of(
            line,
            f"The line says {printed(line.percent)} {line.stated}, the grade "
            f"{printed(grade.percent)} {grade.stated}.",
            _mixed_up(line, grade) or "Check both against the bag.",
        )


def _mixed_up(line: Statement, grade: Statement) -> str:
    """Advice where the two figures are the same amount as oxide and as element."""
    nutrient = line.nutrient
    if nutrient not in (Nutrient.P2O5, Nutrient.K2O):
        return ""
    to_element = factor(OXIDE[nutrient], nutrient.element, nutrient.element)
    for bigger, smaller in ((line, grade), (grade, line)):
        if abs(bigger.percent * to_element - smaller.percent) <= smaller.last_digit:
            return (
                f"{printed(bigger.percent)} {nutrient} is {printed(smaller.percent)} "
                f"{nutrient.element}: one of the two is the element, the other the oxide."
            )
    return ""


def _form_shares(forms: Mapping[NitrogenForm, Statement], total: Fraction) -> dict[str, Fraction]:
    """Shares of the forms [kg/kg]; none is counted above the total, which may have fewer digits."""
    return {form.value: min(s.share, total) for form, s in forms.items()}


def _form_faults(
    own: Sequence[Statement], forms: Mapping[NitrogenForm, Statement]
) -> Iterator[Fault]:
    seen: set[NitrogenForm] = set()
    for s in own:
        if s.form and s.form in seen:
            yield fault_of(s, "This form of nitrogen stands twice.", "Keep one of the two lines.")
        seen |= {s.form} if s.form else set()
    whole = counted(own, Nutrient.N)
    parts = [s for s in own if s.kind is Kind.PART]
    if parts and whole is None:
        yield fault_of(
            parts[0],
            "A part of the nitrogen stands here, but no total nitrogen.",
            "Add the line Total Nitrogen (N), or the grade.",
        )
    if not forms or whole is None:
        return
    too_little = len(forms) > 1 and sum(s.highest for s in forms.values()) < whole.lowest
    if too_little or _too_much(list(forms.values()), whole):
        added = sum((s.percent for s in forms.values()), Fraction(0))
        yield fault_of(
            whole,
            f"The forms of nitrogen add up to {printed(added)}, the total is "
            f"{printed(whole.percent)}.",
            "Check the lines beneath total nitrogen.",
        )


def _too_much(forms: Sequence[Statement], whole: Statement) -> bool:
    """Whether forms pass their total by more than rounding can do.

    A grade is rounded down, a line to the nearest digit; a form with no more digits than its
    total can never be larger.
    """
    room = whole.last_digit if whole.kind is Kind.GRADE else whole.last_digit / 2
    least = sum((s.percent - s.last_digit / 2 for s in forms), Fraction(0))
    return least >= whole.percent + room or any(
        s.percent > whole.percent
        and (s.last_digit >= whole.last_digit or s.percent >= whole.percent + whole.last_digit)
        for s in forms
    )


def _phosphate_faults(
    statements: Sequence[Statement], available: Fraction, total: Fraction | None
) -> Iterator[Fault]:
    if total is not None and total < available:
        line = next(s for s in statements if s.kind is Kind.TOTAL_PHOSPHATE)
        yield fault_of(
            line,
            f"Total phosphate of {printed(100 * total)} is less than the available "
            f"{printed(100 * available)}.",
            "Check both lines: the available part cannot be more than the total.",
        )


def _whole_faults(
    statements: Sequence[Statement], claimed: Mapping[Nutrient, Fraction], total: Fraction | None
) -> Iterator[Fault]:
    """More than the whole bag, or nothing at all."""
    phosphate = max(total or Fraction(0), claimed.get(Nutrient.P2O5, Fraction(0)))
    held = phosphate + sum(
        (share for nutrient, share in claimed.items() if nutrient is not Nutrient.P2O5),
        Fraction(0),
    )
    read = shown(statements[0].text)
    if held > 1:
        yield Fault(
            place="label",
            read=read,
            sentence=f"The nutrients add up to {printed(100 * held)} of the bag.",
            remedy="Check each figure: together they cannot pass 100 %.",
        )
    if held == 0:
        yield Fault(
            place="label",
            read=read,
            sentence="This label promises no nutrient at all.",
            remedy="Add its lines, such as calcium for lime or gypsum.",
        )
