"""Choose few recipes so that every bed has a cheap one: bounds and good choices on a matrix."""

from collections.abc import Callable
from math import inf

import numpy as np

from halfpail.engine.figures import Floats, Wholes

_ROUNDS = 80
_TRIES = 40_000_000
"""Cells of the matrix looked at when every choice is tried."""


def can_try_all(table: Floats, count: int) -> bool:
    """Whether every choice of `count` recipes can be tried one by one."""
    return bool(len(table) ** count * table.shape[1] <= _TRIES)


def every_choice(table: Floats, count: int) -> Floats:
    """The least cost of any choice of `count` recipes with each recipe in it, exactly."""
    if count == 1:
        return np.asarray(table.sum(axis=1), dtype=float)
    least = [every_choice(np.minimum(table, row), count - 1).min() for row in table]
    return np.array(least, dtype=float)


def cheapest_choice(table: Floats, count: int) -> list[int]:
    """A cheapest choice of `count` recipes; where there are too many to try, a good one."""
    if not can_try_all(table, count):
        return good_choices(table, count, 1)[0]
    rows: list[int] = []
    for more in range(min(count, len(table)), 0, -1):
        held = np.minimum(table, table[rows].min(axis=0)) if rows else table
        rows.append(int(every_choice(held, more).argmin()))
    return rows


def chosen_cost(table: Floats, rows: list[int]) -> float:
    """Cost when every bed takes the cheapest of these recipes."""
    return float(table[rows].min(axis=0).sum())


def good_choices(table: Floats, count: int, starts: int = 3) -> list[list[int]]:
    """Greedy choices of `count` recipes, each improved by swaps, best first."""
    capped = np.minimum(table, _ceiling(table))
    found: dict[tuple[int, ...], float] = {}
    for first in np.argsort(capped.sum(axis=1), kind="stable")[:: max(1, starts)][:starts]:
        rows = [int(first)]
        while len(rows) < min(count, len(table)):
            base = capped[rows].min(axis=0)
            rows.append(int(np.minimum(capped, base).sum(axis=1).argmin()))
        rows = _swapped(capped, rows)
        found[tuple(sorted(rows))] = chosen_cost(table, rows)
    return [list(rows) for rows in sorted(found, key=lambda rows: (found[rows], rows))]


def _ceiling(table: Floats) -> float:
    """A stand-in for inf that is dearer than anything finite, so that sums still compare."""
    finite = table[np.isfinite(table)]
    return 10.0 * float(finite.max(initial=1.0)) + 1.0


def _swapped(table: Floats, rows: list[int]) -> list[int]:
    for _ in range(20):
        before = float(table[rows].min(axis=0).sum())
        for place in range(len(rows)):
            others = rows[:place] + rows[place + 1 :]
            base = table[others].min(axis=0) if others else np.full(table.shape[1], inf)
            rows[place] = int(np.minimum(table, base).sum(axis=1).argmin())
        if float(table[rows].min(axis=0).sum()) >= before - 1e-12:
            break
    return rows


def choices_below(
    table: Floats, count: int, target: float, most: int, go_on: Callable[[], None]
) -> tuple[Wholes, Floats]:
    """Every choice of `count` recipes (a row of numbers each) below `target`, cheapest first.

    With each its cost. Where there are more than `most`, the last is the cheapest one left out.
    `go_on` is called now and then and may raise.
    """
    rows, costs = _below(table, min(count, len(table)), target, most, go_on)
    order = np.argsort(costs, kind="stable")[: most + 1]
    return rows[order], costs[order]


def _below(
    table: Floats, count: int, target: float, most: int, go_on: Callable[[], None]
) -> tuple[Wholes, Floats]:
    if count <= 1:
        costs = table.sum(axis=1)
        kept = np.flatnonzero(costs < target)
        return kept[:, None], costs[kept]
    gain, room = np.zeros(len(table)), inf
    if count > 2:
        bound, _, wage = _by_wages(table, count, target)
        if bound >= target:
            return np.zeros((0, count), dtype=np.int64), np.zeros(0)
        gain = np.minimum(table - wage, 0.0).sum(axis=1)
        room = target - float(wage.sum()) - (count - 2) * float(gain.min(initial=0.0))
    found = [(np.zeros((0, count), dtype=np.int64), np.zeros(0))]
    held = 0
    for row in range(len(table)):
        go_on()
        others = np.flatnonzero(gain[:row] + gain[row] < room)
        held_to = np.minimum(table[others], table[row])
        inner, costs = _below(held_to, count - 1, target, most, go_on)
        if len(costs):
            chosen = np.column_stack([others[inner], np.full(len(inner), row)])
            found.append((chosen, costs))
            held += len(costs)
        if held > 2 * most:
            found, target = _cheapest(found, most)
            held = most + 1
    return np.concatenate([rows for rows, _ in found]), np.concatenate([c for _, c in found])


def _cheapest(
    found: list[tuple[Wholes, Floats]], most: int
) -> tuple[list[tuple[Wholes, Floats]], float]:
    """Only the cheapest `most` and one more, and what a choice must be below to join them."""
    rows, costs = np.concatenate([r for r, _ in found]), np.concatenate([c for _, c in found])
    order = np.argsort(costs, kind="stable")[: most + 1]
    return [(rows[order], costs[order])], float(costs[order[-1]])


def bound_on_choices(
    table: Floats, count: int, target: float, should_stop: Callable[[], bool] = bool
) -> tuple[float, Floats]:
    """A lower bound on any choice of `count` recipes, and one on choices with each recipe in it.

    Where every choice can be tried both are exact. Else each bed is paid a wage and the recipes
    that save most on the wages are taken (the Lagrangian of "each bed takes one recipe"); wages
    move until the bound stops growing, reaches `target`, or `should_stop`.
    """
    if len(table) <= 1 or can_try_all(table, count):
        with_each = every_choice(table, min(count, len(table)))
        return float(with_each.min(initial=inf)), with_each
    best, with_each, _ = _by_wages(table, count, target, should_stop)
    return best, with_each


def _by_wages(
    table: Floats, count: int, target: float, should_stop: Callable[[], bool] = bool
) -> tuple[float, Floats, Floats]:
    """The bound by wages, the one with each recipe, and the wages that gave it."""
    cheapest = table.min(axis=0)
    if not np.isfinite(cheapest).all():
        return inf, np.full(len(table), inf), cheapest
    wage = cheapest.copy()
    best, with_each, best_wage = -inf, np.full(len(table), -inf), wage
    step = 1.0
    for _ in range(_ROUNDS):
        save = np.minimum(table - wage, 0.0)
        gain = save.sum(axis=1)
        taken = np.argpartition(gain, min(count, len(gain)) - 1)[:count]
        chosen = gain[taken]
        value = float(wage.sum() + chosen.sum())
        np.maximum(with_each, value - float(chosen.max()) + gain, out=with_each)
        if value > best + 1e-9:
            best, best_wage = value, wage
        else:
            step *= 0.85
        if best >= target or step < 0.01 or should_stop():
            break
        slope = 1.0 - (table[taken] < wage).sum(axis=0)
        length = float(slope @ slope)
        if length == 0:
            break
        goal = target if np.isfinite(target) else best + abs(best) * 0.05 + 1.0
        wage = wage + step * max(goal - value, 1e-6) / length * slope
        wage = np.maximum(wage, cheapest)
    return best, np.maximum(with_each, best), best_wage
