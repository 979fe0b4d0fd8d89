"""The door to HiGHS: linear programmes with whole columns, row prices and ranges."""

from itertools import chain
from math import inf
from time import perf_counter
from typing import Any

import highspy
import numpy as np

from halfpail.blending.ports import Ability, Effort
from halfpail.blending.programme import Outcome, Programme, Ranges, Status

_STATUS = {
    highspy.HighsModelStatus.kOptimal: Status.OPTIMAL,
    highspy.HighsModelStatus.kModelEmpty: Status.OPTIMAL,
    highspy.HighsModelStatus.kInfeasible: Status.INFEASIBLE,
    highspy.HighsModelStatus.kObjectiveBound: Status.INFEASIBLE,
    highspy.HighsModelStatus.kUnbounded: Status.UNBOUNDED,
    highspy.HighsModelStatus.kUnboundedOrInfeasible: Status.UNKNOWN,
}
_FEASIBILITY_TOLERANCE = 1e-9


class _Engine(highspy.Highs):
    """HiGHS prints a banner while its callbacks are set up unless it is told to be quiet before."""

    def __init__(self) -> None:
        super().__init__()  # type: ignore[no-untyped-call]  # the binding has no types

    def enableCallbacks(self) -> None:
        self.setOptionValue("output_flag", False)
        super().enableCallbacks()  # type: ignore[no-untyped-call]  # the binding has no types


class Highs:
    """HiGHS, one thread, gap nought unless asked otherwise; the same question, the same answer."""

    name = "HiGHS"
    abilities = frozenset({Ability.WHOLE, Ability.PRICES})

    def solve(self, programme: Programme, effort: Effort = Effort()) -> Outcome:
        """The best point within the effort, its value and the proven bound.

        Raises:
            ValueError: the programme holds products of columns.
        """
        if programme.products:
            raise ValueError("HiGHS takes no products of columns")
        began = perf_counter()
        engine = _Engine()
        whole = any(column.whole for column in programme.columns)
        _tune(engine, programme, effort)
        engine.passModel(_model(programme))
        _listen(engine, programme, effort)
        if effort.start is not None and whole:
            _start(engine, effort.start)
        engine.run()
        if engine.getModelStatus() == highspy.HighsModelStatus.kUnboundedOrInfeasible:
            engine.setOptionValue("presolve", "off")
            engine.run()
        return _outcome(engine, programme, effort, perf_counter() - began)


def _tune(engine: highspy.Highs, programme: Programme, effort: Effort) -> None:
    """Quiet, repeatable, and within the effort."""
    options: dict[str, Any] = {
        "threads": 1,
        "random_seed": 0,
        "primal_feasibility_tolerance": _FEASIBILITY_TOLERANCE,
        "mip_feasibility_tolerance": _FEASIBILITY_TOLERANCE,
        "mip_rel_gap": effort.relative_gap,
        "mip_abs_gap": effort.absolute_gap,
    }
    if effort.nodes is not None:
        options["mip_max_nodes"] = effort.nodes
    if effort.seconds is not None:
        options["time_limit"] = effort.seconds
    if effort.cutoff is not None:
        sign = -1.0 if programme.maximise else 1.0
        options["objective_bound"] = sign * effort.cutoff
    for option, value in options.items():
        engine.setOptionValue(option, value)


def _model(programme: Programme) -> highspy.HighsLp:
    """The whole programme in one piece; always a minimisation, so that cutoffs mean one thing."""
    columns, rows = programme.columns, programme.rows
    sign = -1.0 if programme.maximise else 1.0
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(columns), len(rows)
    model.offset_ = sign * programme.offset
    model.col_cost_ = np.array([sign * column.cost for column in columns], dtype=float)
    model.col_lower_ = np.array([column.low for column in columns], dtype=float)
    model.col_upper_ = np.array([column.high for column in columns], dtype=float)
    model.row_lower_ = np.array([row.at_least for row in rows], dtype=float)
    model.row_upper_ = np.array([row.at_most for row in rows], dtype=float)
    if any(column.whole for column in columns):
        model.integrality_ = [
            highspy.HighsVarType.kInteger if column.whole else highspy.HighsVarType.kContinuous
            for column in columns
        ]
    terms = list(chain.from_iterable(row.terms for row in rows))
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    model.a_matrix_.start_ = np.cumsum([0, *(len(row.terms) for row in rows)], dtype=np.int32)
    model.a_matrix_.index_ = np.array([column for column, _ in terms], dtype=np.int32)
    model.a_matrix_.value_ = np.array([factor for _, factor in terms], dtype=float)
    return model


