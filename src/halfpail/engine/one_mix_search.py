"""The best single mix, proven: bound every set of bags, every recipe, and solve what is left."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf

import numpy as np

from halfpail.application.ports import KnownWithout
from halfpail.engine.bed_costs import capped_costs
from halfpail.engine.draft import settled
from halfpail.engine.figures import Floats, Wholes
from halfpail.engine.one_mix import Hand, bounds, hands, recipes_over, supports
from halfpail.engine.own_mixes import own_mixes, prices_of, worth_to_beds
from halfpail.engine.recipes import Recipe, may_meet, mixes_of
from halfpail.engine.round_prices import bounds_by_rounds
from halfpail.engine.search import ROUNDED, Search

MOST_SETS = 150_000
MOST_BAGS = 20


@dataclass(frozen=True, slots=True)
class _Prices:
    """Prices of bags found with one set of them, and what they say about any other set.

    A set costs at least `fixed` plus `each` of its bags: first as mixed, then as opened to go
    straight, then as found in the shed. `held` is the part of `fixed` that comes from the budget
    and not from the beds.
    """

    worth: Floats
    fixed: float
    each: Floats
    held: float

    def of(self, places: list[int]) -> float:
        """A lower bound on every plan with just these bags."""
        return self.fixed + float(self.each[places].sum())


class OneMixSearch(Search):
    """Goes through the sets of bags that may share a mix, cheapest first."""

    only: int | None = None

    def know(self, without: KnownWithout | None) -> None:
        """Begin from the best plan without one bag: only sets that hold the bag can be better."""
        if without is None:
            return
        self.offer(settled(without.plan))
        self.settle_for(float(without.plan.bound))
        self.only = next(
            i for i, bag in enumerate(self.figures.problem.ingredients) if bag.key == without.bag
        )

    def run(self, least_missed: float, first: Sequence[int] = ()) -> None:
        """Search until proven; `least_missed` is missed by every plan, whatever it costs.

        The bags of `first` (bought for a mix of its own for every bed) are tried before others.
        """
        self.left: list[tuple[float, Recipe]] = []
        for chosen, hand in self._starts(first):
            if not self.pace.over():
                self._one_set(chosen, hand)
        sets = self._sets(least_missed, first)
        member = np.zeros((len(sets), 3 * self.figures.bags), dtype=np.float32)
        told = np.array([entry for entry, _, _ in sets])
        for row, (_, chosen, hand) in enumerate(sets):
            member[row, self._places(chosen, hand)] = 1.0
        while len(sets):
            row = int(told.argmin())
            if told[row] >= self.cutoff or self.pace.over():
                self.settle_for(float(told[row]))
                break
            _, chosen, hand = sets[row]
            prices = self._one_set(chosen, hand)
            if prices is not None:
                said = prices.fixed + member @ prices.each
                np.maximum(told, said - ROUNDED * np.maximum(1.0, np.abs(said)), out=told)
            told[row] = inf
            self.pace.tell(self.value if self.value < inf else None, None)
        self._solve(sorted(self.left))

    def _sets(
        self, least_missed: float, first: Sequence[int]
    ) -> list[tuple[float, tuple[int, ...], Hand]]:
        """Every set of bags to mix with every hand of straight bags, and the least they cost.

        With too many bags only the likely ones are mixed, and the search proves little.
        """
        f = self.figures
        only = None
        if f.bags > MOST_BAGS:
            self.settle_for(least_missed)
            likely = [*first, *np.flatnonzero(f.shed_kg > 0), *np.argsort(f.price / f.bag_kg)]
            only = set(list(dict.fromkeys(int(i) for i in likely))[:MOST_BAGS])
        mixed = [(0.0, ()), *supports(f, self.cutoff - least_missed, only)]
        sets = [
            (least_missed + cost + hand.money, chosen, hand)
            for cost, chosen in mixed
            for hand in hands(self.figures, chosen)
            if self._matters(chosen, hand)
        ]
        sets.sort()
        if len(sets) > MOST_SETS:
            self.settle_for(sets[MOST_SETS][0])
        return sets[:MOST_SETS]

    def _starts(self, first: Sequence[int]) -> Iterator[tuple[tuple[int, ...], Hand]]:
        """Sets of bags bought together by the easiest plan."""
        f = self.figures
        for hand in hands(f, ()):
            bags = [i for i in first if f.may_mix[i] and i not in hand.opened]
            for size in range(min(len(bags), f.problem.most_bags), 0, -1):
                chosen = tuple(sorted(bags[:size]))
                beside = hands(f, chosen)
                if may_meet(f.problem, chosen) and hand in beside:
                    if self._matters(chosen, hand):
                        yield chosen, hand
                    break

    def _matters(self, chosen: tuple[int, ...], hand: Hand) -> bool:
        return self.only is None or self.only in chosen or self.only in hand.straight

    def _places(self, chosen: tuple[int, ...], hand: Hand) -> list[int]:
        """Where the bags of a set stand in `_Prices.each`."""
        bags = self.figures.bags
        return [
            *(bag for bag in chosen if bag not in hand.straight),
            *(bags + bag for bag in hand.opened),
            *(2 * bags + bag for bag in hand.closed),
        ]

    @property
    def bound(self) -> float:
        """No plan is cheaper than this."""
        return min(self.floor, self.value)

    def _one_set(self, chosen: tuple[int, ...], hand: Hand) -> _Prices | None:
        """Drop a set of bags by its bound, else its recipes by theirs; keep what could win.

        The mix holds all of `chosen`; what it holds may go straight beside the hand.
        """
        value, prices = self._relaxed(chosen, hand)
        if value >= self.cutoff:
            self.settle_for(value)
            return prices
        if chosen:
            rows = recipes_over(self.figures, chosen)
        else:
            rows = np.zeros((1, self.figures.bags), dtype=np.int64)
        found = np.maximum(value, self._by_prices(chosen, hand, rows, prices))
        rows, found = self._kept(rows, found)
        if len(rows):
            found = np.maximum(found, bounds(self.figures, rows, chosen, hand, self))
            self._try_best(rows, found)
            rows, found = self._kept(rows, found)
            self.left += [
                (float(bound), tuple(int(n) for n in row))
                for row, bound in zip(rows, found, strict=True)
            ]
        return prices

    def _kept(self, rows: Wholes, found: Floats) -> tuple[Wholes, Floats]:
        """The recipes that could still win."""
        out = found >= self.cutoff
        if out.any():
            self.settle_for(float(found[out].min()))
        return rows[~out], found[~out]

    def _relaxed(self, chosen: tuple[int, ...], hand: Hand) -> tuple[float, _Prices | None]:
        """Every bed its own mix of these bags, bags not whole but at least one of each."""
        f = self.figures
        straight = (*hand.straight, *chosen)
        model = own_mixes(
            f,
            whole=False,
            mixing=chosen,
            straight=straight,
            opened=hand.opened,
            closed=hand.closed,
        )
        outcome = self.solver.solve(model.programme)
        self.pace.spend(1.0 + 0.02 * len(model.programme.columns))
        if outcome.value is None or not outcome.row_prices:
            return inf, None
        dearer = 1.0
        if model.budget is not None:
            dearer -= min(0.0, outcome.row_prices[model.budget])
        own = prices_of(model, outcome)
        worth = np.maximum(own, worth_to_beds(f, model, outcome))
        fixed = outcome.value - float(self._each(own, dearer)[self._places(chosen, hand)].sum())
        held = 0.0 if dearer == 1.0 else (1.0 - dearer) * f.budget
        prices = _Prices(worth, fixed, self._each(worth, dearer), held)
        return outcome.value - ROUNDED * max(1.0, abs(outcome.value)), prices

    def _each(self, worth: Floats, dearer: float) -> Floats:
        """Least each bag can cost, less what it is worth: mixed, opened, or only in the shed.

        Money is `dearer` than it is where the budget holds it back.
        """
        f = self.figures
        bag = f.price * dearer - worth * f.bag_kg
        shed = np.minimum(0.0, f.shed_price - worth) * f.shed_kg
        mixed = np.minimum(bag * np.where(f.shed_kg > 0, 0, 1), bag * f.offered)
        opened = np.minimum(bag, bag * f.offered)
        return np.concatenate([mixed + shed, opened + shed, shed])

    def _by_prices(
        self, chosen: tuple[int, ...], hand: Hand, rows: Wholes, prices: _Prices | None
    ) -> Floats:
        """Bound recipes with the prices of their set: one pass over all beds."""
        if prices is None:
            return np.full(len(rows), -inf)
        f, mixes = self.figures, mixes_of(self.figures, rows)
        self.pace.spend(len(rows) * f.plots * 1e-3)
        found = np.full(len(rows), -inf)
        if chosen:
            found = bounds_by_rounds(f, mixes, chosen, hand, prices.worth, self.cutoff)
        if prices.held or not chosen:
            rest = prices.of(self._places(chosen, hand)) - prices.fixed + prices.held
            beds = capped_costs(f, mixes, prices.worth).sum(axis=1)
            found = np.maximum(found, beds + rest)
        return found

    def _try_best(self, rows: Wholes, found: Floats) -> None:
        best = int(found.argmin())
        if found[best] < self.cutoff:
            proven = self.plan([tuple(int(n) for n in rows[best])])
            found[best] = max(found[best], min(proven, self.value))

    def _solve(self, left: list[tuple[float, Recipe]]) -> None:
        for bound, recipe in left:
            if bound >= self.cutoff or self.pace.over():
                self.settle_for(bound)
                return
            proven = self.plan([recipe])
            self.settle_for(max(bound, min(proven, self.value)))
            self.pace.tell(self.value if self.value < inf else None, min(self.floor, bound))
