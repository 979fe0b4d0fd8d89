"""The search over baskets and the plans that others find for it."""

import pytest

from benchmarks.gardens import Garden, problem_of
from halfpail.application.ports import SeasonEffort
from halfpail.engine import baskets
from halfpail.engine.baskets import BasketSearch
from halfpail.engine.draft import Settled
from halfpail.engine.figures import figures_of
from halfpail.engine.group_search import GroupSearch
from halfpail.engine.kinds import kinds_of
from halfpail.engine.pace import Pace
from halfpail.solvers.highs import Highs


@pytest.mark.parametrize("found", [True, False])
def test_another_search_is_asked_once_and_its_plan_is_kept(
    monkeypatch: pytest.MonkeyPatch, *, found: bool
) -> None:
    monkeypatch.setattr(baskets, "_LONG", 0.0)
    monkeypatch.setattr(baskets, "_WIDE", 0.0)
    problem = problem_of(Garden(bags=8, beds=6, mixes=2, seed=3, hard=True))
    figures, effort = figures_of(problem), SeasonEffort(relative_gap=0.02)
    groups = GroupSearch(figures, kinds_of(problem), Highs(), Pace(effort, 1500.0), 0.0)
    groups.run()
    assert groups.best is not None
    assert not groups.best.broken
    asked: list[Settled | None] = []

    def other() -> Settled | None:
        asked.append(groups.best if found else None)
        return asked[-1]

    search = BasketSearch(figures, Highs(), Pace(effort, 500.0))
    search.run(None, other)
    assert len(asked) == 1
    if found:
        assert search.value <= groups.value
    assert search.bound <= groups.value + 1e-6
