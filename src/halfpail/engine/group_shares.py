"""Mixes of any shares for groups of beds, and the groups that go with them.

With the beds' parts held the mixes are a straight programme, with the mixes held the parts are:
both in turn until neither gets better.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from halfpail.blending.programme import Outcome, Programme
from halfpail.engine.chosen_mixes import ChosenMixes, chosen_mixes
from halfpail.engine.figures import Figures, Floats
from halfpail.engine.group_mixes import group_mixes
from halfpail.engine.groups import Groups
from halfpail.engine.recipes import Recipe
from halfpail.engine.search import stirred

_TURNS = 6
_BETTER = 1e-3
"""A turn that brings less than this share ends the turns."""
_PARTS = 10_000
"""Whole parts that stand for a mix of any shares."""
_TINY = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    """Kinds shared out: the groups, each kind's part of its mix, what it costs, scoops by group."""

    value: float
    groups: Groups
    part: Floats
    scoops: tuple[tuple[float, ...], ...]


class GroupShares:
    """Shares out the beds of one season; `solve` answers a programme."""

    def __init__(self, figures: Figures, solve: Callable[[Programme], Outcome]) -> None:
        self.figures, self.solve = figures, solve

    def come_to_rest(self, groups: Groups, amount: Floats) -> Shared | None:
        """Mixes and parts in turn until neither gets better."""
        part, best = parts_of(groups, amount), None
        for _ in range(_TURNS):
            model = group_mixes(self.figures, groups, part)
            outcome = self.solve(model.programme)
            if not outcome.point or outcome.value is None:
                return best
            if best is not None and outcome.value > best.value * (1 - _BETTER):
                return best
            bags = self.figures.bags
            scoops = tuple(model.scoops(outcome.point, bags, g) for g in range(len(groups)))
            best = Shared(value=outcome.value, groups=groups, part=part, scoops=scoops)
            shared = self._shared_by([_of_parts(row) for row in scoops])
            if shared is None:
                return best
            groups, part = shared
        return best

    def _shared_by(self, recipes: list[Recipe]) -> tuple[Groups, Floats] | None:
        """Who takes which of these mixes, where a kind takes only what it takes most of."""
        real, _ = stirred(recipes, None)
        if not real:
            return None
        model = chosen_mixes(self.figures, real, whole_measures=False)
        outcome = self.solve(in_parts(model.programme))
        return groups_of(model, outcome, self.figures.plots) if outcome.point else None


def groups_of(model: ChosenMixes, outcome: Outcome, beds: int) -> tuple[Groups, Floats]:
    """The beds that take most of the same mix, and each one's part of it."""
    taken = np.zeros((len(model.recipes), beds))
    for (recipe, kind), column in model.mixed.items():
        taken[recipe, kind] = outcome.point[column]
    owner = taken.argmax(axis=0)
    groups = tuple(
        tuple(int(kind) for kind in np.flatnonzero(owner == recipe))
        for recipe in range(len(model.recipes))
        if (owner == recipe).any()
    )
    return groups, parts_of(groups, taken.sum(axis=0))


def parts_of(groups: Groups, amount: Floats) -> Floats:
    """Each kind's part of its group's mix when the groups' kinds take these amounts."""
    part = np.zeros(len(amount))
    for kinds in groups:
        members = list(kinds)
        total = amount[members].sum()
        part[members] = amount[members] / total if total > _TINY else 1.0 / len(members)
    return part


def _of_parts(scoops: Sequence[float]) -> Recipe:
    """A mix of any shares as a recipe of very many scoops."""
    total = sum(scoops)
    return tuple(round(n / total * _PARTS) if total > _TINY else 0 for n in scoops)


def in_parts(programme: Programme) -> Programme:
    """The programme with nothing whole."""
    return replace(programme, columns=tuple(replace(c, whole=False) for c in programme.columns))
