"""Readers of what a soil report prints; each refuses what is wrong, with advice."""

import re
from typing import Any

from halfpail.application.lime_question import ACIDITY, BUFFER_PH, SOIL_PH
from halfpail.domain.lime_method import Buffer, Span
from halfpail.domain.soil_test import Extractant, Printed, SoilUnit
from halfpail.findings import Refusal
from halfpail.garden_file.values import amount, refuse, words
from halfpail.quantities.reading import read_length_m, read_number, read_percent
from halfpail.quantities.rounding import shortest
from halfpail.quantities.units import size_of
from halfpail.reference.soil_classes import region_called, regions

_DEEPEST_M = 3 * size_of("ft")
_CEC = Span(low=read_number("0.5"), high=read_number("100"))
_UNITS = {
    "ppm": SoilUnit.PPM,
    "mg/kg": SoilUnit.PPM,
    "lb/acre": SoilUnit.LB_PER_ACRE,
    "lbs/acre": SoilUnit.LB_PER_ACRE,
    "lb/a": SoilUnit.LB_PER_ACRE,
    "lbs/a": SoilUnit.LB_PER_ACRE,
    "lbperacre": SoilUnit.LB_PER_ACRE,
    "meq/100g": SoilUnit.MEQ,
    "mg/dm3": SoilUnit.MG_PER_DM3,
    "mg/dm³": SoilUnit.MG_PER_DM3,
    "index": SoilUnit.INDEX,
}
_FIGURE = re.compile(r"([0-9.,/ ]*[0-9]) ?(.*)")
_OXIDE = re.compile(r"\b(P2O5|K2O)\b", re.IGNORECASE)
# Words of report headings; letters and digits only, in lower case.
_EXTRACTANTS = {
    "mehlich3icp": Extractant.MEHLICH_3_ICP,
    "m3icp": Extractant.MEHLICH_3_ICP,
    "mehlich3colour": Extractant.MEHLICH_3_COLOUR,
    "mehlich3color": Extractant.MEHLICH_3_COLOUR,
    "mehlich3colorimetric": Extractant.MEHLICH_3_COLOUR,
    "mehlich1": Extractant.MEHLICH_1,
    "m1": Extractant.MEHLICH_1,
    "bray1": Extractant.BRAY_1,
    "brayp1": Extractant.BRAY_1,
    "p1": Extractant.BRAY_1,
    "pp1": Extractant.BRAY_1,
    "olsen": Extractant.OLSEN,
    "bicarbonate": Extractant.OLSEN,
    "sodiumbicarbonate": Extractant.OLSEN,
    "morgan": Extractant.MORGAN,
    "modifiedmorgan": Extractant.MODIFIED_MORGAN,
    "ammoniumacetate": Extractant.AMMONIUM_ACETATE,
    "dtpa": Extractant.DTPA,
    "hotwater": Extractant.HOT_WATER,
    "saturatedpaste": Extractant.SATURATED_PASTE,
    "saturatedmedia": Extractant.SATURATED_MEDIA,
    "saturatedmediaextract": Extractant.SATURATED_MEDIA,
    "sme": Extractant.SATURATED_MEDIA,
}
_IN_TWO_WAYS = {"mehlich3", "mehlichiii", "m3", "miii", "pm3"}
BUFFERS = {
    "mehlich": Buffer.MEHLICH,
    "adamsevans": Buffer.ADAMS_EVANS,
    "smp": Buffer.SMP,
    "sikora": Buffer.SIKORA,
}


def soil_figure(value: Any, place: str) -> Printed:
    """A figure with its unit, as the report's heading has it."""
    text = words(value, place) if isinstance(value, str) else str(value)
    if oxide := _OXIDE.search(text):
        raise oxide_refusal(place, text, oxide[1])
    match = _FIGURE.fullmatch(text.strip())
    unit = _UNITS.get(re.sub(r"[\s.]", "", match[2]).casefold()) if match else None
    if match is None or unit is None or isinstance(value, bool):
        remedy = "Write the unit that heads its column: ppm, lb/acre, meq/100 g, mg/dm3, index."
        raise refuse(place, value, "A soil figure stands with its unit.", remedy)
    return Printed(value=read_number(match[1], place), unit=unit)