def _start(engine: highspy.Highs, point: tuple[float, ...]) -> None:
    solution = highspy.HighsSolution()
    solution.col_value = list(point)
    engine.setSolution(solution)


def _listen(engine: highspy.Highs, programme: Programme, effort: Effort) -> None:
    """Tell the caller of news, and let the caller stop the solve."""
    sign = -1.0 if programme.maximise else 1.0
    told, stop = effort.on_progress, effort.should_stop

    def at_pause(event: Any) -> None:
        if told is not None and event.callback_type in _PROGRESS:
            value, bound = event.data_out.mip_primal_bound, event.data_out.mip_dual_bound
            told(_finite(sign * value), _finite(sign * bound))
        if stop is not None and stop():
            event.interrupt()

    if told is not None:
        engine.cbMipImprovingSolution += at_pause
    if told is not None or stop is not None:
        engine.cbMipInterrupt += at_pause
    if stop is not None:
        engine.cbSimplexInterrupt += at_pause


_PROGRESS = (
    highspy.cb.HighsCallbackType.kCallbackMipImprovingSolution,
    highspy.cb.HighsCallbackType.kCallbackMipInterrupt,
)


def _finite(value: float) -> float | None:
    return value if abs(value) < 1e20 else None


def _outcome(
    engine: highspy.Highs, programme: Programme, effort: Effort, seconds: float
) -> Outcome:
    """What HiGHS found, in the programme's own sense."""
    sign = -1.0 if programme.maximise else 1.0
    info, model_status = engine.getInfo(), engine.getModelStatus()
    whole = any(column.whole for column in programme.columns)
    found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    status = _STATUS.get(model_status, Status.FEASIBLE if found else Status.UNKNOWN)
    if status is not Status.OPTIMAL and status is not Status.FEASIBLE:
        return Outcome(status=status, nodes=max(info.mip_node_count, 0), seconds=seconds)
    solution = engine.getSolution()
    value = sign * info.objective_function_value
    bound = sign * info.mip_dual_bound if whole else value
    prices = not whole and solution.dual_valid
    return Outcome(
        status=status,
        value=value,
        bound=_finite(bound) if whole or status is Status.OPTIMAL else None,
        point=tuple(solution.col_value),
        row_prices=tuple(sign * price for price in solution.row_dual) if prices else (),
        column_prices=tuple(sign * price for price in solution.col_dual) if prices else (),
        ranges=_ranges(engine, sign) if effort.ranges and prices else None,
        nodes=max(info.mip_node_count, 0),
        seconds=seconds,
    )


def _ranges(engine: highspy.Highs, sign: float) -> Ranges:
    """How far each cost, bound and limit can move before the answer changes its make-up."""
    ranging = engine.getRanging()[1]

    def pairs(low: Any, high: Any) -> tuple[tuple[float, float], ...]:
        return tuple(zip(map(_open, low.value_), map(_open, high.value_), strict=True))

    costs = pairs(ranging.col_cost_dn, ranging.col_cost_up)
    if sign < 0:
        costs = tuple((-high, -low) for low, high in costs)
    return Ranges(
        costs=costs,
        columns=pairs(ranging.col_bound_dn, ranging.col_bound_up),
        rows=pairs(ranging.row_bound_dn, ranging.row_bound_up),
    )


def _open(value: float) -> float:
    """HiGHS writes 1e30 or more where there is no end."""
    return value if abs(value) < 1e20 else (inf if value > 0 else -inf)
