"""Published equations about soil figures: between extractants, for a CEC, from an index."""

from fractions import Fraction
from functools import cache

from halfpail.domain.exchange import ExchangeMethod
from halfpail.domain.index_equation import IndexEquation
from halfpail.domain.lime_method import Buffer
from halfpail.domain.soil_conversion import Conversion
from halfpail.domain.soil_test import LB_PER_ACRE_IN_A_PPM, Element, Extractant
from halfpail.reference.table_units import table_unit
from halfpail.reference.tables import Row, rows

_BASES = {"ca": Element.CA, "mg": Element.MG, "k": Element.K, "na": Element.NA}


@cache
def conversions() -> dict[str, Conversion]:
    """Every published equation from one extractant to another, by key."""
    return {row.text("key"): _conversion(row) for row in rows("extractant_conversions")}


def conversions_between(element: Element, of: Extractant, to: Extractant) -> tuple[Conversion, ...]:
    """The equations from one extractant to another, the one that is used first.

    >>> conversions_between(Element.P, Extractant.MORGAN, Extractant.BRAY_1)
    ()
    """
    return tuple(
        one for one in conversions().values() if (one.element, one.of, one.to) == (element, of, to)
    )


@cache
def exchange_methods() -> dict[str, ExchangeMethod]:
    """Ways to work a CEC from a report, by key."""
    return {row.text("key"): _method(row) for row in rows("exchange_methods")}


def exchange_method_for(buffer: Buffer) -> ExchangeMethod | None:
    """The way whose acidity formula takes this buffer; None where there is none.

    >>> exchange_method_for(Buffer.SMP).key
    'twelve_times'
    """
    return next((one for one in exchange_methods().values() if buffer in one.buffers), None)


def equivalent_weights() -> dict[Element, Fraction]:
    """What a milliequivalent in 100 g weighs, by element [mg/kg], as reports in ppm round it.

    >>> equivalent_weights()[Element.CA]
    Fraction(200, 1)
    """
    return dict(exchange_methods()["twelve_times"].equivalent_mg_per_kg)


@cache
def index_equations() -> dict[int, IndexEquation]:
    """North Carolina's equations by their number."""
    return {int(row.needed("number")): _equation(row) for row in rows("index_equations")}


def _conversion(row: Row) -> Conversion:
    return Conversion(
        key=row.text("key"),
        element=Element(row.text("element")),
        of=Extractant(row.text("of")),
        to=Extractant(row.text("to")),
        times=row.needed("times") / row.needed("divided_by"),
        plus_mg_per_kg=row.needed("plus_ppm"),
        citation=row.citation(),
    )


def _method(row: Row) -> ExchangeMethod:
    halves = LB_PER_ACRE_IN_A_PPM if row.text("unit") == "lb_per_acre" else 1
    return ExchangeMethod(
        key=row.text("key"),
        name=row.text("name"),
        buffers=tuple(Buffer(name) for name in row.words("buffers")),
        acidity_times=row.needed("acidity_times"),
        neutral_ph=row.needed("neutral_ph"),
        equivalent_mg_per_kg={
            element: Fraction(row.text(column)) / halves for column, element in _BASES.items()
        },
        citation=row.citation(),
    )


def _equation(row: Row) -> IndexEquation:
    size = table_unit(row.text("unit")).size
    return IndexEquation(
        number=int(row.needed("number")),
        square=Fraction(row.text("square")) * size,
        slope=Fraction(row.text("slope")) * size,
        level=Fraction(row.text("level")) * size,
        reason=row.text("reason"),
        citation=row.citation(),
    )
