"""Why a programme has no answer: the fewest rows that cannot hold together."""

from dataclasses import replace

from halfpail.blending.ports import Effort, Solver
from halfpail.blending.programme import Programme, Row, Status


def conflict(programme: Programme, solver: Solver) -> tuple[Row, ...]:
    """Rows that cannot all hold, though any one of them left out would let the others hold.

    Each row is left out in turn and stays out while the rest is still impossible; what remains
    is irreducible. Ranges of columns and rows that give no reason (`because`) are never put in
    question and not told. Empty where the programme has an answer.
    """
    bare = replace(
        programme, columns=tuple(replace(column, cost=0.0) for column in programme.columns)
    )
    if not _impossible(bare, programme.rows, solver):
        return ()
    kept = programme.rows
    for row in filter(lambda row: row.because, programme.rows):
        fewer = tuple(other for other in kept if other is not row)
        if _impossible(bare, fewer, solver):
            kept = fewer
    return tuple(row for row in kept if row.because)


def _impossible(programme: Programme, rows: tuple[Row, ...], solver: Solver) -> bool:
    outcome = solver.solve(replace(programme, rows=rows), Effort())
    return outcome.status is Status.INFEASIBLE
