"""Published linear programmes through both doors; each figure's source stands in its file.

The optimum, its tolerance, duals, ranges and the answers of the multi-objective file are those
the files carry under `optimum_sources`, `published_sensitivity`, `published` and `source`.
"""

from pathlib import Path
from typing import Any

import pytest

from benchmarks.linear import (
    DOORS,
    amount,
    one_first,
    programme_of,
    read,
    report,
    together,
    with_objective,
)
from halfpail.blending.explain import conflict
from halfpail.blending.ports import Effort, Solver
from halfpail.blending.programme import Ranges, Status
from halfpail.solvers.highs import Highs

FOLDER = Path(__file__).parents[2] / "benchmarks" / "data" / "lp"
PROBLEMS = {path.stem: read(path) for path in sorted(FOLDER.glob("*.json"))}
BOTH_DOORS = pytest.mark.parametrize("solver", DOORS, ids=lambda solver: solver.name)


def test_all_seven_files_are_here() -> None:
    assert len(PROBLEMS) == 7


@BOTH_DOORS
@pytest.mark.parametrize(
    "problem",
    [problem for problem in PROBLEMS.values() if problem.get("optimum") is not None],
    ids=lambda problem: problem["name"],
)
def test_the_stated_optimum_is_found(problem: dict[str, Any], solver: Solver) -> None:
    outcome = solver.solve(programme_of(problem))
    assert outcome.status is Status.OPTIMAL
    assert outcome.value == pytest.approx(problem["optimum"], abs=problem["optimum_tolerance"])
    assert outcome.bound == pytest.approx(problem["optimum"], abs=problem["optimum_tolerance"])


@BOTH_DOORS
def test_the_published_pounds_of_the_two_chemicals(solver: Solver) -> None:
    problem = PROBLEMS["two_chemical_fertilizer"]
    outcome = solver.solve(programme_of(problem))
    assert outcome.point == pytest.approx(tuple(problem["published_solution"].values()), abs=1e-6)


@BOTH_DOORS
def test_the_published_alloys(solver: Solver) -> None:
    """0.6 of the second and 0.4 of the fourth alloy (Dantzig 1963, chapter 3.4)."""
    outcome = solver.solve(programme_of(PROBLEMS["alloy_lead_zinc_tin"]))
    assert outcome.point == pytest.approx((0, 0.6, 0, 0.4, 0, 0, 0, 0, 0), abs=1e-7)


def test_the_published_prices_of_the_nutrients() -> None:
    """Five prices other than nought; HiGHS only, since SCIP's are not to be trusted."""
    problem = PROBLEMS["stigler_1939"]
    programme = programme_of(problem)
    outcome = Highs().solve(programme)
    stated = problem["reproduced"]["duals"]
    expected = [stated.get(row.name, 0.0) for row in programme.rows]
    assert outcome.row_prices == pytest.approx(expected, abs=1e-9)
    assert 365 * (outcome.value or 0) == pytest.approx(problem["optimum_per_year"], abs=5e-8)
    contents = sum(p * row.at_least for p, row in zip(expected, programme.rows, strict=True))
    assert contents == pytest.approx(problem["optimum"], abs=5e-8)  # prices have nine digits


def test_the_published_ranges() -> None:
    problem = PROBLEMS["weekly_dinners_bounded"]
    programme = programme_of(problem)
    outcome = Highs().solve(programme, Effort(ranges=True))
    ranges, published = outcome.ranges, problem["published_sensitivity"]
    assert isinstance(ranges, Ranges)
    column = {c.name: at for at, c in enumerate(programme.columns)}
    row = {r.name: at for at, r in enumerate(programme.rows)}
    found = {
        "objective_coefficient_upper": {"CHK": ranges.costs[column["CHK"]][1]},
        "objective_coefficient_lower": {"MTL": ranges.costs[column["MTL"]][0]},
        "upper_bound_range_low": {"MTL": outcome.point[column["MTL"]]},
        "upper_bound_range_high": {"CHK": ranges.columns[column["CHK"]][1]},
        "lower_bound_range_high": {"BEEF": ranges.columns[column["BEEF"]][1]},
        "lower_bound_range_low": {"MCH": ranges.columns[column["MCH"]][0]},
    }
    for kind, values in found.items():
        assert values == pytest.approx(published[kind], abs=1e-6), kind
    assert ranges.rows[row["CAL_min"]] == pytest.approx(published["min_row_CAL_rhs_range"])
    reduced = problem["highs_ranging"]["reduced_costs"]
    assert outcome.column_prices == pytest.approx(tuple(reduced.values()), abs=1e-8)


@BOTH_DOORS
def test_the_conflict_is_a_conflict_and_nothing_can_be_left_out(solver: Solver) -> None:
    programme = programme_of(PROBLEMS["macronutrient_diet_infeasible"])
    assert solver.solve(programme).status is Status.INFEASIBLE
    rows = conflict(programme, solver)
    assert [row.name for row in rows] == ["protein", "sodium", "dairy"]
    for left_out in rows:
        rest = type(programme)(
            columns=programme.columns, rows=tuple(row for row in rows if row is not left_out)
        )
        assert solver.solve(rest).status is Status.OPTIMAL


@BOTH_DOORS
def test_several_objectives_both_ways(solver: Solver) -> None:
    problem = PROBLEMS["weekly_dinners_multiobjective"]
    programme, objectives = programme_of(problem), problem["objectives"]
    published = problem["published"]
    second = objectives["cost_store_2"]
    rest = [costs for costs in objectives.values() if costs is not second]
    answers = {
        "equal_weight_sum": solver.solve(
            with_objective(programme, together(list(objectives.values())))
        ),
        "store_2_first_then_sum_of_the_rest": one_first(programme, second, rest, solver),
    }
    for mode, outcome in answers.items():
        amounts = {
            name: amount(outcome.point, programme, costs) for name, costs in objectives.items()
        }
        assert amounts == pytest.approx(published[mode], abs=1e-6)
    dinners = solver.solve(with_objective(programme, objectives["number_of_dinners"]))
    assert dinners.value == pytest.approx(published["number_of_dinners_alone"], abs=1e-7)
    alone = solver.solve(with_objective(programme, objectives["cost_store_1"]))
    assert alone.value == pytest.approx(published["store_1_alone"], abs=5e-6)


@pytest.mark.parametrize("problem", PROBLEMS.values(), ids=lambda problem: problem["name"])
def test_each_file_has_its_lines(problem: dict[str, Any]) -> None:
    lines = list(report(problem))
    assert all(any(door.name in line for line in lines) for door in DOORS)
    assert lines[0].startswith(problem["name"])
