"""Ways to a lime requirement from a buffer test, with the tables and lines they read."""

from fractions import Fraction
from functools import cache

from halfpail.domain.lime_buffer import IndexLine
from halfpail.domain.lime_method import Buffer, LimeMethod, Span, Validity
from halfpail.domain.lime_table import TableRow
from halfpail.reference.tables import Row, rows

# Between these two buffer pH figures the Sikora table jumps.
SIKORA_STEP = (Fraction("5.7"), Fraction("5.8"))

_SIKORA_TARGETS = ("5_6", "6_0", "6_4", "6_8", "7_2")
_ACIDITY_TARGETS = ("6_0", "6_5", "7_0")


@cache
def lime_methods() -> dict[str, LimeMethod]:
    """All ways from a buffer test, by key, the usual one of each buffer first."""
    return {row.text("key"): _method(row) for row in rows("lime_methods")}


def methods_for(buffer: Buffer) -> tuple[LimeMethod, ...]:
    """The ways that read one laboratory figure.

    >>> [method.key for method in methods_for(Buffer.SIKORA)]
    ['sikora']
    """
    return tuple(method for method in lime_methods().values() if method.buffer is buffer)


@cache
def sikora_rows() -> tuple[TableRow, ...]:
    """The Sikora table, lime of score 100 by target [kg/m² by pH]; the column to 7.2 as well."""
    return tuple(
        TableRow(
            reading=row.needed("buffer_ph"),
            by_target=_by_target(row, _SIKORA_TARGETS, "tons_per_acre"),
        )
        for row in rows("lime_sikora")
    )


@cache
def acidity_rows() -> tuple[TableRow, ...]:
    """The Mehlich acidity table, calcium carbonate by target [kg/m² by pH]; to 7.0 as well."""
    return tuple(
        TableRow(
            reading=row.needed("acidity_meq_per_100_g"),
            by_target=_by_target(row, _ACIDITY_TARGETS, "lb_per_1000_sq_ft"),
        )
        for row in rows("lime_acidity")
    )


@cache
def smp_lines() -> dict[Fraction, IndexLine]:
    """The remembered lines of the SMP lime index, by goal [pH]."""
    return {
        row.needed("goal_ph"): IndexLine(
            intercept=row.needed("intercept_tons_per_acre"),
            slope=row.needed("slope_tons_per_acre"),
        )
        for row in rows("lime_smp")
    }


def _by_target(row: Row, targets: tuple[str, ...], unit: str) -> dict[Fraction, Fraction]:
    return {Fraction(ph.replace("_", ".")): row.needed(f"to_{ph}_{unit}") for ph in targets}


def _method(row: Row) -> LimeMethod:
    return LimeMethod(
        key=row.text("key"),
        name=row.text("name"),
        buffer=Buffer(row.text("buffer")),
        validity=Validity(
            reading=Span(low=row.in_own_unit("reading_low"), high=row.in_own_unit("reading_high")),
            soil_ph=Span(low=row.amount("soil_ph_low"), high=row.amount("soil_ph_high")),
            target_ph=Span(low=row.needed("target_ph_low"), high=row.needed("target_ph_high")),
            depth_m=row.amount("depth_in"),
            condition=row.text("condition"),
        ),
        citation=row.citation(),
    )
