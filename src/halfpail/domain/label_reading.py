"""Reading a label as it stands on the bag: the three numbers, or the whole guaranteed analysis."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from halfpail.domain.label import Kind, Label, Statement
from halfpail.domain.label_agreement import analysis_of
from halfpail.domain.label_grade import take_grade
from halfpail.domain.label_lines import Figure, Line, figures, lines_of, shown
from halfpail.domain.label_sources import take_sources
from halfpail.domain.label_wording import (
    Wording,
    mentions_nutrient,
    names_outright,
    nearest_name,
    understand,
)
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.findings import Fault, Refusal

_SECONDARY = (Nutrient.CA, Nutrient.MG, Nutrient.S)
_NET_WEIGHT = re.compile(r"net (?:weight|wt\.?|contents) ?(.*)", re.IGNORECASE)
_ONLY_A_FIGURE = re.compile(r"[^A-Za-z0-9]*[0-9.,]+ ?%")
_FORMULA = re.compile(r"\b[A-Z][A-Za-z]*[0-9][A-Za-z0-9]*\b", re.ASCII | re.IGNORECASE)


@dataclass
class _Gathered:
    """What has been found so far, line by line."""

    elemental: bool
    statements: list[Statement] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    unread: list[str] = field(default_factory=list)
    unfigured: list[tuple[Line, Wording]] = field(default_factory=list)
    net_weight: str = ""


def read_label(text: str, elemental: bool = False) -> Label:
    """A label, understood: `3-4-4`, or a pasted guaranteed analysis of many lines.

    Phosphorus and potassium are read as P2O5 and K2O, as a label in the United States must state
    them; `elemental` reads a label of a country that prints P and K.

    Args:
        text: as printed; lines, tabs and dot leaders may stay.
        elemental: whether the grade, and plain "phosphorus" and "potassium", mean the elements.

    Raises:
        Refusal: with every fault of the label: its line, what was read, why, and how to mend it.

    >>> read_label("3-4-4").analysis.grade
    Grade(n=Fraction(3, 1), p2o5=Fraction(4, 1), k2o=Fraction(4, 1))
    >>> round(float(read_label("4-3-3", elemental=True).analysis.grade.k2o), 2)
    3.61
    """
    body, derived_from = take_sources(_join_columns(lines_of(text)))
    gathered = _Gathered(elemental)
    for line in body:
        try:
            _read_line(line, gathered)
        except Refusal as refusal:
            gathered.faults += refusal.faults
    gathered.faults += _missing_figures(gathered)
    if not gathered.statements and not gathered.faults:
        gathered.faults.append(_nothing_found(text))
    if gathered.faults:
        raise Refusal(*gathered.faults)
    return Label(
        text=text,
        analysis=analysis_of(gathered.statements),
        derived_from=derived_from,
        statements=tuple(gathered.statements),
        unread=tuple(gathered.unread),
        net_weight=gathered.net_weight,
    )


def _join_columns(lines: Sequence[Line]) -> list[Line]:
    """Put a figure that stands alone beside the name on the line above it.

    Only where names and figures alternate: a column of names and then a column of figures could
    be matched wrongly, and is left to be refused.
    """
    alone = [_ONLY_A_FIGURE.fullmatch(line.clean) is not None for line in lines]
    named = [understand(line.clean) is not None and not _digits(line) for line in lines]
    starts = {
        i
        for i in range(len(lines) - 1)
        if named[i] and alone[i + 1] and not any(alone[i + 2 : i + 3]) and not any(named[:i][-1:])
    }
    return [
        _beside(line, lines[i + 1]) if i in starts else line
        for i, line in enumerate(lines)
        if i - 1 not in starts
    ]


def _beside(name: Line, figure: Line) -> Line:
    return Line(
        number=name.number,
        typed=f"{name.typed.strip()} {figure.typed.strip()}",
        clean=f"{name.clean} {figure.clean}",
    )


def _digits(line: Line) -> bool:
    """Whether a line holds digits apart from those of a formula."""
    return re.search("[0-9]", _FORMULA.sub("", line.clean)) is not None


def _read_line(line: Line, gathered: _Gathered) -> None:
    if weight := _NET_WEIGHT.match(line.clean):
        gathered.net_weight = weight[1]
        if re.match(r"0+(\.0+)?(?![0-9.])", weight[1]):
            gathered.faults.append(
                line.fault("The net weight is nought.", "Write the weight printed on the bag.")
            )
        return
    grade, rest = take_grade(line, elemental=gathered.elemental)
    gathered.statements += grade
    found = figures(rest)
    for figure in found:
        _read_figure(rest, figure, gathered)
    if not found:
        _read_words(rest, gathered)


def _read_figure(line: Line, figure: Figure, gathered: _Gathered) -> None:
    wording = understand(figure.name, elemental=gathered.elemental)
    if wording:
        gathered.faults += _doubts(line, figure, wording, gathered.elemental)
        gathered.statements.append(
            Statement(
                line=line.number,
                text=line.typed.strip(),
                nutrient=wording.nutrient,
                stated=wording.stated,
                kind=wording.kind,
                percent=figure.percent,
                last_digit=figure.last_digit,
                form=wording.form if wording.kind is Kind.PART else None,
                assumed=wording.assumed,
            )
        )
    elif not re.search("[A-Za-z]", figure.name):
        if figure.has_unit:
            gathered.faults.append(
                line.fault(
                    "A percentage stands here without a nutrient.",
                    "Write the nutrient and its percentage on one line.",
                )
            )
    elif figure.has_unit and (near := nearest_name(figure.name)):
        gathered.faults.append(
            line.fault("This line is not understood.", f"Is {near} meant? Write it so.")
        )
    elif figure.has_unit and names_outright(figure.name):
        gathered.faults.append(
            line.fault(
                "This line names a nutrient among words that are not understood.",
                "Write only the nutrient and its percentage, such as Total Nitrogen (N) 5 %.",
            )
        )
    elif figure.has_unit:
        gathered.unread.append(line.typed.strip())


def _doubts(line: Line, figure: Figure, wording: Wording, elemental: bool) -> Iterator[Fault]:
    """Readings that could be a wrong number."""
    oxide, element = wording.nutrient.value, wording.nutrient.element
    if wording.clash:
        yield line.fault(
            f"The words and the sign disagree: {wording.clash}.", "Write the line as on the bag."
        )
    if figure.percent > 100:
        yield line.fault("A share cannot be more than 100 %.", "Write a percentage, 0 to 100.")
    on_element = wording.nutrient in PRIMARY and wording.stated == element != oxide
    if on_element and not elemental and not figure.aside:
        yield line.fault(
            f"This line states {element}, the element; a label states {oxide}.",
            f"Write {oxide} if the bag does, or read the label as elemental.",
        )
    minor = wording.nutrient not in PRIMARY + _SECONDARY
    if minor and figure.leader and figure.last_digit == 1:
        digits = figure.percent
        yield line.fault(
            f"The dots run into the figure: {digits} or .{digits}?",
            "Put a space before the figure, and a nought before its decimal point.",
        )


def _read_words(line: Line, gathered: _Gathered) -> None:
    """A line without a figure that can be read."""
    wording = understand(line.clean, elemental=gathered.elemental)
    figure_lost = "%" in line.clean or (wording and _digits(line))
    if figure_lost and mentions_nutrient(line.clean):
        gathered.faults.append(
            line.fault(
                "The percentage on this line cannot be read.", "Write one figure, such as 2.5 %."
            )
        )
    elif wording and wording.kind is Kind.GUARANTEE:
        gathered.unfigured.append((line, wording))


def _missing_figures(gathered: _Gathered) -> Iterator[Fault]:
    """Nutrients named on a line of their own, with a figure nowhere."""
    stated = {statement.nutrient for statement in gathered.statements}
    for line, wording in gathered.unfigured:
        if wording.nutrient not in stated:
            yield line.fault(
                f"No percentage stands beside {wording.nutrient}.",
                "Write the nutrient and its percentage on one line.",
            )


def _nothing_found(text: str) -> Fault:
    return Fault(
        place="label",
        read=shown(text),
        sentence="Neither a grade nor a guaranteed analysis is found here.",
        remedy="Write three numbers with hyphens, such as 3-4-4, or paste the analysis.",
    )
