"""Every recipe in whole scoops, tried in bulk: floating point sieves, exact numbers decide.

All demands, costs and distances are sums over scoops, so a block of bag sets times all scoop
counts is one matrix product. Sets of which no recipe could be allowed, or none could matter
beside what is found already, are ruled out before that. What is within a hair of staying is kept
for the exact look of the caller.
"""

from collections.abc import Iterator, Sequence
from math import comb

import numpy as np

from halfpail.blending.ports import Shortlist
from halfpail.blending.scoops import ScoopProblem
from halfpail.solvers.kept_recipes import Different, Found, Front, Keeper
from halfpail.solvers.scoop_figures import (
    Figures,
    Indices,
    Limits,
    Numbers,
    Window,
    figures_of,
)
from halfpail.solvers.sets_of_bags import bag_counts, could_keep, scoop_counts, sets_of_bags

_FIRST_SETS, _MOST_SETS = 2048, 32768
_BLOCK = 50_000
_FEW = 16
_MANY = 200_000


class EveryRecipe:
    """Tries every recipe there is; the work grows with their number, and with how many matter."""

    def most_recipes(self, problem: ScoopProblem) -> int:
        """How many recipes there are to try, in lowest terms or not."""
        bags, scoops = len(problem.bags), problem.most_scoops
        return sum(comb(bags, k) * comb(scoops, k) for k in bag_counts(problem))

    def sift(self, problem: ScoopProblem, different: int, *, by_cost: bool = True) -> Shortlist:
        """Every undominated recipe, and the best of `different` truly different sets of bags.

        The sets are chosen by cost, or by distance.
        """
        figures = figures_of(problem)
        front = Front(figures)
        best = Different(figures, different, by_cost=by_cost)
        _try_all(problem, figures, (front, best))
        recipes = [*front.recipes(), *(chosen := best.chosen(problem))]
        while again := best.once_more(chosen):
            best = again
            _try_all(problem, figures, (best,))
            recipes += (chosen := best.chosen(problem))
        return Shortlist(recipes=tuple(dict.fromkeys(recipes)), tried=_in_lowest_terms(problem))


def _in_lowest_terms(problem: ScoopProblem) -> int:
    """How many recipes there are, those of sets that are ruled out at once among them."""
    bags, most = len(problem.bags), problem.most_scoops
    return sum(comb(bags, size) * len(scoop_counts(size, most)) for size in bag_counts(problem))


def _try_all(problem: ScoopProblem, figures: Figures, keepers: Sequence[Keeper]) -> None:
    """Show the keepers every recipe that one of them could want, sets of few bags first."""
    for size in bag_counts(problem):
        counts = scoop_counts(size, problem.most_scoops)
        for first, many in _parts(comb(len(problem.bags), size)):
            sets = sets_of_bags(problem, figures, size, first, many)
            sets = sets[:, could_keep(figures.bounds, sets, problem.most_scoops)]
            for window in _windows(keepers):
                for found in _found(problem, figures, sets, counts, window):
                    for keeper in keepers:
                        keeper.take(found)
            for keeper in keepers:
                keeper.settle()


def _parts(sets: int) -> Iterator[tuple[int, int]]:
    """First and how many: few sets to begin with, since these make fewer of the others matter."""
    first, many = 0, _FIRST_SETS
    while first < sets:
        yield first, many
        first, many = first + many, min(2 * many, _MOST_SETS)


def _windows(keepers: Sequence[Keeper]) -> list[Window]:
    """Where the recipes are that some keeper could want."""
    windows = dict.fromkeys(window for keeper in keepers for window in keeper.windows())
    return [Window()] if Window() in windows else list(windows)


def _found(
    problem: ScoopProblem, figures: Figures, sets: Indices, counts: Numbers, window: Window
) -> Iterator[Found]:
    """The allowed recipes of these sets in a window, not too many at once."""
    within = figures.within(window)
    beside = figures.bounds_beside(within)
    both = Limits(
        rows=np.vstack((beside.rows, within.rows)),
        slack=np.concatenate((beside.slack, within.slack)),
    )
    sets = sets[:, could_keep(both, sets, problem.most_scoops, known=len(beside))]
    for live in _that_keep(within, figures.demands, sets, counts):
        decided = _decided(problem, figures, sets, counts, live)
        if len(decided):
            yield _measured(figures, sets, counts, decided)


def _that_keep(
    within: Limits, demands: Limits, sets: Indices, counts: Numbers
) -> Iterator[Indices]:
    """Numbers of the recipes that keep to all limits, or are on the edge of a demand."""
    limits = [
        (row, slack)
        for one in (within, demands)
        for row, slack in zip(one.rows, one.slack.tolist(), strict=True)
    ]
    step = max(1, _BLOCK // len(counts))
    blocks: list[Indices] = []
    many = 0
    for begin in range(0, sets.shape[1], step):
        blocks.append(_of_block(limits, sets[:, begin : begin + step], counts))
        blocks[-1] += begin * len(counts)
        many += len(blocks[-1])
        if many > _MANY:
            yield np.concatenate(blocks)
            blocks, many = [], 0
    if many:
        yield np.concatenate(blocks)


def _of_block(limits: Sequence[tuple[Numbers, float]], sets: Indices, counts: Numbers) -> Indices:
    """All of a block at once while many are alive, then only these."""
    alive = np.ones((sets.shape[1], len(counts)), dtype=bool)
    done = 0
    for row, slack in limits:
        if _FEW * np.count_nonzero(alive) < alive.size:
            break
        sums = row.take(sets).T @ counts.T
        alive &= sums <= slack
        done += 1
    live = np.flatnonzero(alive)
    for row, slack in limits[done:]:
        live = live[_sums(row, sets, counts, live) <= slack]
    return live


def _sums(per_scoop: Numbers, sets: Indices, counts: Numbers, live: Indices) -> Numbers:
    """Sums over the scoops of some recipes."""
    set_number, count_number = np.divmod(live, len(counts))
    sums: Numbers = (per_scoop.take(sets[:, set_number]) * counts[count_number].T).sum(axis=0)
    return sums


def _decided(
    problem: ScoopProblem, figures: Figures, sets: Indices, counts: Numbers, live: Indices
) -> Indices:
    """The recipes without those on the edge of a demand that fail it by exact numbers."""
    edge = np.zeros(len(live), dtype=bool)
    for row, slack in zip(figures.demands.rows, figures.demands.slack.tolist(), strict=True):
        if slack:
            edge |= _sums(row, sets, counts, live) > -slack
    if not edge.any():
        return live
    at_edge = _measured(figures, sets, counts, live[edge])
    rows = at_edge.scoops(np.arange(len(at_edge.cost))).tolist()
    fails = [not problem.allows(tuple(row)) for row in rows]
    return np.delete(live, np.flatnonzero(edge)[fails])


def _measured(figures: Figures, sets: Indices, counts: Numbers, live: Indices) -> Found:
    def sums(row: Numbers) -> Numbers:
        return _sums(row, sets, counts, live)

    off = [np.abs(sums(miss)) for miss in figures.misses]
    return Found(
        sets=sets,
        counts=counts,
        set_number=live // len(counts),
        count_number=live % len(counts),
        cost=sums(figures.cost) / sums(figures.cost_per),
        distance=np.maximum.reduce(off, initial=0) / sums(figures.miss_per),
        bags=len(figures.cost),
    )
