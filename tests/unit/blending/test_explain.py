"""The rows in the way: all of them needed, none of the rest, and only those with a reason."""

from math import inf

import pytest

from halfpail.blending.explain import conflict
from halfpail.blending.programme import Column, Programme, Row
from halfpail.solvers.highs import Highs


def row(name: str, low: float, high: float, *factors: float, because: str = "so") -> Row:
    return Row(
        name=name, terms=tuple(enumerate(factors)), at_least=low, at_most=high, because=because
    )


COLUMNS = (Column(name="x", high=10, whole=True), Column(name="y", high=10, whole=True))


def test_only_the_clashing_rows_are_told() -> None:
    programme = Programme(
        columns=COLUMNS,
        rows=(
            row("idle", -inf, 15, 1, 1),
            row("x least", 6, inf, 1, 0),
            row("y least", 6, inf, 0, 1),
            row("few", -inf, 10, 1, 1),
        ),
    )
    assert [one.name for one in conflict(programme, Highs())] == ["x least", "y least", "few"]


def test_whole_columns_can_clash_by_themselves() -> None:
    programme = Programme(columns=COLUMNS, rows=(row("odd", 3, 3, 2, 2), row("any", 0, 9, 1, 1)))
    assert [one.name for one in conflict(programme, Highs())] == ["odd"]


def test_rows_without_a_reason_stay_and_are_not_told() -> None:
    programme = Programme(
        columns=COLUMNS,
        rows=(row("law", -inf, 5, 1, 1, because=""), row("wish", 6, inf, 1, 1)),
    )
    assert [one.name for one in conflict(programme, Highs())] == ["wish"]


@pytest.mark.parametrize("least", [0, 10])
def test_no_conflict_where_there_is_an_answer(least: float) -> None:
    programme = Programme(columns=COLUMNS, rows=(row("x", least, inf, 1, 0),))
    assert conflict(programme, Highs()) == ()