def oxide_refusal(place: str, value: object, oxide: str) -> Refusal:
    """Why an oxide on a soil report will not do."""
    element = oxide[0].upper()
    return refuse(
        place,
        value,
        f"Tables for soil are made for {element}, not for {oxide.upper()}.",
        f"Ask the laboratory for {element} itself; do not use this figure with any chart.",
    )


def extractant(value: Any, place: str) -> Extractant:
    """The extractant of a report; Mehlich-3 alone does not say how phosphorus was read."""
    plain = _plain(words(value, place))
    if plain in _IN_TWO_WAYS:
        raise refuse(
            place,
            value,
            "Mehlich-3 phosphorus is read by ICP or by colour, with different numbers.",
            'Write "Mehlich-3 ICP" or "Mehlich-3 colour"; the laboratory tells which it uses.',
        )
    if plain not in _EXTRACTANTS:
        known = ", ".join(dict.fromkeys(one.value for one in _EXTRACTANTS.values()))
        raise refuse(place, value, "This extractant is not known here.", f"Known: {known}.")
    return _EXTRACTANTS[plain]


def buffer(value: Any, place: str) -> Buffer:
    """The kind of buffer."""
    plain = _plain(words(value, place)).removesuffix("ph").removesuffix("buffer")
    if plain not in BUFFERS:
        remedy = "Write Mehlich, Adams-Evans, SMP or Sikora."
        raise refuse(place, value, "This buffer is not known here.", remedy)
    return BUFFERS[plain]


def region(value: Any, place: str) -> str:
    """Whose tables of classes are wanted."""
    found = region_called(words(value, place))
    if found is None:
        remedy = f"Known: {', '.join(dict.fromkeys(regions().values()))}."
        raise refuse(place, value, "There are no tables of this region here.", remedy)
    return found


def soil_ph(value: Any, place: str) -> object:
    """Soil pH in water."""
    return _within(value, place, SOIL_PH, "A soil's pH")


def buffer_ph(value: Any, place: str) -> object:
    """Buffer pH."""
    return _within(value, place, BUFFER_PH, "A buffer pH")


def acidity(value: Any, place: str) -> object:
    """Mehlich exchangeable acidity, meq per 100 g."""
    return _within(_without_meq(value), place, ACIDITY, "Exchangeable acidity")


def cec(value: Any, place: str) -> object:
    """Cation exchange capacity, meq per 100 g."""
    return _within(_without_meq(value), place, _CEC, "A CEC")


def share(value: Any, place: str) -> object:
    """A percentage as a share."""
    if isinstance(value, bool) or not isinstance(value, (str, int)):
        raise refuse(place, value, "A percentage is wanted here.", 'Write "3.5 %".')
    return read_percent(str(value), place) / 100


def depth_m(value: Any, place: str) -> object:
    """How deep a sample was taken."""
    depth = amount(read_length_m)(value, place)
    assert not isinstance(depth, str)
    if depth > _DEEPEST_M:  # type: ignore[operator]  # the reader answers a length
        raise refuse(place, value, "No garden sample is so deep.", 'Write "6 in", say.')
    return depth


def _within(value: Any, place: str, span: Span, what: str) -> object:
    if isinstance(value, bool) or not isinstance(value, (str, int)):
        raise refuse(place, value, "A number is wanted here.", "Write it as 6.4.")
    number = read_number(str(value), place)
    if not span.holds(number):
        low, high = (shortest(end or number, 1) for end in (span.low, span.high))
        low = "0" if not span.low else low
        raise refuse(place, value, f"{what} lies between {low} and {high}.", "Check the report.")
    return number


def _without_meq(value: Any) -> Any:
    if isinstance(value, str):
        return re.sub(r" ?meq ?(?:/|per) ?100 ?(?:g|cm3)$", "", value.strip())
    return value


def _plain(text: str) -> str:
    return re.sub(r"[^a-z0-9]", "", text.casefold())
