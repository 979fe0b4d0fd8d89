"""A soil report as printed: each figure with its extractant, its unit and what it means.

A figure belongs to the liquid that drew it out of the soil. Two extractants give two different
numbers for one soil, so the extractant is a part of the figure and never a remark beside it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from halfpail.domain.lime_method import Buffer, Texture


class Element(StrEnum):
    """What a laboratory measures in a soil, always as the element, nitrate as its nitrogen."""

    P = "P"
    K = "K"
    CA = "Ca"
    MG = "Mg"
    S = "S"
    B = "B"
    NA = "Na"
    ZN = "Zn"
    CU = "Cu"
    FE = "Fe"
    MN = "Mn"
    NITRATE = "nitrate-N"


class Extractant(StrEnum):
    """The liquid that drew a figure out of the soil, and for Mehlich-3 how P was then read."""

    MEHLICH_3_ICP = "Mehlich-3, ICP"
    MEHLICH_3_COLOUR = "Mehlich-3, colour"
    MEHLICH_1 = "Mehlich-1"
    BRAY_1 = "Bray-1"
    OLSEN = "Olsen"
    MORGAN = "Morgan"
    MODIFIED_MORGAN = "modified Morgan"
    AMMONIUM_ACETATE = "ammonium acetate"
    DTPA = "DTPA"
    HOT_WATER = "hot water"
    SATURATED_PASTE = "saturated paste"
    SATURATED_MEDIA = "saturated media"
    WATER = "water"


class SoilUnit(StrEnum):
    """The unit a laboratory prints; ppm and mg/kg are the same."""

    PPM = "ppm"
    LB_PER_ACRE = "lb/acre"
    MEQ = "meq/100 g"
    MG_PER_DM3 = "mg/dm3"
    INDEX = "index"


class Scale(StrEnum):
    """What a figure is kept in: by weight of soil, by its volume, or as a laboratory's index."""

    MASS = "mg/kg"
    VOLUME = "mg/dm3"
    INDEX = "index"


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed:
    """A figure as the report prints it."""

    value: Fraction
    unit: SoilUnit


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilFigure:
    """One element of one soil under one extractant; `value` is in the unit of its scale."""

    element: Element
    extractant: Extractant
    value: Fraction
    scale: Scale = Scale.MASS


@dataclass(frozen=True, slots=True, kw_only=True)
class BufferReading:
    """What a laboratory measured of the hidden acid, in the unit of its buffer."""

    buffer: Buffer
    value: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilTest:
    """A soil report: figures, pH, buffer, organic matter [0-1], CEC [meq per 100 g], depth [m].

    `cec` is the one the laboratory prints; `region` is whose tables the gardener wants; `year` is
    when the sample was taken, None if just now. The equations are those a North Carolina report
    names for the crop by their numbers.
    """

    figures: tuple[SoilFigure, ...] = ()
    ph: Fraction | None = None
    buffer: BufferReading | None = None
    organic_matter_share: Fraction | None = None
    cec: Fraction | None = None
    depth_m: Fraction | None = None
    texture: Texture | None = None
    region: str = ""
    year: int | None = None
    p_equation: int | None = None
    k_equation: int | None = None

    def figure(self, element: Element) -> SoilFigure | None:
        """The figure of one element; None where it was not tested."""
        return next((one for one in self.figures if one.element is element), None)


# What a laboratory draws out together, as exchangeable bases.
BASES = (Element.K, Element.CA, Element.MG, Element.NA)


@dataclass(frozen=True, slots=True, kw_only=True)
class Methods:
    """The method of a report, and those of bases and boron where they are others."""

    common: Extractant | None = None
    bases: Extractant | None = None
    boron: Extractant | None = None


