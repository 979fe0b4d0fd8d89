"""A label for one's own mix, its lines in the order that the laws ask for."""

import textwrap
from collections.abc import Mapping, Sequence
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
    promised = claimed(analysis.shares, minimums or {})
    grade = "-".join(_number(promised.get(nutrient, Fraction(0))) for nutrient in PRIMARY)
    lines = [*heading, grade, "GUARANTEED ANALYSIS"]
    for nutrient, percent in promised.items():
        lines.append(_line(nutrient, percent))
        if nutrient is Nutrient.N:
            lines += _form_lines(analysis)
    if sources:
        listed = "Derived from: " + ", ".join(by_predominance(sources)) + "."
        lines += textwrap.wrap(listed, _WIDTH, subsequent_indent=_HANG, break_on_hyphens=False)
    return "\n".join(lines)


def _line(nutrient: Nutrient, percent: Fraction) -> str:
    name = f"{NAMES[nutrient]} ".ljust(_LEADER_END, ".")
    figure = _number(percent)
    if nutrient not in PRIMARY and percent.denominator == 1:
        figure += ".0"
    whole, point, decimals = figure.partition(".")
    return f"{name} {whole:>2}{point}{decimals}%"


def _form_lines(analysis: Analysis) -> list[str]:
    """The forms beneath total nitrogen; they too are rounded down, and none of them is nought."""
    shares = {form: getattr(analysis.nitrogen, form.value) for form in NitrogenForm}
    percents = {form: guaranteed_percent(share) for form, share in shares.items() if share}
    return [
        f"{_HANG}{_number(percent)}% {FORM_NAMES[form]}"
        for form, percent in percents.items()
        if percent
    ]


def _number(percent: Fraction) -> str:
    return shortest(percent, _PLACES)
