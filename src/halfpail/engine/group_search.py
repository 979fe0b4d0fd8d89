"""Good plans for many beds or many bags: share the beds out, then find each group's mix.

All is done on the kinds of beds, of which there are few. First mixes of any shares: with the
beds' parts held the mixes are a straight programme, with the mixes held the parts are. The likely
ways to share the beds out are then worked out in whole scoops and whole rounds, and
what is best is planned bed by bed. That it is the best is for others to prove.
"""

from collections.abc import Callable, Iterator, Sequence
from heapq import heappop, heappush
from itertools import count
from math import ceil, inf

import numpy as np

from halfpail.blending.ports import Effort, Solver
from halfpail.blending.programme import Outcome, Programme
from halfpail.engine.bed_costs import capped_costs
from halfpail.engine.bed_tables import exact_costs
from halfpail.engine.chosen_mixes import ChosenMixes, chosen_mixes
from halfpail.engine.figures import Figures, Floats
from halfpail.engine.group_mixes import group_mixes
from halfpail.engine.group_shares import GroupShares, Shared, groups_of, in_parts
from halfpail.engine.groups import Groups, likely_groups
from halfpail.engine.kinds import Kinds
from halfpail.engine.near_recipes import near_recipes
from halfpail.engine.own_mixes import own_mixes, wishes
from halfpail.engine.pace import Pace
from halfpail.engine.portion_plan import PortionPlan
from halfpail.engine.recipes import Mixes, Recipe, lowest_terms, mixes_of
from halfpail.engine.search import Search, stirred

_STARTS = 4
_MORE_ROUNDS = (0, 1, 3)
_NODES, _GAP = 200, 0.01
_FEW_NODES = 60
_NEARLY, _LIKELY, _STEPS = 1.03, 400, 120
_TINY = 1e-9


