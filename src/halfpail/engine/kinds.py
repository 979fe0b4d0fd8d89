"""Beds of one kind: the same ranges but for their size. Together they are like one large bed.

What the beds of a kind can do, one bed of all their area can do no worse with several mixes, so
a bound for the large beds holds for the small ones; and a garden of a hundred beds with eight
kinds among them is soon worked out.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from halfpail.domain.season import Limit, Plot, SeasonProblem
from halfpail.engine.figures import Figures, figures_of

_Shape = tuple[bool, tuple[tuple[object, ...], ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Kinds:
    """A season with one large bed for each kind, which may get every mix.

    `members` are the beds of each kind by number, `sizes` how large each of them is beside the
    others of its kind.
    """

    figures: Figures
    members: tuple[tuple[int, ...], ...]
    sizes: tuple[tuple[float, ...], ...]


def kinds_of(problem: SeasonProblem) -> Kinds:
    """Put the beds of one kind together, in the order in which the kinds first come."""
    limits: dict[str, list[Limit]] = {plot.key: [] for plot in problem.plots}
    for limit in problem.limits:
        limits[limit.plot].append(limit)
    found: dict[_Shape, list[tuple[int, Fraction]]] = {}
    for number, plot in enumerate(problem.plots):
        size = _size(limits[plot.key])
        shape = plot.straight_ok, tuple(sorted(_shapes(limits[plot.key], size), key=repr))
        found.setdefault(shape, []).append((number, size))
    plots: list[Plot] = []
    larger: list[Limit] = []
    for members in found.values():
        first, size = members[0]
        plot = problem.plots[first]
        plots.append(plot)
        larger += _larger(plot, limits[plot.key], sum(s for _, s in members) / size)
    return Kinds(
        figures=figures_of(
            replace(
                problem,
                plots=tuple(plots),
                limits=tuple(larger),
                mixes_per_plot=problem.mixes,
            )
        ),
        members=tuple(tuple(n for n, _ in members) for members in found.values()),
        sizes=tuple(tuple(float(size) for _, size in members) for members in found.values()),
    )


def _size(limits: Sequence[Limit]) -> Fraction:
    """A bed's size: the first of its limits that is not nought [kg]."""
    bounds = (bound for limit in limits for bound in (limit.at_least, limit.at_most))
    return next((bound for bound in bounds if bound), Fraction(1))


def _shapes(limits: Sequence[Limit], size: Fraction) -> Iterator[tuple[object, ...]]:
    for limit in limits:
        least = None if limit.at_least is None else limit.at_least / size
        most = None if limit.at_most is None else limit.at_most / size
        yield limit.content.value, least, most, limit.price_per_kg


def _larger(plot: Plot, limits: Sequence[Limit], times: Fraction) -> Iterator[Limit]:
    for limit in limits:
        yield replace(
            limit,
            plot=plot.key,
            at_least=None if limit.at_least is None else limit.at_least * times,
            at_most=None if limit.at_most is None else limit.at_most * times,
        )
