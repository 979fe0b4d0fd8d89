"""A label for one's own mix, its lines in the order that the laws ask for."""

import textwrap
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from halfpail.domain.guarantee import Rule, by_predominance, claimed, guaranteed_percent
from halfpail.domain.label import Analysis, NitrogenForm
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.quantities.rounding import shortest

_LEADER_END = 35
_WIDTH = 60
_HANG = " " * 5
_PLACES = 6

NAMES: Mapping[Nutrient, str] = {
    Nutrient.N: "Total Nitrogen (N)",
    Nutrient.P2O5: "Available Phosphate (P2O5)",
    Nutrient.K2O: "Soluble Potash (K2O)",
    Nutrient.CA: "Calcium (Ca)",
    Nutrient.MG: "Magnesium (Mg)",
    Nutrient.S: "Sulfur (S)",
    Nutrient.B: "Boron (B)",
    Nutrient.CL: "Chlorine (Cl)",
    Nutrient.CO: "Cobalt (Co)",
    Nutrient.CU: "Copper (Cu)",
    Nutrient.FE: "Iron (Fe)",
    Nutrient.MN: "Manganese (Mn)",
    Nutrient.MO: "Molybdenum (Mo)",
    Nutrient.NI: "Nickel (Ni)",
    Nutrient.NA: "Sodium (Na)",
    Nutrient.ZN: "Zinc (Zn)",
}
FORM_NAMES: Mapping[NitrogenForm, str] = {
    NitrogenForm.AMMONIACAL: "Ammoniacal Nitrogen",
    NitrogenForm.NITRATE: "Nitrate Nitrogen",
    NitrogenForm.UREA: "Urea Nitrogen",
    NitrogenForm.OTHER_SOLUBLE: "Other Water Soluble Nitrogen",
    NitrogenForm.INSOLUBLE: "Water Insoluble Nitrogen",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelLine:
    """One line of a guaranteed analysis; a form of nitrogen stands beneath its total."""

    name: str
    figure: str
    beneath: bool = False


def print_label(
    analysis: Analysis,
    sources: Sequence[tuple[str, Fraction]] = (),
    minimums: Mapping[Nutrient, Rule] | None = None,
    heading: Sequence[str] = (),
) -> str:
    """A guaranteed analysis as a label prints it, every number rounded down.

    Args:
        analysis: shares of the product [kg/kg], not yet rounded.
        sources: name and weight of each source [kg]; they are listed by falling weight.
        minimums: the least claimable share of each nutrient.
        heading: lines above the grade, such as the net weight and the name.

    >>> print(print_label(Analysis(shares={Nutrient.K2O: Fraction(526, 1000)})))
    0-0-52
    GUARANTEED ANALYSIS
    Soluble Potash (K2O) .............. 52%
    """
    lines = [*heading, printed_grade(analysis, minimums), "GUARANTEED ANALYSIS"]
    lines += [_line(one) for one in label_lines(analysis, minimums)]
    if sources:
        listed = "Derived from: " + ", ".join(by_predominance(sources)) + "."
        lines += textwrap.wrap(listed, _WIDTH, subsequent_indent=_HANG, break_on_hyphens=False)
    return "\n".join(lines)


def printed_grade(analysis: Analysis, minimums: Mapping[Nutrient, Rule] | None = None) -> str:
    """The grade above a guaranteed analysis [percent]: what the label promises, rounded down.

    >>> printed_grade(Analysis(shares={Nutrient.N: Fraction(59, 1000)}))
    '5-0-0'
    """
    promised = claimed(analysis.shares, minimums or {})
    return "-".join(_number(promised.get(nutrient, Fraction(0))) for nutrient in PRIMARY)


def label_lines(
    analysis: Analysis, minimums: Mapping[Nutrient, Rule] | None = None
) -> Iterator[LabelLine]:
    """The lines of a guaranteed analysis [percent], in the order of the laws.

    The forms of nitrogen stand beneath the total; they too are rounded down, and no line is
    nought.

    >>> list(label_lines(Analysis(shares={Nutrient.S: Fraction(155, 1000), Nutrient.K2O: 0})))
    [LabelLine(name='Sulfur (S)', figure='15.0%', beneath=False)]
    """
    for nutrient, percent in claimed(analysis.shares, minimums or {}).items():
        figure = _number(percent)
        if nutrient not in PRIMARY and percent.denominator == 1:
            figure += ".0"
        yield LabelLine(name=NAMES[nutrient], figure=f"{figure}%")
        if nutrient is Nutrient.N:
            yield from _form_lines(analysis)


def _line(line: LabelLine) -> str:
    if line.beneath:
        return f"{_HANG}{line.figure} {line.name}"
    whole, point, decimals = line.figure.removesuffix("%").partition(".")
    return f"{f'{line.name} '.ljust(_LEADER_END, '.')} {whole:>2}{point}{decimals}%"


def _form_lines(analysis: Analysis) -> Iterator[LabelLine]:
    for form in NitrogenForm:
        percent = guaranteed_percent(getattr(analysis.nitrogen, form.value) or Fraction(0))
        if percent:
            yield LabelLine(name=FORM_NAMES[form], figure=f"{_number(percent)}%", beneath=True)


def _number(percent: Fraction) -> str:
    return shortest(percent, _PLACES)
