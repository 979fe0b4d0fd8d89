"""The class of a soil figure, read only from a table made for its own extractant."""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from halfpail.domain.soil_test import Element, Extractant, Scale, SoilFigure
from halfpail.sources import Citation


class SoilClass(StrEnum):
    """How a soil stands with an element; each table's own words are kept beside it."""

    VERY_LOW = "very low"
    LOW = "low"
    MEDIUM = "medium"
    OPTIMUM = "optimum"
    HIGH = "high"
    VERY_HIGH = "very high"


# Classes in which a crop may well respond.
SHORT = (SoilClass.VERY_LOW, SoilClass.LOW, SoilClass.MEDIUM)


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassStep:
    """One class of a table: its word there, and its upper end, which is in it or (`open`) not.

    Without an upper end it is the last class.
    """

    soil_class: SoilClass
    printed: str
    top: Fraction | None
    open: bool
    citation: Citation

    def holds(self, value: Fraction) -> bool:
        """Whether a value that is above the classes before is still in this one [its scale].

        >>> from halfpail.sources import Mark
        >>> step = ClassStep(soil_class=SoilClass.LOW, printed="low", top=Fraction(15), open=True,
        ...                  citation=Citation(mark=Mark.PROPOSAL))
        >>> step.holds(Fraction(14)), step.holds(Fraction(15))
        (True, False)
        """
        return self.top is None or value < self.top or (value == self.top and not self.open)


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassTable:
    """Classes of one element under one extractant, as one region prints them, lowest first."""

    key: str
    region: str
    element: Element
    extractant: Extractant
    scale: Scale
    steps: tuple[ClassStep, ...]

    @property
    def enough_from(self) -> Fraction | None:
        """Where the soil has enough, the top of the last lower class [its scale]."""
        below = [step for step in self.steps if step.soil_class in SHORT]
        return below[-1].top if below else None


def class_of(figure: SoilFigure, table: ClassTable) -> ClassStep:
    """The class of a figure in a table.

    Raises:
        ValueError: the table is for another element, extractant or scale.

    >>> from halfpail.sources import Mark
    >>> step = ClassStep(soil_class=SoilClass.LOW, printed="low", top=None, open=False,
    ...                  citation=Citation(mark=Mark.PROPOSAL))
    >>> table = ClassTable(key="one", region="One", element=Element.P, extractant=Extractant.OLSEN,
    ...                    scale=Scale.MASS, steps=(step,))
    >>> class_of(SoilFigure(element=Element.P, extractant=Extractant.MORGAN, value=Fraction(3)),
    ...          table)
    Traceback (most recent call last):
    ValueError: a figure of Morgan cannot be read in a table of Olsen
    """
    own = (figure.element, figure.extractant, figure.scale)
    if own != (table.element, table.extractant, table.scale):
        raise ValueError(
            f"a figure of {figure.extractant} cannot be read in a table of {table.extractant}"
        )
    return next(step for step in table.steps if step.holds(figure.value))


def potassium_limit_mg_per_kg(cec: Fraction) -> Fraction:
    """Potassium below which Midwest vegetables respond [mg/kg], by CEC [meq per 100 g].

    The straight line through the two published points (midwest-guide): 85 at a CEC of 4, 115 at 16.

    >>> potassium_limit_mg_per_kg(Fraction(10))
    Fraction(100, 1)
    """
    return 75 + Fraction(5, 2) * cec
