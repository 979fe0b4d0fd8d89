"""Tables of soil classes by region and extractant, and which of them reads a figure."""

from functools import cache
from itertools import groupby

from halfpail.domain.soil_class import ClassStep, ClassTable, SoilClass
from halfpail.domain.soil_test import LB_PER_ACRE_IN_A_PPM, Element, Extractant, Scale, SoilFigure
from halfpail.reference.tables import Row, rows

_SCALES = {"ppm": Scale.MASS, "lb_per_acre": Scale.MASS, "index": Scale.INDEX}


@cache
def class_tables() -> tuple[ClassTable, ...]:
    """Every table of classes; of those for one extractant the first is the usual one."""
    parted = groupby(rows("soil_classes"), key=_which)
    return tuple(_table(tuple(group)) for _, group in parted)


@cache
def regions() -> dict[str, str]:
    """Whose tables there are, by key.

    >>> regions()["california"]
    'California'
    """
    return {row.text("table"): row.text("region") for row in rows("soil_classes")}


def region_called(words: str) -> str | None:
    """The key of a region by its key or name in any case; None where there is none.

    >>> region_called("new york"), region_called("Atlantis")
    ('new_york', None)
    """
    plain = words.strip().casefold()
    found = (key for key, name in regions().items() if plain in (key, name.casefold()))
    return next(found, None)


def tables_for(element: Element, region: str = "") -> tuple[ClassTable, ...]:
    """The tables of one element, of one region (its key) or of all, the usual ones first.

    >>> [table.key for table in tables_for(Element.P, "delaware")]
    ['delaware']
    """
    return tuple(
        table for table in class_tables() if table.element is element and region in ("", table.key)
    )


def own_table(figure: SoilFigure, region: str = "") -> ClassTable | None:
    """The first table made for a figure's own extractant and scale; None where there is none.

    >>> from fractions import Fraction
    >>> own_table(SoilFigure(element=Element.P, extractant=Extractant.OLSEN,
    ...                      value=Fraction(9))).region
    'California'
    """
    return next(
        (
            table
            for table in tables_for(figure.element, region)
            if (table.extractant, table.scale) == (figure.extractant, figure.scale)
        ),
        None,
    )


def _which(row: Row) -> tuple[str, str, str]:
    return row.text("table"), row.text("element"), row.text("extractant")


def _table(group: tuple[Row, ...]) -> ClassTable:
    first = group[0]
    return ClassTable(
        key=first.text("table"),
        region=first.text("region"),
        element=Element(first.text("element")),
        extractant=Extractant(first.text("extractant")),
        scale=_SCALES[first.text("unit")],
        steps=tuple(_step(row) for row in group),
    )


def _step(row: Row) -> ClassStep:
    top = row.printed("top")
    if top is not None and row.text("unit") == "lb_per_acre":
        top /= LB_PER_ACRE_IN_A_PPM
    return ClassStep(
        soil_class=SoilClass(row.text("class")),
        printed=row.text("printed"),
        top=top,
        open=row.text("top_is") == "not in",
        citation=row.citation(),
    )
