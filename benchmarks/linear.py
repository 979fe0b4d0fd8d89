"""Published linear programmes through both solver doors: python benchmarks/linear.py FILE...

For each file: its name, the value found, the optimum it states, the proven bound and the seconds,
once through each door. An infeasible one also shows a smallest set of rows that cannot hold
together; one of several objectives is answered both ways, all summed and one first.
"""

import json
import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from math import inf
from pathlib import Path
from typing import Any

from halfpail.blending.explain import conflict
from halfpail.blending.ports import Solver
from halfpail.blending.programme import Column, Outcome, Programme, Row, Status
from halfpail.solvers.highs import Highs
from halfpail.solvers.scip import Scip

DOORS: tuple[Solver, ...] = (Highs(), Scip())


def read(path: Path) -> dict[str, Any]:
    """One problem file of the shared schema."""
    content: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return content


def programme_of(problem: Mapping[str, Any]) -> Programme:
    """The file's model in our own programme language."""
    model = problem["model"]
    columns = tuple(
        Column(
            name=variable["id"],
            low=variable.get("min", 0),
            high=variable.get("max", inf),
            cost=variable["cost"],
            whole=variable.get("integer", False),
        )
        for variable in model["variables"]
    )
    number = {column.name: at for at, column in enumerate(columns)}
    rows = tuple(
        Row(
            name=row["id"],
            terms=tuple((number[name], factor) for name, factor in row["coef"].items()),
            at_least=row.get("min", -inf),
            at_most=row.get("max", inf),
            because=row["id"],
        )
        for row in model["constraints"]
    )
    return Programme(columns=columns, rows=rows, maximise=model["sense"].startswith("max"))


def with_objective(programme: Programme, costs: Mapping[str, float]) -> Programme:
    """The same columns and rows under other costs."""
    columns = tuple(replace(c, cost=costs.get(c.name, 0.0)) for c in programme.columns)
    return replace(programme, columns=columns)


def together(objectives: Sequence[Mapping[str, float]]) -> dict[str, float]:
    """The sum of several objectives, each with weight one."""
    names = {name: None for costs in objectives for name in costs}
    return {name: sum(costs.get(name, 0.0) for costs in objectives) for name in names}


def one_first(
    programme: Programme,
    first: Mapping[str, float],
    rest: Sequence[Mapping[str, float]],
    solver: Solver,
) -> Outcome:
    """The best of `first`; among all such answers the best sum of the rest."""
    best = solver.solve(with_objective(programme, first))
    assert best.value is not None
    number = {column.name: at for at, column in enumerate(programme.columns)}
    hold = Row(
        name="the first objective stays at its best",
        terms=tuple((number[name], cost) for name, cost in first.items()),
        at_most=best.value,
    )
    held = replace(programme, rows=(*programme.rows, hold))
    return solver.solve(with_objective(held, together(rest)))


def amount(point: Sequence[float], programme: Programme, costs: Mapping[str, float]) -> float:
    """What one objective comes to at a point."""
    return sum(costs.get(c.name, 0.0) * x for c, x in zip(programme.columns, point, strict=True))


def report(problem: Mapping[str, Any]) -> Iterator[str]:
    """The lines printed for one file."""
    programme = programme_of(problem)
    if problem.get("kind") == "multiobjective_lp":
        yield from _report_objectives(problem, programme)
        return
    for solver in DOORS:
        outcome = solver.solve(programme)
        stated = problem.get("optimum")
        yield _line(
            problem["name"],
            solver,
            outcome,
            _number(stated) if stated is not None else problem.get("expected_status", "not stated"),
        )
        if outcome.status is Status.INFEASIBLE:
            rows = ", ".join(row.name for row in conflict(programme, solver))
            yield f"{'':30} cannot hold together: {rows}"


def _report_objectives(problem: Mapping[str, Any], programme: Programme) -> Iterator[str]:
    objectives: dict[str, dict[str, float]] = problem["objectives"]
    published = problem["published"]
    second = objectives["cost_store_2"]
    rest = [costs for name, costs in objectives.items() if costs is not second]
    for solver in DOORS:
        summed = solver.solve(with_objective(programme, together(list(objectives.values()))))
        first = one_first(programme, second, rest, solver)
        for mode, outcome in (
            ("equal_weight_sum", summed),
            ("store_2_first_then_sum_of_the_rest", first),
        ):
            yield f"{problem['name']:30} {solver.name:6} {mode}  {outcome.seconds:.3f} s"
            for name, costs in objectives.items():
                found = _number(amount(outcome.point, programme, costs))
                yield f"{'':30} {name:18} {found:>16}  published {_number(published[mode][name])}"


def _line(name: str, solver: Solver, outcome: Outcome, stated: str) -> str:
    found = _number(outcome.value) if outcome.value is not None else outcome.status.value
    bound = _number(outcome.bound) if outcome.bound is not None else "none"
    return (
        f"{name:30} {solver.name:6} found {found:>16}  stated {stated:>16}"
        f"  bound {bound:>16}  {outcome.seconds:.3f} s"
    )


def _number(value: float) -> str:
    return f"{value:.10g}"


def main(paths: Sequence[str]) -> None:
    """Report every file; without one, the files that come with the project."""
    files = [Path(path) for path in paths] or sorted(
        (Path(__file__).parent / "data" / "lp").glob("*.json")
    )
    for path in files:
        for line in report(read(path)):
            print(line)


if __name__ == "__main__":
    main(sys.argv[1:])
