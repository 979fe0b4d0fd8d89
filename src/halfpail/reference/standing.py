"""How many shipped figures stand on what: verified, derived, remembered, or our own choice."""

from collections import Counter

from halfpail.reference.passport import cells, passport, table_names
from halfpail.sources import Mark


def count_by_mark(table: str | None = None) -> dict[Mark, int]:
    """Number of citations of each mark, in one table or in all.

    >>> sum(count_by_mark("label_minimums").values())
    25
    """
    tables = table_names() if table is None else (table,)
    counts = Counter(mark for name in tables for mark in _marks(name))
    return {mark: counts[mark] for mark in Mark}


def _marks(table: str) -> list[Mark]:
    columns = [name for name, column in passport(table).columns.items() if column.unit == "mark"]
    return [Mark(line[name]) for line in cells(table) for name in columns if line[name]]
