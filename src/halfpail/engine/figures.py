"""The season problem as arrays of floats, in smallest measures."""

from dataclasses import dataclass
from math import inf

import numpy as np
from numpy.typing import NDArray

from halfpail.domain.season import Limit, SeasonProblem

Floats = NDArray[np.float64]
Wholes = NDArray[np.int64]

ENOUGH = 1e-7
"""Below this share of a limit two amounts count as one; answers are re-checked exactly."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One side of a range of one bed, divided by `scale` so that a measure counts about one.

    `sign` is +1 for at most and -1 for at least; `price` is for each scaled unit, inf when hard.
    """

    limit: Limit
    content: int
    sign: int
    bound: float
    price: float
    scale: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """What the engine computes with; a bag's `contents` are kg in one measure of it."""

    problem: SeasonProblem
    measure: float
    measure_kg: Floats
    contents: Floats
    bag_kg: Floats
    price: Floats
    offered: Wholes
    shed_kg: Floats
    shed_price: Floats
    may_mix: NDArray[np.bool_]
    straight: tuple[tuple[int, ...], ...]
    sides: tuple[tuple[Side, ...], ...]
    budget: float

    @property
    def bags(self) -> int:
        """How many bags there are."""
        return len(self.measure_kg)

    @property
    def plots(self) -> int:
        """How many beds there are."""
        return len(self.sides)

    def lacks(self, bag: int) -> bool:
        """Whether the shed holds less than a scoop of this bag."""
        return bool(self.shed_kg[bag] < self.measure_kg[bag] / self.measure * (1 - ENOUGH))

    def useful(self, bag: int, plot: int) -> bool:
        """Whether any of this bag may reach this bed, in a mix or straight."""
        return bool(self.may_mix[bag]) or bag in self.straight[plot]


def figures_of(problem: SeasonProblem) -> Figures:
    """Turn the exact problem into arrays; contents no limit speaks of are left out."""
    bags = problem.ingredients
    contents = sorted({limit.content for limit in problem.limits})
    measure_kg = np.array([float(problem.measure * bag.scoop_kg) for bag in bags])
    table = np.array([[float(bag.contents.get(c, 0)) for c in contents] for bag in bags])
    table = table.reshape(len(bags), len(contents)) * measure_kg[:, None]
    usable = [bag.offered > 0 or bag.shed_kg > 0 for bag in bags]
    by_plot: dict[str, list[Side]] = {plot.key: [] for plot in problem.plots}
    for limit in problem.limits:
        content = contents.index(limit.content)
        scale = float(table[:, content].max(initial=0.0)) or 1.0
        by_plot[limit.plot].extend(_sides(limit, content, scale))
    return Figures(
        problem=problem,
        measure=float(problem.measure),
        measure_kg=measure_kg,
        contents=table,
        bag_kg=np.array([float(bag.bag_kg) for bag in bags]),
        price=np.array([float(bag.price) for bag in bags]),
        offered=np.array([bag.offered for bag in bags], dtype=np.int64),
        shed_kg=np.array([float(bag.shed_kg) for bag in bags]),
        shed_price=np.array([float(bag.shed_price_per_kg) for bag in bags]),
        may_mix=np.array(
            [bag.may_mix and there for bag, there in zip(bags, usable, strict=True)], dtype=bool
        ),
        straight=tuple(
            tuple(
                i
                for i, bag in enumerate(bags)
                if plot.straight_ok and bag.may_go_straight and usable[i]
            )
            for plot in problem.plots
        ),
        sides=tuple(tuple(by_plot[plot.key]) for plot in problem.plots),
        budget=inf if problem.budget is None else float(problem.budget),
    )


def _sides(limit: Limit, content: int, scale: float) -> list[Side]:
    price = inf if limit.price_per_kg is None else float(limit.price_per_kg) * scale
    return [
        Side(
            limit=limit,
            content=content,
            sign=sign,
            bound=float(bound) / scale,
            price=price,
            scale=scale,
        )
        for sign, bound in ((-1, limit.at_least), (1, limit.at_most))
        if bound is not None
    ]
