"""What one bed may get, whole measures all: a mix or none, and straight bags beside it.

What a portion misses does not hang on prices, so it is counted once; at any prices the cheapest
portions are then read off.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf, prod

import numpy as np

from halfpail.engine.bed_tables import BedTable, Group, line_cost, most_measures
from halfpail.engine.figures import Figures, Floats, Side, Wholes

MOST_CELLS = 25_000_000
"""More portions than this, of all beds together, take too much memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Portion:
    """Measures of one recipe (by number, -1 for none) and of straight bags, and what it misses."""

    recipe: int
    measures: int
    straight: tuple[tuple[int, int], ...]
    missed: float


@dataclass(frozen=True, slots=True)
class _Counted:
    """A group of straight bags: counts of each (rows), and what is missed by recipe, measures, row.

    A group of no bags has one row.
    """

    bags: tuple[int, ...]
    counts: Wholes
    missed: Floats


class BedPortions:
    """The portions of one bed, for recipes with these contents in a measure (rows)."""

    def __init__(self, figures: Figures, plot: int, contents: Floats) -> None:
        none = np.zeros((1, contents.shape[1]))
        self.recipes = len(contents)
        self.contents = np.concatenate([contents, none])
        most = most_measures(figures, self.contents, plot)
        self.most = int(most.max(initial=0.0))
        self.amounts = np.arange(self.most + 1, dtype=float)
        self.barred = self.amounts[None, :] > most[:, None]
        nothing = np.zeros(figures.bags)
        table = BedTable(figures, plot, figures.straight[plot], nothing)
        cells = sum(prod(n + 1 for n in group.most) for group in table.groups)
        count = cells * len(self.amounts) * len(self.contents)
        self.too_many = count * figures.plots > MOST_CELLS
        if self.too_many:
            return
        free = self._missed(table.free, np.zeros((1, contents.shape[1])))
        self.groups = [_Counted((), np.zeros((1, 0), dtype=np.int64), free)]
        self.groups += [self._group(figures, group) for group in table.groups]

    def _group(self, figures: Figures, group: Group) -> _Counted:
        ranges = [np.arange(most + 1) for most in group.most]
        counts = np.stack([axis.ravel() for axis in np.meshgrid(*ranges, indexing="ij")], axis=1)
        given = counts @ figures.contents[list(group.bags)]
        return _Counted(group.bags, counts, self._missed(group.lines, given))

    def _missed(self, lines: Sequence[Side], given: Floats) -> Floats:
        shape = len(self.contents), len(self.amounts), len(given)
        missed = np.zeros(shape)
        for line in lines:
            mixed = self.contents[:, line.content, None] * self.amounts[None, :]
            got = (mixed[:, :, None] + given[None, None, :, line.content]) / line.scale
            missed += line_cost(line, got)
        return missed

    def cheapest(
        self, worth: Floats, mix_price: Floats, within: float, most: int
    ) -> Iterator[Portion]:
        """The cheapest portions, at most so many, none dearer than the best by more than `within`.

        `worth` is money for a measure of each straight bag, `mix_price` of each recipe. Of those
        with the same measures of the same recipe only the best counts.
        """
        price = np.append(mix_price, 0.0)
        total = np.where(self.barred, inf, price[:, None] * self.amounts[None, :])
        missed, rows = np.zeros(total.shape), []
        for group in self.groups:
            spent = group.missed + group.counts @ worth[list(group.bags)]
            row = spent.argmin(axis=2)
            rows.append(row)
            total = total + np.take_along_axis(spent, row[:, :, None], axis=2)[:, :, 0]
            missed += np.take_along_axis(group.missed, row[:, :, None], axis=2)[:, :, 0]
        limit = min(total.min() + within, np.finfo(float).max)
        for place in np.argsort(total, axis=None, kind="stable")[:most]:
            recipe, measures = divmod(int(place), len(self.amounts))
            if total[recipe, measures] > limit:
                return
            yield Portion(
                recipe=recipe if measures else -1,
                measures=measures,
                straight=tuple(
                    (bag, int(count))
                    for group, row in zip(self.groups, rows, strict=True)
                    for bag, count in zip(
                        group.bags, group.counts[row[recipe, measures]], strict=True
                    )
                    if count
                ),
                missed=float(missed[recipe, measures]),
            )
