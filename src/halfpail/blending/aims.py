"""The cheapest and the closest recipe by a solver, and the whole curve between the two.

Cost and distance are one sum divided by another. The least of such a quotient is found by
solving for the difference instead: with a guess g, the recipe with the least over - g * under
either beats the guess, and gives the next one, or proves that nothing does (Dinkelbach 1967,
Management Science 13, 492-498, from memory). Guesses are exact; the solver only proposes.
"""

from dataclasses import replace
from fractions import Fraction
from math import inf

from halfpail.blending.families import as_programme
from halfpail.blending.ports import Solver
from halfpail.blending.programme import Column, Programme, Row
from halfpail.blending.scoops import Demand, ScoopProblem, Scoops, Weighed, weigh

# Wider than what any of the solvers overlooks.
_MARGIN = 1e-6
_CLOSER = Fraction(1, 10**8)


def cheapest(problem: ScoopProblem, solver: Solver, extra: tuple[Row, ...] = ()) -> Weighed | None:
    """The recipe of least cost, or None where no recipe is allowed.

    `extra` rows are over the columns of `as_programme`.
    """
    guess = max(_quotients(problem.cost, problem.cost_per), default=Fraction(0)) + 1
    best: Weighed | None = None
    while True:
        objective = [c - guess * q for c, q in zip(problem.cost, problem.cost_per, strict=True)]
        found = _proposed(problem, as_programme(problem, objective), solver, extra)
        if found is None or (best is not None and found.cost >= best.cost):
            return best
        best, guess = found, found.cost


def closest(problem: ScoopProblem, solver: Solver, extra: tuple[Row, ...] = ()) -> Weighed | None:
    """The recipe of least distance, or None where no recipe is allowed."""
    sizes = (_quotients(miss, problem.miss_per) for miss in problem.misses)
    guess = max((abs(size) for row in sizes for size in row), default=Fraction(0)) + 1
    best: Weighed | None = None
    while True:
        programme = _with_largest_miss(as_programme(problem), problem, guess)
        found = _proposed(problem, programme, solver, extra)
        if found is None or (best is not None and found.distance >= best.distance):
            return best
        best, guess = found, found.distance


def fewest_scoops(problem: ScoopProblem, solver: Solver) -> Weighed | None:
    """A recipe in as few scoops as any."""
    ones = [Fraction(1)] * len(problem.bags)
    return _proposed(problem, as_programme(problem, ones), solver, ())


def fewest_bags(problem: ScoopProblem, solver: Solver) -> Weighed | None:
    """A recipe of as few bags as any."""
    programme, bags = as_programme(problem), len(problem.bags)
    columns = (
        replace(column, cost=float(at >= bags)) for at, column in enumerate(programme.columns)
    )
    return _proposed(problem, replace(programme, columns=tuple(columns)), solver, ())


def curve(problem: ScoopProblem, solver: Solver) -> list[Weighed]:
    """Every undominated recipe from the cheapest to the closest, one of each kind.

    The cheapest recipe is found, then the cheapest that is closer than it, and so on: nothing
    on the curve is missed, which weighing the two aims against each other cannot promise.
    """
    front: list[Weighed] = []
    found = _cheapest_then_closest(problem, solver)
    while found is not None:
        front.append(found)
        if not found.distance:
            break
        found = _cheapest_then_closest(closer_than(problem, found.distance), solver)
    return front


def different_bags(problem: ScoopProblem, solver: Solver, most: int) -> list[Weighed]:
    """The cheapest recipes of which none holds all the bags of another."""
    chosen: list[Weighed] = []
    while len(chosen) < most:
        extra = tuple(row for one in chosen for row in _other_bags(problem, one))
        found = cheapest(problem, solver, extra)
        if found is None:
            break
        chosen.append(found)
    return chosen


def closer_than(problem: ScoopProblem, distance: Fraction) -> ScoopProblem:
    """The same problem with every miss clearly below a distance."""
    limit = distance * (1 - _CLOSER)
    caps = (
        Demand(
            name=f"closer {at}{sign:+d}",
            because="",
            per_scoop=tuple(
                sign * m - limit * q for m, q in zip(miss, problem.miss_per, strict=True)
            ),
        )
        for at, miss in enumerate(problem.misses)
        for sign in (1, -1)
    )
    return replace(problem, demands=(*problem.demands, *caps))


def _cheapest_then_closest(problem: ScoopProblem, solver: Solver) -> Weighed | None:
    """The closest of the cheapest recipes."""
    best = cheapest(problem, solver)
    if best is None or not best.distance:
        return best
    no_dearer = Demand(
        name="no dearer",
        because="",
        per_scoop=tuple(
            c - best.cost * q for c, q in zip(problem.cost, problem.cost_per, strict=True)
        ),
    )
    held = replace(problem, demands=(*problem.demands, no_dearer))
    return closest(held, solver) or best


def _proposed(
    problem: ScoopProblem, programme: Programme, solver: Solver, extra: tuple[Row, ...]
) -> Weighed | None:
    """What the solver proposes, weighed exactly.

    A proposal that breaks a demand by less than the solver can see is asked for again with
    every demand kept clear of its edge.
    """
    point = solver.solve(replace(programme, rows=(*programme.rows, *extra))).point
    if not point:
        return None
    found = weigh(problem, [_scoops(problem, point)])
    if found:
        return found[0]
    named = {demand.name for demand in problem.demands}
    clear = (
        replace(row, at_most=row.at_most - _MARGIN) if row.name in named else row
        for row in (*programme.rows, *extra)
    )
    point = solver.solve(replace(programme, rows=tuple(clear))).point
    return next(iter(weigh(problem, [_scoops(problem, point)])), None) if point else None


def _scoops(problem: ScoopProblem, point: tuple[float, ...]) -> Scoops:
    return tuple(round(count) for count in point[: len(problem.bags)])


def _quotients(over: tuple[Fraction, ...], under: tuple[Fraction, ...]) -> list[Fraction]:
    return [o / u for o, u in zip(over, under, strict=True) if u]


def _with_largest_miss(programme: Programme, problem: ScoopProblem, guess: Fraction) -> Programme:
    """Adds the column `largest`: |sum(miss * scoops)| - guess * sum(miss_per * scoops) <= it."""
    largest = len(programme.columns)
    scale = max(map(abs, (f for row in problem.misses for f in row)), default=Fraction(1))
    rows = []
    for miss in problem.misses:
        for sign in (1, -1):
            figures = [
                (sign * m - guess * q) / (scale or 1)
                for m, q in zip(miss, problem.miss_per, strict=True)
            ]
            terms = [(at, float(figure)) for at, figure in enumerate(figures)]
            rows.append(Row(name="miss", terms=(*terms, (largest, -1.0)), at_most=0))
    columns = (*programme.columns, Column(name="largest miss", low=-inf, cost=1))
    return replace(programme, columns=columns, rows=(*programme.rows, *rows))


def _other_bags(problem: ScoopProblem, one: Weighed) -> tuple[Row, Row]:
    """Not all its bags, and another: sum(open, its) <= their number - 1, sum(open, others) >= 1."""
    bags = len(problem.bags)
    its = tuple((bags + at, 1.0) for at in sorted(one.bags))
    others = tuple((bags + at, 1.0) for at in range(bags) if at not in one.bags)
    return (
        Row(name="not all its bags", terms=its, at_most=len(its) - 1),
        Row(name="another bag", terms=others, at_least=1),
    )
