"""Prices for the bags of one basket that lift its bound as high as it goes.

The bound of a basket is concave in the prices of its bags. Each look gives its height and its
slope; the next prices are the best under all slopes seen so far, not far from the best prices yet.
Any prices give a bound that holds, so nothing depends on how well they are chosen but speed.
"""

from collections.abc import Set
from dataclasses import dataclass

import numpy as np

from halfpail.blending.ports import Solver
from halfpail.blending.programme import Column, Programme, Row
from halfpail.engine.figures import Floats
from halfpail.engine.recipes import Recipe

_NEAR = 1.0
_WIDER, _NARROWER = 1.5, 0.6
_NARROWEST = 0.01
_FAR = 1e6


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """The bound at some prices [money per kg], its slope, and the choice of mixes it speaks of."""

    worth: Floats
    height: float
    slope: Floats
    choice: frozenset[Recipe]


class BasketPrices:
    """What was seen of one basket's bound, and where to look next."""

    def __init__(self, solver: Solver, bags: tuple[int, ...], worth_a_look: float) -> None:
        self.solver, self.bags, self.worth_a_look = solver, bags, worth_a_look
        self.best: Floats | None = None
        self.height = -np.inf
        self.near = _NEAR
        self.seen: list[Look] = []

    def learn(self, look: Look) -> None:
        """Take in one look at the bound."""
        height, worth = look.height, look.worth
        self.seen.append(look)
        if height > self.height:
            self.best, self.height = worth, height
            self.near *= _WIDER
        else:
            self.near *= _NARROWER

    def forget(self, alive: Set[Recipe]) -> None:
        """Drop looks at choices that cannot win any more: the bound has risen above them."""
        self.seen = [look for look in self.seen if look.choice <= alive]

    def next(self) -> Floats | None:
        """Prices worth a look; None where none can lift the bound by much."""
        if self.best is None or self.near < _NARROWEST:
            return None
        outcome = self.solver.solve(self._programme(self.best))
        if outcome.value is None or outcome.value < self.height + self.worth_a_look:
            return None
        found = self.best.copy()
        found[list(self.bags)] = outcome.point[1:]
        return found

    def _programme(self, best: Floats) -> Programme:
        height = Column(name="height", low=-_FAR, high=_FAR, cost=1.0)
        prices = [
            Column(
                name=f"price of {i}", low=max(0.0, best[i] - self.near), high=best[i] + self.near
            )
            for i in self.bags
        ]
        slopes = [
            Row(
                name=f"look {n}",
                terms=(
                    (0, 1.0),
                    *((c + 1, -float(look.slope[i])) for c, i in enumerate(self.bags)),
                ),
                at_most=float(look.height - look.slope @ look.worth),
            )
            for n, look in enumerate(self.seen)
        ]
        return Programme(columns=(height, *prices), rows=tuple(slopes), maximise=True)
