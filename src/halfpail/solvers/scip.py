"""The door to SCIP: whole columns and products of columns."""

from math import inf
from time import perf_counter
from typing import Any

from pyscipopt.scip import PY_SCIP_EVENTTYPE, Eventhdlr, Expr, ExprCons, Model, Term

from halfpail.blending.ports import Ability, Effort
from halfpail.blending.programme import Outcome, Programme, Status

_STATUS = {
    "optimal": Status.OPTIMAL,
    "infeasible": Status.INFEASIBLE,
    "unbounded": Status.UNBOUNDED,
}
_NEWS = (
    PY_SCIP_EVENTTYPE.BESTSOLFOUND,
    PY_SCIP_EVENTTYPE.DUALBOUNDIMPROVED,
    PY_SCIP_EVENTTYPE.NODESOLVED,
    PY_SCIP_EVENTTYPE.LPSOLVED,
)
# Tighter, and its linear solver complains on the error stream that it has no exact arithmetic.
_FEASIBILITY_TOLERANCE = 1e-7


class Scip:
    """SCIP, one thread; products of columns are solved to the proven best, not linearised."""

    name = "SCIP"
    abilities = frozenset({Ability.WHOLE, Ability.PRODUCTS})

    def solve(self, programme: Programme, effort: Effort = Effort()) -> Outcome:
        """The best point within the effort, its value and the proven bound."""
        began = perf_counter()
        sign = -1.0 if programme.maximise else 1.0
        model, columns = _model(programme, sign)
        _tune(model, effort, sign)
        listener = _Listener(effort, sign)
        if listener.needed:
            model.includeEventhdlr(listener, "listener", "tells of news and listens for a stop")
        if effort.start is not None:
            _start(model, columns, effort.start)
        model.optimize()
        return _outcome(model, columns, sign, perf_counter() - began)


def _model(programme: Programme, sign: float) -> tuple[Model, list[Any]]:
    """The programme, always as a minimisation, so that cutoffs mean one thing."""
    model = Model()
    model.hideOutput()
    columns = [
        model.addVar(
            vtype="I" if column.whole else "C",
            lb=None if column.low == -inf else column.low,
            ub=None if column.high == inf else column.high,
            obj=sign * column.cost,
        )
        for column in programme.columns
    ]
    terms = [Term(column) for column in columns]
    for row in programme.rows:
        expression = Expr({terms[column]: factor for column, factor in row.terms})
        lhs = None if row.at_least == -inf else row.at_least
        rhs = None if row.at_most == inf else row.at_most
        if lhs is not None or rhs is not None:
            model.addCons(ExprCons(expression, lhs, rhs))
    for product in programme.products:
        left, right = columns[product.left], columns[product.right]
        model.addCons(columns[product.equals] == left * right)
    model.addObjoffset(sign * programme.offset)
    return model, columns


def _tune(model: Model, effort: Effort, sign: float) -> None:
    """Quiet, repeatable, and within the effort."""
    model.setParams(
        {
            "numerics/feastol": _FEASIBILITY_TOLERANCE,
            "limits/gap": effort.relative_gap,
            "limits/absgap": effort.absolute_gap,
            "misc/catchctrlc": False,
            "timing/clocktype": 2,
        }
    )
    if effort.nodes is not None:
        model.setParam("limits/nodes", effort.nodes)
    if effort.seconds is not None:
        model.setParam("limits/time", effort.seconds)
    if effort.cutoff is not None:
        model.setObjlimit(sign * effort.cutoff)


def _start(model: Model, columns: list[Any], point: tuple[float, ...]) -> None:
    solution = model.createSol()
    for column, value in zip(columns, point, strict=True):
        model.setSolVal(solution, column, value)
    model.addSol(solution, free=True)


class _Listener(Eventhdlr):
    """Tells the caller of news, and lets the caller stop the solve."""

    def __init__(self, effort: Effort, sign: float) -> None:
        self.told, self.stop, self.sign = effort.on_progress, effort.should_stop, sign

    @property
    def needed(self) -> bool:
        return self.told is not None or self.stop is not None

    def eventinit(self) -> None:
        for event in _NEWS:
            self.model.catchEvent(event, self)

    def eventexit(self) -> None:
        for event in _NEWS:
            self.model.dropEvent(event, self)

    def eventexec(self, event: Any) -> None:
        if self.told is not None:
            value, bound = self.model.getPrimalbound(), self.model.getDualbound()
            self.told(_finite(self.sign * value), _finite(self.sign * bound))
        if self.stop is not None and self.stop():
            self.model.interruptSolve()


def _finite(value: float) -> float | None:
    return value if abs(value) < 1e20 else None


def _outcome(model: Model, columns: list[Any], sign: float, seconds: float) -> Outcome:
    """What SCIP found, in the programme's own sense."""
    found = model.getNSols() > 0
    status = _STATUS.get(model.getStatus(), Status.FEASIBLE if found else Status.UNKNOWN)
    nodes = int(model.getNTotalNodes())
    if status in (Status.INFEASIBLE, Status.UNBOUNDED):
        return Outcome(status=status, nodes=nodes, seconds=seconds)
    bound = _finite(sign * model.getDualbound())
    if not found:
        return Outcome(status=status, bound=bound, nodes=nodes, seconds=seconds)
    best = model.getBestSol()
    return Outcome(
        status=status,
        value=sign * model.getSolObjVal(best),
        bound=bound,
        point=tuple(model.getSolVal(best, column) for column in columns),
        nodes=nodes,
        seconds=seconds,
    )
