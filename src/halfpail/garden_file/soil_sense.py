"""Whether the figures of a soil report make sense together, and the soil test made of them."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from halfpail.domain.lime_method import Buffer
from halfpail.domain.soil_test import (
    BASES,
    BufferReading,
    Element,
    Extractant,
    Printed,
    SoilFigure,
    SoilTest,
    SoilUnit,
    soil_figure,
)
from halfpail.findings import Fault
from halfpail.quantities.rounding import shortest
from halfpail.reference.soil_methods import equivalent_weights

Fields = Mapping[str, Any]

_MEQ = equivalent_weights()
# Above this no soil is known, so a unit or a digit must be wrong [mg/kg].
_MOST = {
    Element.P: 2000,
    Element.K: 5000,
    Element.CA: 60_000,
    Element.MG: 10_000,
    Element.S: 2000,
    Element.B: 50,
    Element.NA: 10_000,
    Element.NITRATE: 500,
}
# Bases so far above the CEC were typed in the wrong unit; sweet soils give up free lime besides.
_TOO_MANY_BASES = Fraction(3, 2)
_FREE_LIME_PH = Fraction("7.2")


def soil_test_of(fields: Fields) -> SoilTest:
    """The soil test of what was typed; what is faulty in it is left out."""
    figures = (_figure(element, fields) for element in Element)
    acidity, buffer_ph = fields.get("acidity"), fields.get("buffer_ph")
    buffer = fields.get("buffer")
    reading = None
    if acidity is not None:
        reading = BufferReading(buffer=Buffer.ACIDITY, value=acidity)
    elif buffer_ph is not None and buffer is not None:
        reading = BufferReading(buffer=buffer, value=buffer_ph)
    return SoilTest(
        figures=tuple(figure for figure in figures if figure),
        ph=fields.get("ph"),
        buffer=reading,
        organic_matter_share=fields.get("organic_matter_share"),
        cec=fields.get("cec"),
        depth_m=fields.get("depth_m"),
        texture=fields.get("texture"),
        region=fields.get("region", ""),
        year=fields.get("year"),
        p_equation=fields.get("p_equation"),
        k_equation=fields.get("k_equation"),
    )


def _figure(element: Element, fields: Fields) -> SoilFigure | None:
    printed: Printed | None = fields.get(str(element))
    extractant = _extractant(element, fields)
    if printed is None or extractant is None:
        return None
    if printed.unit is SoilUnit.MEQ and element not in _MEQ:
        return None
    return soil_figure(element, extractant, printed, _MEQ)


def _extractant(element: Element, fields: Fields) -> Extractant | None:
    common: Extractant | None = fields.get("extractant")
    if element is Element.NITRATE:
        in_mix = common is Extractant.SATURATED_MEDIA
        return Extractant.SATURATED_MEDIA if in_mix else Extractant.WATER
    own: Extractant | None = None
    if element in BASES:
        own = fields.get("bases_extractant")
    if element is Element.B:
        own = fields.get("boron_extractant")
    return own or common


def soil_faults(place: str, fields: Fields) -> Iterator[Fault]:
    """Everything in a soil report that cannot be so."""
    printed = {element: fields[str(element)] for element in Element if str(element) in fields}
    if not fields:
        remedy = 'Write pH = "6.4", P = "35 ppm" and what else the report prints.'
        yield Fault(place=place, read="", sentence="The soil test says nothing.", remedy=remedy)
    for element in printed:
        if _extractant(element, fields) is None:
            yield Fault(
                place=f"{place}.extractant",
                read="",
                sentence=f"{element} without its extractant says nothing.",
                remedy="Write what the report calls the method: Mehlich-3 ICP, Bray-1, Olsen.",
            )
            break
    yield from _unit_faults(place, printed)
    yield from _buffer_faults(place, fields)
    test = soil_test_of(fields)
    yield from _size_faults(place, test, printed)
    yield from _base_faults(place, test)


def _unit_faults(place: str, printed: Mapping[Element, Printed]) -> Iterator[Fault]:
    by_unit = {
        one.unit: element for element, one in printed.items() if element is not Element.NITRATE
    }
    if {SoilUnit.PPM, SoilUnit.LB_PER_ACRE} <= set(by_unit):
        ppm, acre = by_unit[SoilUnit.PPM], by_unit[SoilUnit.LB_PER_ACRE]
        yield Fault(
            place=f"{place}.{acre}",
            read=f"{ppm} in ppm, {acre} in lb/acre",
            sentence="One report does not mix ppm and lb/acre.",
            remedy="Look at the heading of each column; lb/acre is twice ppm.",
        )
    for element, one in printed.items():
        if one.unit is SoilUnit.MEQ and element not in _MEQ:
            yield Fault(
                place=f"{place}.{element}",
                read=str(one.unit),
                sentence=f"{element} is not counted in milliequivalents.",
                remedy="Look at the heading of its column.",
            )


def _buffer_faults(place: str, fields: Fields) -> Iterator[Fault]:
    if ("buffer_ph" in fields) != ("buffer" in fields):
        missing = "buffer" if "buffer_ph" in fields else "buffer_pH"
        yield Fault(
            place=f"{place}.{missing}",
            read="",
            sentence="A buffer test needs both the kind of buffer and its pH.",
            remedy='Write buffer = "SMP" and buffer_pH = "6.7", say.',
        )


def _size_faults(place: str, test: SoilTest, printed: Mapping[Element, Printed]) -> Iterator[Fault]:
    for figure in test.figures:
        most = _MOST.get(figure.element)
        if most is not None and figure.value > most:
            one = printed[figure.element]
            yield Fault(
                place=f"{place}.{figure.element}",
                read=f"{shortest(one.value, 2)} {one.unit}",
                sentence="No soil holds that much.",
                remedy="Check the unit and the decimal point.",
            )


def _base_faults(place: str, test: SoilTest) -> Iterator[Fault]:
    bases = [figure for figure in test.figures if figure.element in BASES]
    meq = sum((figure.value / _MEQ[figure.element] for figure in bases), Fraction(0))
    sweet = test.ph is not None and test.ph > _FREE_LIME_PH
    if test.cec is None or sweet or meq <= _TOO_MANY_BASES * test.cec:
        return
    yield Fault(
        place=f"{place}.CEC",
        read=f"{shortest(test.cec, 1)} meq/100 g",
        sentence=f"Calcium, magnesium and potassium alone come to {shortest(meq, 1)} meq/100 g.",
        remedy="Were they printed in lb/acre? That is twice ppm.",
    )
