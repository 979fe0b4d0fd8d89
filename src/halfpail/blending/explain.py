"""Why a programme has no answer: the fewest rows that cannot hold together."""

from dataclasses import replace

from halfpail.blending.ports import Effort, Solver
from halfpail.blending.programme import Programme, Row, Status

Rows = tuple[Row, ...]


def conflict(programme: Programme, solver: Solver) -> Rows:
    """Rows that cannot all hold, though any one of them left out would let the others hold.

    Half of the rows are tried at a time, so that among many rows the few in the way are found in
    few solves (the divide-and-conquer of Junker 2004, AAAI 167-172, from memory). What remains is
    irreducible. Ranges of columns and rows that give no reason (`because`) are never put in
    question and not told. Empty where the programme has an answer.
    """
    bare = replace(
        programme, columns=tuple(replace(column, cost=0.0) for column in programme.columns)
    )
    if not _impossible(bare, programme.rows, solver):
        return ()
    given = tuple(row for row in programme.rows if not row.because)
    asked = tuple(row for row in programme.rows if row.because)
    if _impossible(bare, given, solver):
        return ()
    # Last first: where there are several conflicts, the one of the later rows is told.
    found = _needed(bare, given, asked[::-1], solver)
    return tuple(row for row in asked if any(row is one for one in found))


def _needed(programme: Programme, held: Rows, asked: Rows, solver: Solver) -> Rows:
    """The rows of `asked` needed to make `held`, possible by itself, impossible."""
    if len(asked) == 1:
        return asked
    first, second = asked[: len(asked) // 2], asked[len(asked) // 2 :]
    if _impossible(programme, (*held, *first), solver):
        return _needed(programme, held, first, solver)
    of_second = _needed(programme, (*held, *first), second, solver)
    if _impossible(programme, (*held, *of_second), solver):
        return of_second
    return (*_needed(programme, (*held, *of_second), first, solver), *of_second)


def _impossible(programme: Programme, rows: Rows, solver: Solver) -> bool:
    outcome = solver.solve(replace(programme, rows=rows), Effort())
    return outcome.status is Status.INFEASIBLE