class GroupSearch(Search):
    """Makes plans; has no bound of its own, and ends when `bound` says that no better is asked."""

    def __init__(
        self, figures: Figures, kinds: Kinds, solver: Solver, pace: Pace, bound: float
    ) -> None:
        super().__init__(figures, solver, pace)
        self.kinds, self.bound = kinds, bound
        self.weighed: set[frozenset[Recipe]] = set()
        self.least = inf
        self.open: list[tuple[float, int, Iterator[list[Recipe]]]] = []
        self.order = count()

    def run(self) -> None:
        """Start from what the kinds would have their own mixes made of, and step on from there."""
        mixes = self.figures.problem.mixes
        own = own_mixes(self.kinds.figures)
        outcome = self._solve(own.programme, nodes=_FEW_NODES)
        if not outcome.point:
            return
        wished, amount = wishes(own, self.kinds.figures, outcome.point)
        shares = GroupShares(self.kinds.figures, self._solve)
        found: dict[Groups, Shared] = {}
        for groups in likely_groups(wished, amount, mixes):
            if self._over():
                return
            shared = shares.come_to_rest(groups, amount)
            if shared is not None:
                found.setdefault(shared.groups, shared)
        for shared in sorted(found.values(), key=lambda s: s.value)[:_STARTS]:
            self._in_scoops(shared)
        while self.open and not self._over():
            recipes = next(self.open[0][2], None)
            if recipes is None:
                heappop(self.open)
            else:
                self._weigh(recipes)

    def _over(self) -> bool:
        return self.cutoff <= self.bound or self.pace.over()

    # -- whole scoops ---------------------------------------------------------------------------

    def _in_scoops(self, shared: Shared) -> None:
        most = self.figures.problem.most_scoops
        fewest = [max(1, ceil(sum(row) / most)) for row in shared.scoops]
        for more in _MORE_ROUNDS:
            if self._over():
                return
            self._try(shared.groups, shared.part, [n + more for n in fewest])

    def _try(self, groups: Groups, part: Floats, rounds: Sequence[int]) -> None:
        recipes = self._recipes(groups, part, rounds)
        if recipes is not None:
            self._weigh(recipes)

    def _recipes(self, groups: Groups, part: Floats, rounds: Sequence[int]) -> list[Recipe] | None:
        """The best recipes for these groups and rounds."""
        model = group_mixes(self.kinds.figures, groups, part, rounds)
        outcome = self._solve(model.programme, nodes=_FEW_NODES, cutoff=self.value)
        if not outcome.point:
            return None
        bags = self.figures.bags
        recipes = [model.scoops(outcome.point, bags, g) for g in range(len(groups))]
        return [lowest_terms(tuple(round(n) for n in row)) for row in recipes]

    def _weigh(self, recipes: Sequence[Recipe]) -> None:
        """What these recipes cost on the kinds; what could win is planned on the beds."""
        real = list(dict.fromkeys(stirred(recipes, None)[0]))
        if not real or frozenset(real) in self.weighed:
            return
        self.weighed.add(frozenset(real))
        model = chosen_mixes(self.kinds.figures, real, whole_measures=False, whole_rounds=True)
        outcome = self._solve(model.programme, cutoff=self.value)
        if outcome.point and outcome.value is not None and outcome.value < self.value:
            self._plan_beds(model, outcome)

    def _plan_beds(self, model: ChosenMixes, outcome: Outcome) -> None:
        """The same on the beds; what is nearly the best is open to steps from it."""
        basket = [float(round(outcome.point[column])) for column in model.bought]
        beds = PortionPlan(self.figures, self.solver, self.pace, model.recipes)
        if beds.too_many or self.figures.problem.mixes_per_plot > 1:
            owners = self._owners(model, outcome)
            self.plan(model.recipes, assigned=owners, basket=basket)
            self.plan(model.recipes, assigned=owners, nodes=_NODES)
        elif (worth := self._worth(model.recipes, basket)) is not None:
            cost, effort = min(self.least, self.value), self._effort(_FEW_NODES, self.value)
            found = beds.look(worth, cost, basket, effort)
            if found < min(self.value, self.least * _NEARLY):
                if self.offer(beds.plan(effort, basket)):
                    self.offer(beds.plan(self._effort(_NODES, self.value)))
                steps = self._steps(model, outcome, beds.worth)
                heappush(self.open, (found, next(self.order), steps))
            self.least = min(self.least, found)
        if self.best is not None:
            self.pace.tell(self.value, None)

    def _worth(self, recipes: Sequence[Recipe], basket: Sequence[float]) -> Floats | None:
        """Prices of the bags [money per kg] with these mixes and this basket."""
        held = (basket, basket)
        model = chosen_mixes(self.kinds.figures, recipes, whole_measures=False, basket=held)
        outcome = self._solve(in_parts(model.programme))
        if not outcome.row_prices:
            return None
        worth: Floats = np.maximum(0.0, -np.array([outcome.row_prices[r] for r in model.supply]))
        return worth

    def _owners(self, model: ChosenMixes, outcome: Outcome) -> list[int]:
        """The mix of each bed: large beds first, each what its kind has most left of."""
        owners = [-1] * self.figures.plots
        for kind, (members, sizes) in enumerate(
            zip(self.kinds.members, self.kinds.sizes, strict=True)
        ):
            left = {
                recipe: outcome.point[column]
                for (recipe, k), column in model.mixed.items()
                if k == kind and outcome.point[column] > _TINY
            }
            each = sum(left.values()) / sum(sizes)
            for size, bed in sorted(zip(sizes, members, strict=True), reverse=True):
                if left:
                    owners[bed] = max(left, key=lambda recipe: (left[recipe], -recipe))
                    left[owners[bed]] -= each * size
        return owners

    # -- better ---------------------------------------------------------------------------------

    def _steps(self, model: ChosenMixes, outcome: Outcome, worth: Floats) -> Iterator[list[Recipe]]:
        """A scoop moved in one recipe, the likeliest first; then a round more or less of one."""
        yield from self._likely_steps(model.recipes, worth)
        groups, part = groups_of(model, outcome, self.kinds.figures.plots)
        rounds = [max(1, round(outcome.point[column])) for column in model.rounds][: len(groups)]
        for place in range(len(groups)):
            for more in (1, -1):
                moved = [max(1, n + more * (g == place)) for g, n in enumerate(rounds)]
                recipes = self._recipes(groups, part, moved)
                if recipes is not None:
                    yield recipes

    def _likely_steps(self, given: Sequence[Recipe], worth: Floats) -> list[list[Recipe]]:
        """The recipes with one of them changed by a step, the likeliest at these prices first."""
        f, recipes = self.figures, list(given)
        bags = [int(bag) for bag in np.flatnonzero(f.may_mix)]
        while len(recipes) < f.problem.mixes:
            recipes.append((0,) * f.bags)
        steps = [
            (number, step)
            for number, recipe in enumerate(recipes)
            for step in near_recipes(f.problem, recipe, bags)
        ]
        for costs, kept in ((capped_costs, _LIKELY), (exact_costs, _STEPS)):
            told = self._told(recipes, steps, worth, costs)
            steps = [steps[n] for n in np.argsort(told, kind="stable")[:kept]]
        return [[*recipes[:n], step, *recipes[n + 1 :]] for n, step in steps]

    def _told(
        self,
        recipes: Sequence[Recipe],
        steps: Sequence[tuple[int, Recipe]],
        worth: Floats,
        costs: Callable[[Figures, Mixes, Floats], Floats],
    ) -> Floats:
        """What the beds cost at these prices after each step."""
        rows = np.array([*recipes, *(step for _, step in steps)], dtype=np.int64)
        table = costs(self.figures, mixes_of(self.figures, rows), worth)
        now, after = table[: len(recipes)], table[len(recipes) :]
        others = [np.delete(now, n, axis=0).min(axis=0, initial=inf) for n in range(len(now))]
        told = [np.minimum(row, others[n]).sum() for (n, _), row in zip(steps, after, strict=True)]
        return np.array(told)

    def _solve(self, programme: Programme, *, nodes: int = _NODES, cutoff: float = inf) -> Outcome:
        outcome = self.solver.solve(programme, self._effort(nodes, cutoff))
        self.pace.spend(1.0 + len(programme.columns) * (0.02 + 0.01 * outcome.nodes))
        return outcome

    def _effort(self, nodes: int, cutoff: float) -> Effort:
        return Effort(
            nodes=nodes,
            relative_gap=_GAP,
            cutoff=cutoff if cutoff < inf else None,
            seconds=self.pace.seconds_left,
            should_stop=self.pace.effort.should_stop,
        )
