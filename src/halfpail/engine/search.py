"""What every search of the engine has in common: the best plan so far, and when to stop."""

from collections.abc import Sequence
from math import inf

from halfpail.blending.ports import Effort, Solver
from halfpail.blending.programme import Status
from halfpail.engine.chosen_mixes import best_of
from halfpail.engine.draft import Settled
from halfpail.engine.figures import Figures
from halfpail.engine.pace import Pace
from halfpail.engine.recipes import Recipe

ROUNDED = 1e-6
"""Values closer than this share count as one."""

_NODES = 2000


class Search:
    """The best plan so far; a search below it adds a bound that holds for every plan."""

    def __init__(self, figures: Figures, solver: Solver, pace: Pace) -> None:
        self.figures, self.solver, self.pace = figures, solver, pace
        self.best: Settled | None = None
        self.value = inf
        self.floor = inf

    @property
    def cutoff(self) -> float:
        """What is at or above this need not be looked at."""
        if self.value == inf:
            return inf
        effort = self.pace.effort
        room = max(effort.relative_gap * self.value, effort.absolute_gap)
        return self.value - max(room, ROUNDED * max(1.0, self.value))

    def offer(self, plan: Settled | None) -> bool:
        """Keep a plan if it is the best so far."""
        if plan is None or plan.broken or float(plan.value) >= self.value:
            return False
        self.best, self.value = plan, float(plan.value)
        return True

    def settle_for(self, bound: float) -> None:
        """Part of the search ends with this bound."""
        self.floor = min(self.floor, bound)

    def plan(
        self,
        recipes: Sequence[Recipe],
        *,
        assigned: Sequence[int] | None = None,
        basket: Sequence[float] | None = None,
        nodes: int = _NODES,
    ) -> float:
        """Plan with these recipes and offer it; answers a bound on every such plan."""
        real, where = stirred(recipes, assigned)
        effort = Effort(
            nodes=nodes,
            cutoff=None if self.value == inf else self.value,
            seconds=self.pace.seconds_left,
            should_stop=self.pace.effort.should_stop,
        )
        held = None if basket is None else (basket, basket)
        plan, outcome = best_of(
            self.figures, self.solver, real, effort, basket=held, assigned=where
        )
        self.pace.spend(15.0 + 2.0 * outcome.nodes)
        self.offer(plan)
        if outcome.status is Status.INFEASIBLE:
            return inf
        return -inf if outcome.bound is None else outcome.bound


def stirred(
    recipes: Sequence[Recipe], assigned: Sequence[int] | None
) -> tuple[list[Recipe], list[int] | None]:
    """The recipes less "no mix at all", whose beds are assigned to number -1."""
    numbers = [n for n, recipe in enumerate(recipes) if any(recipe)]
    places = {n: place for place, n in enumerate(numbers)}
    where = None if assigned is None else [places.get(n, -1) for n in assigned]
    return [recipes[n] for n in numbers], where
