"""The pooling problem: inputs mixed in few pools for many outputs, at least cost, proven.

The model holds the share of each input in each pool and the path flows through it (the PQ
form), with its two families of rows that are needless for the problem itself but tighten its
relaxation: Tawarmalani and Sahinidis, Convexification and Global Optimization, 2002, chapter 9
(from memory, not checked).
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from math import inf

from halfpail.blending.ports import Effort, Solver
from halfpail.blending.programme import Outcome, Programme
from halfpail.engine.rows import Sheet, Terms

_REPAIRS = 4
_TRACE = 1e-7


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """Something bought: how much must and may be taken, its cost and qualities a unit."""

    key: str
    cost: float
    quality: Mapping[str, float] = field(hash=False)
    at_least: float = 0.0
    at_most: float = inf


@dataclass(frozen=True, slots=True, kw_only=True)
class Output:
    """Something delivered: how much, at what price, within which qualities a unit."""

    key: str
    price: float
    at_least: float = 0.0
    at_most: float = inf
    quality_at_least: Mapping[str, float] = field(default_factory=dict, hash=False)
    quality_at_most: Mapping[str, float] = field(default_factory=dict, hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pooling:
    """Inputs, pools with their capacity, outputs, and arcs with the most they carry."""

    inputs: tuple[Input, ...]
    pools: Mapping[str, float] = field(hash=False)
    outputs: tuple[Output, ...]
    arcs: Mapping[tuple[str, str], float] = field(hash=False)

    @property
    def paths(self) -> list[tuple[str, str, str]]:
        """Every way from an input through a pool to an output."""
        return [
            (i.key, pool, j.key)
            for pool in self.pools
            for i in self.inputs
            if (i.key, pool) in self.arcs
            for j in self.outputs
            if (pool, j.key) in self.arcs
        ]

    @property
    def direct(self) -> list[tuple[str, str]]:
        """Every way from an input straight to an output."""
        return [
            (i.key, j.key) for i in self.inputs for j in self.outputs if (i.key, j.key) in self.arcs
        ]


Flows = dict[tuple[str, ...], float]
"""Amount by path (input, pool, output) and by direct way (input, output)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PoolingAnswer:
    """The flows found, their value, the proven bound and the seconds it took."""

    flows: Flows = field(hash=False)
    value: float
    bound: float
    seconds: float = field(compare=False)


def solve_pooling(
    pooling: Pooling, bilinear: Solver, linear: Solver, effort: Effort = Effort()
) -> PoolingAnswer:
    """Prove the best value with `bilinear`, then mend its point with linear programmes.

    A solver's point keeps products only within its tolerance. With the splits of each pool held
    the rest is linear, and so it is with the recipes held: solving the two in turn ends in a
    point whose products are exact.

    Raises:
        ValueError: there is no feasible flow, or none was found within the effort.
    """
    programme, flows = by_shares(pooling)
    outcome = bilinear.solve(programme, effort)
    if not outcome.point or outcome.bound is None:
        raise ValueError("no feasible flow was found")
    point = {way: outcome.point[column] for way, column in flows.items()}
    value, mended, seconds = _mended(pooling, linear, point)
    return PoolingAnswer(
        flows=mended, value=value, bound=outcome.bound, seconds=outcome.seconds + seconds
    )


def by_shares(pooling: Pooling) -> tuple[Programme, dict[tuple[str, ...], int]]:
    """The problem in the PQ form, and the column of each way."""
    sheet, flows = _sheet(pooling)
    _pools(sheet, pooling, flows)
    return sheet.done(), flows