def methods_of(test: SoilTest) -> Methods:
    """The methods of a report as its head would name them.

    >>> bray = SoilFigure(element=Element.P, extractant=Extractant.BRAY_1, value=Fraction(30))
    >>> boron = SoilFigure(element=Element.B, extractant=Extractant.HOT_WATER, value=Fraction(1))
    >>> methods = methods_of(SoilTest(figures=(bray, boron)))
    >>> str(methods.common), str(methods.boron), methods.bases
    ('Bray-1', 'hot water', None)
    """
    found = {figure.element: figure.extractant for figure in test.figures}
    bases = next((found[one] for one in BASES if one in found), None)
    boron = found.get(Element.B)
    apart = {*BASES, Element.B, Element.NITRATE}
    common = next((own for element, own in found.items() if element not in apart), None)
    if common is None and found.get(Element.NITRATE) is Extractant.SATURATED_MEDIA:
        common = Extractant.SATURATED_MEDIA
    return Methods(
        common=common,
        bases=None if bases is common else bases,
        boron=None if boron is common else boron,
    )


# A furrow slice of an acre weighs two million pounds, 6 to 7 inches deep: Ohio State University,
# "Understanding soil test reports for phosphorus values" (ohio-p-reports).
LB_PER_ACRE_IN_A_PPM = 2

_EXTRACT = {Extractant.MEHLICH_3_COLOUR: Extractant.MEHLICH_3_ICP}


def soil_figure(
    element: Element,
    extractant: Extractant,
    printed: Printed,
    equivalent_mg_per_kg: Mapping[Element, Fraction],
) -> SoilFigure:
    """A figure on the scale it is kept in, from what a report prints.

    `equivalent_mg_per_kg` is what one milliequivalent in 100 g weighs, by element [mg/kg]. How
    phosphorus was read after a Mehlich-3 extract says nothing of the other elements, so they lose
    it.

    Raises:
        ValueError: the element has no equivalent weight.

    >>> soil_figure(Element.P, Extractant.BRAY_1,
    ...             Printed(value=Fraction(60), unit=SoilUnit.LB_PER_ACRE), {}).value
    Fraction(30, 1)
    """
    if element is not Element.P:
        extractant = _EXTRACT.get(extractant, extractant)
    value, scale = _kept(element, printed, equivalent_mg_per_kg)
    return SoilFigure(element=element, extractant=extractant, value=value, scale=scale)


def _kept(
    element: Element, printed: Printed, equivalent_mg_per_kg: Mapping[Element, Fraction]
) -> tuple[Fraction, Scale]:
    if printed.unit is SoilUnit.LB_PER_ACRE:
        return printed.value / LB_PER_ACRE_IN_A_PPM, Scale.MASS
    if printed.unit is SoilUnit.MEQ:
        if element not in equivalent_mg_per_kg:
            raise ValueError(f"{element} is not counted in milliequivalents")
        return printed.value * equivalent_mg_per_kg[element], Scale.MASS
    if printed.unit is SoilUnit.PPM:
        return printed.value, Scale.MASS
    return printed.value, Scale(printed.unit.value)


def in_lb_per_acre(figure: SoilFigure) -> Fraction:
    """A figure kept by weight as laboratories print it for a furrow slice [lb per acre].

    >>> in_lb_per_acre(SoilFigure(element=Element.P, extractant=Extractant.BRAY_1,
    ...                           value=Fraction(30)))
    Fraction(60, 1)
    """
    return figure.value * LB_PER_ACRE_IN_A_PPM


def manganese_index(manganese_mg_per_kg: Fraction, ph: Fraction) -> Fraction:
    """Activity index of manganese [1] from Mehlich-3 manganese [mg/kg] and pH.

    Rutgers, "Relative levels of nutrients" (rutgers-levels): 101.7 + 3.75 Mn - 15.2 pH.

    >>> float(manganese_index(Fraction(20), Fraction("6.5")))
    77.9
    """
    return Fraction("101.7") + Fraction("3.75") * manganese_mg_per_kg - Fraction("15.2") * ph
