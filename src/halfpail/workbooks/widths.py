"""How wide a column is, so that most of what stands in it can be read."""

from collections.abc import Iterable
from datetime import date
from fractions import Fraction

from halfpail.application.sheet_columns import Cell

_LEAST, _MOST = 8, 44
_DAY, _NUMBER = 11, 10


def width_of(head: str, cells: Iterable[Cell]) -> int:
    """Letters that fit beside each other; a long head goes over several lines.

    >>> width_of("bag", ["All-purpose meal blend"]), width_of("weight of a full bag (lb)", [])
    (24, 14)
    """
    longest = max((len(word) for word in head.split()), default=0)
    wanted = [max(longest, (len(head) + 1) // 2 + 1), *map(_letters, cells)]
    return min(_MOST, max(_LEAST, *wanted))


def _letters(cell: Cell) -> int:
    if cell is None:
        return 0
    if isinstance(cell, date):
        return _DAY
    if isinstance(cell, str):
        return max(map(len, cell.split("\n")), default=0) + 2
    return _NUMBER if isinstance(cell, Fraction) else len(str(cell))
