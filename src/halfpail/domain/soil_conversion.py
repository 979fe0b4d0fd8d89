"""From one extractant to another, only by a published equation, and never for Morgan."""

from dataclasses import dataclass
from fractions import Fraction

from halfpail.domain.soil_test import Element, Extractant, Scale, SoilFigure
from halfpail.sources import Citation

NONE = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Conversion:
    """A published straight line from a figure of one extractant to another [both mg/kg]."""

    key: str
    element: Element
    of: Extractant
    to: Extractant
    times: Fraction
    plus_mg_per_kg: Fraction
    citation: Citation


def convert(figure: SoilFigure, conversion: Conversion) -> SoilFigure:
    """A figure as the other extractant would give it, never below nought [mg/kg].

    Raises:
        ValueError: the equation is for another element, extractant or scale.

    >>> from halfpail.sources import Mark
    >>> line = Conversion(key="one", element=Element.P, of=Extractant.MEHLICH_3_ICP,
    ...                   to=Extractant.BRAY_1, times=Fraction("0.832"),
    ...                   plus_mg_per_kg=Fraction("-8.08"), citation=Citation(mark=Mark.PROPOSAL))
    >>> figure = SoilFigure(element=Element.P, extractant=Extractant.MEHLICH_3_ICP,
    ...                     value=Fraction(22))
    >>> float(convert(figure, line).value)
    10.224
    """
    own = (figure.element, figure.extractant, figure.scale)
    if own != (conversion.element, conversion.of, Scale.MASS):
        raise ValueError(f"no equation from {figure.extractant} here")
    value = max(NONE, figure.value * conversion.times + conversion.plus_mg_per_kg)
    return SoilFigure(element=figure.element, extractant=conversion.to, value=value)
