"""Lime requirement by looking a buffer reading up in a published table."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from halfpail.domain.lime_buffer import NONE, between


@dataclass(frozen=True, slots=True, kw_only=True)
class TableRow:
    """One reading of a table and the lime for each target [kg/m² by pH]."""

    reading: Fraction
    by_target: Mapping[Fraction, Fraction] = field(hash=False)


def row_of_acidity(rows: Sequence[TableRow], acidity: Fraction) -> TableRow:
    """The last row that an acidity [meq per 100 g] reaches, as the table is meant to be read.

    Raises:
        ValueError: the acidity lies outside the table.

    >>> rows = [TableRow(reading=Fraction(one), by_target={}) for one in (2, 3)]
    >>> row_of_acidity(rows, Fraction("2.9")).reading
    Fraction(2, 1)
    """
    reached = [row for row in rows if row.reading <= acidity]
    if not reached or acidity > max(row.reading for row in rows):
        raise ValueError("the acidity lies outside the table")
    return max(reached, key=lambda row: row.reading)


def row_of_buffer(
    rows: Sequence[TableRow], buffer_ph: Fraction, step: tuple[Fraction, Fraction]
) -> TableRow:
    """The row of a buffer pH [pH], between two rows by their distance.

    Across the `step` (its lower and its upper buffer pH) the table jumps and nothing is drawn
    between: the upper row counts, which asks for less lime.

    Raises:
        ValueError: the buffer pH lies outside the table.

    >>> rows = [TableRow(reading=Fraction(ph), by_target={Fraction(6): Fraction(lime)})
    ...         for ph, lime in (("6.0", 2), ("5.8", 3), ("5.7", 9))]
    >>> step = (Fraction("5.7"), Fraction("5.8"))
    >>> row_of_buffer(rows, Fraction("5.9"), step).by_target[Fraction(6)]
    Fraction(5, 2)
    >>> row_of_buffer(rows, Fraction("5.75"), step).by_target[Fraction(6)]
    Fraction(3, 1)
    """
    under = [row for row in rows if row.reading <= buffer_ph]
    over = [row for row in rows if row.reading >= buffer_ph]
    if not under or not over:
        raise ValueError("the buffer pH lies outside the table")
    low = max(under, key=lambda row: row.reading)
    high = min(over, key=lambda row: row.reading)
    if low == high or (low.reading, high.reading) == step:
        return high
    share = (buffer_ph - low.reading) / (high.reading - low.reading)
    return TableRow(
        reading=buffer_ph,
        by_target={
            target: lime + share * (high.by_target[target] - lime)
            for target, lime in low.by_target.items()
        },
    )


def table_need(row: TableRow, soil_ph: Fraction, target_ph: Fraction) -> Fraction:
    """Lime requirement [kg/m²] of a row; nought where the soil stands at its target [pH].

    Raises:
        ValueError: the target lies outside the columns.

    >>> row = TableRow(reading=Fraction(6), by_target={Fraction("6.5"): Fraction(2)})
    >>> table_need(row, Fraction(5), Fraction("6.5")), table_need(row, Fraction(7), Fraction(6))
    (Fraction(2, 1), Fraction(0, 1))
    """
    return NONE if target_ph <= soil_ph else between(row.by_target, target_ph)
