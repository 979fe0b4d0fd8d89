"""Sets of bags that may share the one mix, their recipes, and the straight bags beside it."""

from collections.abc import Collection
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from halfpail.engine.figures import Figures, Wholes
from halfpail.engine.recipes import may_meet, parts


def supports(
    figures: Figures, limit: float, only: Collection[int] | None = None
) -> list[tuple[float, tuple[int, ...]]]:
    """Sets of bags that may share a mix at less than `limit` for a scoop each, cheapest first."""
    lacking = np.array([figures.lacks(bag) for bag in range(figures.bags)], dtype=bool)
    entry = np.where(lacking, figures.price, 0.0)
    mixable = figures.may_mix & ~(lacking & (figures.offered == 0))
    bags = [int(i) for i in np.flatnonzero(mixable) if only is None or int(i) in only]
    found = []
    for size in range(1, min(figures.problem.most_bags, len(bags)) + 1):
        for chosen in combinations(bags, size):
            cost = float(entry[list(chosen)].sum())
            if cost < limit and may_meet(figures.problem, chosen):
                found.append((cost, chosen))
    return sorted(found)


def recipes_over(figures: Figures, chosen: tuple[int, ...]) -> Wholes:
    """All recipes that hold exactly these bags."""
    shape = parts(len(chosen), figures.problem.most_scoops)
    rows = np.zeros((len(shape), figures.bags), dtype=np.int64)
    rows[:, chosen] = shape
    return rows


@dataclass(frozen=True, slots=True, order=True)
class Hand:
    """Straight bags at hand beside a mix, and how: bought, or only in the shed.

    A bag that is mixed stands here only if the shed holds some of it; else it is bought anyhow.
    """

    money: float
    opened: tuple[int, ...]
    closed: tuple[int, ...]

    @property
    def straight(self) -> tuple[int, ...]:
        """All of them."""
        return (*self.opened, *self.closed)


def hands(figures: Figures, chosen: tuple[int, ...]) -> list[Hand]:
    """Every way of having straight bags at hand where the `chosen` bags are mixed."""
    bought_anyhow = {bag for bag in chosen if figures.shed_kg[bag] <= 0}
    every = sorted({bag for bags in figures.straight for bag in bags} - bought_anyhow)
    kept = [bag for bag in every if figures.shed_kg[bag] > 0]
    on_offer = [bag for bag in every if figures.offered[bag] > 0]
    return [
        Hand(
            float(figures.price[list(opened)].sum()),
            opened,
            tuple(bag for bag in kept if bag not in opened),
        )
        for size in range(len(on_offer) + 1)
        for opened in combinations(on_offer, size)
    ]