def _sheet(pooling: Pooling) -> tuple[Sheet, dict[tuple[str, ...], int]]:
    """A column for each way and all rows that are linear in the ways."""
    sheet = Sheet()
    inputs = {i.key: i for i in pooling.inputs}
    outputs = {j.key: j for j in pooling.outputs}
    flows: dict[tuple[str, ...], int] = {
        way: sheet.column(" to ".join(way), cost=inputs[way[0]].cost - outputs[way[-1]].price)
        for way in [*pooling.paths, *pooling.direct]
    }

    def sum_of(*, begins: str = "", ends: str = "") -> Terms:
        return [
            (column, 1.0)
            for way, column in flows.items()
            if begins in ("", way[0]) and ends in ("", way[-1])
        ]

    for i in pooling.inputs:
        sheet.row(f"{i.key} taken", sum_of(begins=i.key), at_least=i.at_least, at_most=i.at_most)
    for j in pooling.outputs:
        arriving = sum_of(ends=j.key)
        sheet.row(f"{j.key} delivered", arriving, at_least=j.at_least, at_most=j.at_most)
        limits = [(q, n, 1.0) for q, n in j.quality_at_most.items()]
        limits += [(q, n, -1.0) for q, n in j.quality_at_least.items()]
        for quality, limit, sign in limits:
            terms = [
                (column, sign * (inputs[way[0]].quality[quality] - limit))
                for way, column in flows.items()
                if way[-1] == j.key
            ]
            sheet.row(f"{quality} of {j.key}", terms, at_most=0.0)
    for pool, capacity in pooling.pools.items():
        through = [(c, 1.0) for way, c in flows.items() if len(way) == 3 and way[1] == pool]
        sheet.row(f"capacity of {pool}", through, at_most=capacity)
    for (start, end), most in pooling.arcs.items():
        if most < inf:
            terms = [
                (column, 1.0) for way, column in flows.items() if (start, end) in pairwise(way)
            ]
            sheet.row(f"arc {start} to {end}", terms, at_most=most)
    return sheet, flows


def _pools(sheet: Sheet, pooling: Pooling, flows: dict[tuple[str, ...], int]) -> None:
    """One recipe for each pool: a path flow is the input's share times the pool's outflow."""
    most = sum(j.at_most for j in pooling.outputs)
    for pool, capacity in pooling.pools.items():
        limit = min(capacity, most)
        entering = [i.key for i in pooling.inputs if (i.key, pool) in pooling.arcs]
        leaving = [j for j in pooling.outputs if (pool, j.key) in pooling.arcs]
        share = {i: sheet.column(f"share of {i} in {pool}", 1.0) for i in entering}
        sheet.row(
            f"shares in {pool}", [(c, 1.0) for c in share.values()], at_least=1.0, at_most=1.0
        )
        for j in leaving:
            out = sheet.column(f"{pool} out to {j.key}", min(limit, j.at_most))
            for i in entering:
                sheet.product(flows[i, pool, j.key], share[i], out)
            terms = [(flows[i, pool, j.key], 1.0) for i in entering]
            sheet.row(f"{pool} to {j.key}", [*terms, (out, -1.0)], at_least=0.0, at_most=0.0)
        for i in entering:
            terms = [(flows[i, pool, j.key], 1.0) for j in leaving]
            sheet.row(f"{i} in {pool}", [*terms, (share[i], -limit)], at_most=0.0)


def _mended(pooling: Pooling, linear: Solver, point: Flows) -> tuple[float, Flows, float]:
    """Hold splits, then recipes, and so on, until the value no longer changes."""
    seconds, value = 0.0, inf
    for turn in range(2 * _REPAIRS):
        outcome, flows = _held(pooling, linear, point, splits=turn % 2 == 0)
        seconds += outcome.seconds
        if outcome.value is None:
            break
        point = {way: max(0.0, outcome.point[column]) for way, column in flows.items()}
        if abs(outcome.value - value) <= 1e-9 * max(1.0, abs(value)):
            return outcome.value, point, seconds
        value = outcome.value
    if value == inf:
        raise ValueError("the point found could not be made exact")
    return value, point, seconds


def _held(
    pooling: Pooling, linear: Solver, point: Flows, *, splits: bool
) -> tuple[Outcome, dict[tuple[str, ...], int]]:
    """The linear programme with each pool's splits (or recipe) held as in the point.

    A trace the solver left on an arc would tie the whole pool to that arc's limits: it is nought.
    """
    sheet, flows = _sheet(pooling)
    for pool in pooling.pools:
        ways = [way for way in flows if len(way) == 3 and way[1] == pool]
        whole = sum(point[way] for way in ways)
        if whole <= 0:
            for way in ways:
                sheet.row(f"{pool} stays empty", [(flows[way], 1.0)], at_most=0.0)
            continue
        free, held = (0, 2) if splits else (2, 0)
        share = {
            key: sum(point[way] for way in ways if way[held] == key) / whole
            for key in dict.fromkeys(way[held] for way in ways)
        }
        share = {key: part if part > _TRACE else 0.0 for key, part in share.items()}
        for key in dict.fromkeys(way[free] for way in ways):
            line = [way for way in ways if way[free] == key]
            carried = sheet.column(f"{key} in all through {pool}")
            for way in line:
                terms = [(flows[way], 1.0), (carried, -share[way[held]])]
                sheet.row(f"{way} is its share", terms, at_least=0.0, at_most=0.0)
    return linear.solve(sheet.done()), flows
