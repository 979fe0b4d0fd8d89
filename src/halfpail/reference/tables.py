"""Rows of the shipped tables: words, exact numbers in our own units, spreads and citations."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache

from halfpail.domain.material import Spread
from halfpail.reference.passport import Column, cells, passport
from halfpail.reference.table_units import table_unit
from halfpail.sources import Citation, Mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row of one table, read by column name."""

    cells: Mapping[str, str] = field(hash=False)
    columns: Mapping[str, Column] = field(hash=False)

    def text(self, column: str) -> str:
        """The words of a cell."""
        return self.cells[column]

    def words(self, column: str) -> tuple[str, ...]:
        """The entries of a cell that holds a list parted by semicolons."""
        return tuple(word.strip() for word in self.cells[column].split(";") if word.strip())

    def printed(self, column: str) -> Fraction | None:
        """The number as printed, in the unit of its column; None where the cell is blank."""
        cell = self.cells[column]
        return Fraction(cell) if cell else None

    def amount(self, column: str) -> Fraction | None:
        """The number in this project's own unit; None where the cell is blank."""
        printed = self.printed(column)
        return None if printed is None else printed * table_unit(self.columns[column].unit).size

    def needed(self, column: str) -> Fraction:
        """The number in this project's own unit, from a cell that may not be blank."""
        return Fraction(self.cells[column]) * table_unit(self.columns[column].unit).size

    def in_own_unit(self, column: str) -> Fraction | None:
        """The number in this project's own unit, by the `unit` cell; None where it is blank."""
        printed = self.printed(column)
        return None if printed is None else printed * table_unit(self.cells["unit"]).size

    def spread(self, stem: str) -> Spread | None:
        """Low, typical and high of one figure in our own unit; None where they are blank."""
        return self.needed_spread(stem) if self.cells[f"{stem}_typical"] else None

    def needed_spread(self, stem: str) -> Spread:
        """Low, typical and high of one figure in our own unit, from cells that are filled."""
        low, typical, high = (self.needed(f"{stem}_{side}") for side in ("low", "typical", "high"))
        return Spread(low=low, typical=typical, high=high)

    def citation(self, prefix: str = "") -> Citation:
        """Who says so: of the row, or of the figure whose citation columns have a prefix."""
        return Citation(
            mark=Mark(self.cells[f"{prefix}mark"]),
            source=self.cells[f"{prefix}source"],
            locator=self.cells[f"{prefix}locator"],
        )


@cache
def rows(table: str) -> tuple[Row, ...]:
    """All rows of a shipped table in their own order.

    >>> rows("materials")[0].text("key")
    'blood_meal'
    """
    columns = passport(table).columns
    return tuple(Row(cells=line, columns=columns) for line in cells(table))
