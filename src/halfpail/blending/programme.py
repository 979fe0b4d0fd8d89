"""A linear programme with whole columns and products, told in rows that say why they exist."""

from dataclasses import dataclass, field
from enum import StrEnum
from math import inf


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One unknown: its range, its cost in the objective, and whether it must be whole."""

    name: str
    low: float = 0.0
    high: float = inf
    cost: float = 0.0
    whole: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """at_least <= sum of coefficient * column <= at_most.

    Terms are (column number, coefficient); a column appears once.
    """

    name: str
    terms: tuple[tuple[int, float], ...]
    at_least: float = -inf
    at_most: float = inf
    because: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Product:
    """Column `equals` is column `left` times column `right` (all by number)."""

    equals: int
    left: int
    right: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Programme:
    """Columns, rows and products; the objective is minimised unless `maximise`."""

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    products: tuple[Product, ...] = ()
    maximise: bool = False
    offset: float = 0.0


class Status(StrEnum):
    """How a solve ended."""

    OPTIMAL = "optimal"
    FEASIBLE = "feasible"
    INFEASIBLE = "infeasible"
    UNBOUNDED = "unbounded"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranges:
    """Between which ends each cost, column bound and row limit may move on its own.

    Inside its range a cost leaves the point as it is; a bound or limit leaves the prices as they
    are. Ends can be too narrow where several answers are equally good.
    """

    costs: tuple[tuple[float, float], ...]
    columns: tuple[tuple[float, float], ...]
    rows: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What a solver found: a point with its value, and the proven bound on the best value.

    Prices (row duals, reduced costs) are filled only for a linear programme without whole columns,
    ranges only where they were asked for. INFEASIBLE under a cutoff means: nothing better than it.
    """

    status: Status
    value: float | None = None
    bound: float | None = None
    point: tuple[float, ...] = ()
    row_prices: tuple[float, ...] = ()
    column_prices: tuple[float, ...] = ()
    ranges: Ranges | None = None
    nodes: int = 0
    seconds: float = field(default=0.0, compare=False)
