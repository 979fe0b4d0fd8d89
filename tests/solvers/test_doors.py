"""Both doors on the same programmes: status, value, bound, cutoff, start, stop and silence."""

import random

import pytest

from halfpail.blending.ports import Effort, Solver
from halfpail.blending.programme import Column, Product, Programme, Row, Status
from halfpail.solvers.highs import Highs
from halfpail.solvers.scip import Scip

DOORS = pytest.mark.parametrize("solver", [Highs(), Scip()], ids=lambda solver: solver.name)

KNAPSACK = Programme(
    columns=tuple(
        Column(name=f"item {cost}", cost=cost, high=1, whole=True) for cost in (10, 13, 7, 8)
    ),
    rows=(Row(name="weight", terms=((0, 5), (1, 6), (2, 3), (3, 4)), at_most=10),),
    maximise=True,
    offset=100,
)


def market_split(seed: int, rows: int = 4, columns: int = 30) -> Programme:
    """Rows of random whole numbers to be hit exactly with yes/no columns: hard for both doors."""
    draw = random.Random(seed)
    yes_no = tuple(Column(name=f"x{i}", high=1, whole=True) for i in range(columns))
    misses = tuple(Column(name=f"miss{i}", cost=1) for i in range(2 * rows))
    return Programme(
        columns=yes_no + misses,
        rows=tuple(
            Row(
                name=f"row {row}",
                terms=(
                    *((i, draw.randrange(1, 100)) for i in range(columns)),
                    (columns + 2 * row, 1),
                    (columns + 2 * row + 1, -1),
                ),
                at_least=25 * columns,
                at_most=25 * columns,
            )
            for row in range(rows)
        ),
    )


@DOORS
def test_knapsack_is_solved_to_a_closed_gap(solver: Solver) -> None:
    outcome = solver.solve(KNAPSACK)
    assert outcome.status is Status.OPTIMAL
    assert outcome.value == pytest.approx(121)
    assert outcome.bound == pytest.approx(121)
    assert outcome.point == pytest.approx((0, 1, 0, 1))


@DOORS
def test_cutoff_leaves_only_better_values(solver: Solver) -> None:
    assert solver.solve(KNAPSACK, Effort(cutoff=120)).value == pytest.approx(121)
    assert solver.solve(KNAPSACK, Effort(cutoff=122)).status is Status.INFEASIBLE


@DOORS
def test_a_start_point_is_kept_when_there_is_no_effort_left(solver: Solver) -> None:
    programme = market_split(3)
    start = solver.solve(programme, Effort(nodes=300))
    again = solver.solve(programme, Effort(nodes=1, start=start.point))
    assert start.value is not None and again.value is not None
    assert again.value <= start.value + 1e-6


@DOORS
def test_the_same_question_has_the_same_answer(solver: Solver) -> None:
    effort = Effort(nodes=200)
    assert solver.solve(market_split(2), effort) == solver.solve(market_split(2), effort)


@DOORS
def test_news_is_told_and_a_stop_is_heard(solver: Solver) -> None:
    news: list[tuple[float | None, float | None]] = []
    outcome = solver.solve(
        market_split(2, rows=5, columns=40),
        Effort(
            on_progress=lambda value, bound: news.append((value, bound)),
            should_stop=lambda: len(news) > 20,
        ),
    )
    assert outcome.status is Status.FEASIBLE
    assert 20 < len(news) < 1000
    assert outcome.bound is not None and outcome.value is not None
    assert outcome.bound <= outcome.value


@DOORS
@pytest.mark.parametrize(("limit", "status"), [(1, Status.INFEASIBLE), (3, Status.OPTIMAL)])
def test_whole_columns_can_be_impossible(solver: Solver, limit: float, status: Status) -> None:
    programme = Programme(
        columns=(Column(name="a", whole=True), Column(name="b", whole=True)),
        rows=(
            Row(name="odd", terms=((0, 2), (1, 2)), at_least=2.5, at_most=limit + 1.5),
            Row(name="few", terms=((0, 1), (1, 1)), at_most=limit),
        ),
    )
    assert solver.solve(programme).status is status


@DOORS
def test_unbounded_is_told(solver: Solver) -> None:
    programme = Programme(
        columns=(Column(name="a", cost=-1),),
        rows=(Row(name="least", terms=((0, 1),), at_least=1),),
    )
    assert solver.solve(programme).status is Status.UNBOUNDED


@DOORS
def test_nothing_is_printed(solver: Solver, capfd: pytest.CaptureFixture[str]) -> None:
    solver.solve(KNAPSACK)
    solver.solve(market_split(1), Effort(nodes=5, should_stop=lambda: False))
    assert capfd.readouterr() == ("", "")


@DOORS
def test_random_programmes_agree_with_trying_everything(solver: Solver) -> None:
    draw = random.Random(11)
    for _ in range(20):
        costs = [draw.randrange(1, 30) for _ in range(4)]
        gains = [[draw.randrange(0, 9) for _ in range(4)] for _ in range(2)]
        needs = [draw.randrange(5, 25) for _ in range(2)]
        programme = Programme(
            columns=tuple(Column(name="", cost=cost, high=3, whole=True) for cost in costs),
            rows=tuple(
                Row(name="", terms=tuple(enumerate(gain)), at_least=need)
                for gain, need in zip(gains, needs, strict=True)
            ),
        )
        values = [
            sum(cost * count for cost, count in zip(costs, counts, strict=True))
            for counts in (tuple((code >> 2 * i) & 3 for i in range(4)) for code in range(256))
            if all(
                sum(g * c for g, c in zip(gain, counts, strict=True)) >= need
                for gain, need in zip(gains, needs, strict=True)
            )
        ]
        outcome = solver.solve(programme)
        if values:
            assert outcome.value == pytest.approx(min(values))
        else:
            assert outcome.status is Status.INFEASIBLE


def test_products_are_solved_to_the_proven_best() -> None:
    """Least x*y with x + y >= 4, x and y at most 3: at a corner, 3 times 1."""
    programme = Programme(
        columns=(
            Column(name="x", high=3),
            Column(name="y", high=3),
            Column(name="xy", high=9, cost=1),
        ),
        rows=(Row(name="sum", terms=((0, 1), (1, 1)), at_least=4),),
        products=(Product(equals=2, left=0, right=1),),
    )
    outcome = Scip().solve(programme)
    assert outcome.status is Status.OPTIMAL
    assert outcome.value == pytest.approx(3, abs=1e-6)
    assert outcome.bound == pytest.approx(3, abs=1e-6)
    with pytest.raises(ValueError, match="products"):
        Highs().solve(programme)
