"""The class of each figure of a soil report, and whose table says so."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from halfpail.domain.exchange import Exchange, exchange
from halfpail.domain.soil_class import (
    ClassStep,
    ClassTable,
    SoilClass,
    class_of,
    potassium_limit_mg_per_kg,
)
from halfpail.domain.soil_conversion import Conversion, convert
from halfpail.domain.soil_test import Element, Extractant, Scale, SoilFigure, SoilTest
from halfpail.findings import Notice, Severity
from halfpail.reference.soil_classes import own_table, regions, tables_for
from halfpail.reference.soil_methods import conversions_between, exchange_method_for
from halfpail.sources import Citation, Mark

MIDWEST = "midwest"
_NEVER_CONVERTED = (Extractant.MORGAN, Extractant.MODIFIED_MORGAN)
_BY_CEC = Citation(
    mark=Mark.DERIVED, source="midwest-guide", locator="page 16, the line through 85 and 115 ppm"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassReading:
    """A figure, the figure its table was read with, the table and the class; None: no table."""

    figure: SoilFigure
    read_as: SoilFigure
    table: ClassTable | None = None
    step: ClassStep | None = None
    conversion: Conversion | None = None

    @property
    def soil_class(self) -> SoilClass | None:
        """The class; None where no table reads the figure."""
        return self.step.soil_class if self.step else None

    @property
    def short_mg_per_kg(self) -> Fraction | None:
        """How far the figure lies below enough [mg/kg]; None where no table by weight says."""
        if self.table is None or self.table.scale is not Scale.MASS:
            return None
        enough = self.table.enough_from
        return None if enough is None else max(Fraction(0), enough - self.read_as.value)


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilReading:
    """All classes of a report, its CEC as far as it can be worked, and what to mind."""

    classes: tuple[ClassReading, ...]
    exchange: Exchange | None
    notices: tuple[Notice, ...]

    def of(self, element: Element) -> ClassReading | None:
        """The reading of one element; None where it was not tested."""
        return next((one for one in self.classes if one.figure.element is element), None)

    def class_of(self, element: Element) -> SoilClass | None:
        """The class of one element; None where it was not tested or no table reads it."""
        found = self.of(element)
        return found.soil_class if found else None


def read_classes(test: SoilTest) -> SoilReading:
    """The class of each figure of a report, in the tables of its region where one is chosen."""
    worked = _exchange(test)
    cec = test.cec if test.cec is not None else worked.cec if worked else None
    classes = tuple(_reading(figure, test.region, cec) for figure in test.figures)
    notices = tuple(note for one in classes for note in _notices(one, test.region))
    return SoilReading(classes=classes, exchange=worked, notices=notices)


def _exchange(test: SoilTest) -> Exchange | None:
    method = exchange_method_for(test.buffer.buffer) if test.buffer else None
    return exchange(test, method) if method else None


def _reading(figure: SoilFigure, region: str, cec: Fraction | None) -> ClassReading:
    if region == MIDWEST and figure.element is Element.K and cec is not None:
        table = _potassium_table(figure, cec)
        return _classed(figure, table, None)
    if region:
        own = own_table(figure, region)
        if own:
            return _classed(figure, own, None)
        for table in tables_for(figure.element, region):
            equations = conversions_between(figure.element, figure.extractant, table.extractant)
            if equations and figure.scale is Scale.MASS:
                return _classed(figure, table, equations[0])
    usual = own_table(figure)
    return _classed(figure, usual, None) if usual else ClassReading(figure=figure, read_as=figure)


def _classed(figure: SoilFigure, table: ClassTable, conversion: Conversion | None) -> ClassReading:
    read_as = convert(figure, conversion) if conversion else figure
    return ClassReading(
        figure=figure,
        read_as=read_as,
        table=table,
        step=class_of(read_as, table),
        conversion=conversion,
    )


def _potassium_table(figure: SoilFigure, cec: Fraction) -> ClassTable:
    """Midwest potassium: one limit by CEC, and no extractant named, so the figure's own."""
    responds = ClassStep(
        soil_class=SoilClass.LOW,
        printed="usually responds",
        top=potassium_limit_mg_per_kg(cec),
        open=True,
        citation=_BY_CEC,
    )
    enough = ClassStep(
        soil_class=SoilClass.OPTIMUM,
        printed="enough",
        top=None,
        open=False,
        citation=_BY_CEC,
    )
    return ClassTable(
        key=MIDWEST,
        region=regions()[MIDWEST],
        element=figure.element,
        extractant=figure.extractant,
        scale=figure.scale,
        steps=(responds, enough),
    )


def _notices(reading: ClassReading, region: str) -> Iterator[Notice]:
    figure, table = reading.figure, reading.table
    if reading.conversion:
        sentence = (
            f"{figure.element}: {figure.extractant} was turned into {reading.conversion.to} by "
            "an equation of its own region; on another soil it may be far off."
        )
        citation = reading.conversion.citation
        yield Notice(severity=Severity.CAUTION, sentence=sentence, citation=citation)
    elif table is None:
        sentence = (
            f"{figure.element} by {figure.extractant}: no table here reads it, so it changes "
            "nothing; go by the laboratory's own words."
        )
        yield Notice(severity=Severity.NOTE, sentence=sentence)
    elif region and table.key != region:
        why = " Morgan is never converted." if figure.extractant in _NEVER_CONVERTED else ""
        sentence = (
            f"{figure.element}: {regions()[region]} has no table for {figure.extractant}; "
            f"read in that of {table.region}.{why}"
        )
        yield Notice(severity=Severity.NOTE, sentence=sentence)
