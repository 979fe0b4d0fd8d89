"""One mix for each group of beds, each bed a fixed part of its group's mix: what to mix.

The other way round from a short list of recipes: there the recipes are given and the amounts are
sought, here the beds' parts are given and the recipes are sought, and both are straight
programmes. Turn and turn about they soon come to rest at good mixes.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from math import inf

from halfpail.blending.programme import Programme
from halfpail.engine.figures import Figures, Floats
from halfpail.engine.groups import Groups
from halfpail.engine.recipes import may_meet
from halfpail.engine.rows import Sheet, Terms


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupMixes:
    """The programme and where its columns stand: `mixed` by (bag, group), in scoops."""

    programme: Programme
    mixed: dict[tuple[int, int], int]

    def scoops(self, point: Sequence[float], bags: int, group: int) -> tuple[float, ...]:
        """Scoops of each bag in the mix of a group."""
        places = [self.mixed.get((bag, group)) for bag in range(bags)]
        return tuple(0.0 if place is None else max(0.0, point[place]) for place in places)


def group_mixes(
    figures: Figures,
    groups: Groups,
    part: Floats,
    rounds: Sequence[int] | None = None,
) -> GroupMixes:
    """The mixes of these groups, each bed getting its `part` [0-1] of its group's mix.

    Without `rounds` a mix is any scoops in all, of any number of bags, and bags bought need not be
    whole. With them each group's mix is a recipe in whole scoops, stirred so many rounds.
    """
    builder = _Builder(figures, groups, rounds)
    builder.bags()
    if rounds is not None:
        builder.recipes()
    for group, plots in enumerate(groups):
        for plot in plots:
            builder.limits(group, plot, part[plot])
    return GroupMixes(programme=builder.sheet.done(), mixed=builder.mixed)


class _Builder:
    def __init__(self, figures: Figures, groups: Groups, rounds: Sequence[int] | None) -> None:
        self.figures, self.groups, self.whole = figures, groups, rounds is not None
        self.times = [1] * len(groups) if rounds is None else list(rounds)
        self.sheet = Sheet()
        self.mixed = {
            (bag, group): self.sheet.column(
                f"scoops of {bag} in {group}",
                float(figures.problem.most_scoops) if self.whole else inf,
                whole=self.whole,
            )
            for group in range(len(groups))
            for bag in range(figures.bags)
            if figures.may_mix[bag]
        }
        self.straight = {
            (bag, plot): self.sheet.column(f"{bag} straight on {plot}")
            for plot in range(figures.plots)
            for bag in figures.straight[plot]
        }

    def bags(self) -> None:
        f, sheet = self.figures, self.sheet
        spent: Terms = []
        for bag in range(f.bags):
            price, offered = float(f.price[bag]), float(f.offered[bag])
            bought = sheet.column(f"bags of {bag}", offered, cost=price, whole=self.whole)
            shed = sheet.column(f"shed {bag}", float(f.shed_kg[bag]), cost=float(f.shed_price[bag]))
            spent.append((bought, price))
            scoop_kg = float(f.measure_kg[bag] / f.measure)
            terms = [
                (column, self.times[group] * scoop_kg)
                for (i, group), column in self.mixed.items()
                if i == bag
            ]
            terms += [
                (column, float(f.measure_kg[bag]))
                for (i, _), column in self.straight.items()
                if i == bag
            ]
            terms += [(bought, -float(f.bag_kg[bag])), (shed, -1.0)]
            sheet.row(f"no more of {bag} than is there", terms, at_most=0.0)
        if f.budget < inf:
            sheet.row("within the budget", spent, at_most=f.budget)

    def recipes(self) -> None:
        """Few scoops of few bags, and none of two that must stay apart."""
        problem, sheet = self.figures.problem, self.sheet
        most = float(problem.most_scoops)
        for group in range(len(self.groups)):
            held = {bag: column for (bag, g), column in self.mixed.items() if g == group}
            holds = {bag: sheet.column(f"{bag} is in {group}", 1.0, whole=True) for bag in held}
            for bag, column in held.items():
                terms = [(column, 1.0), (holds[bag], -most)]
                sheet.row(f"{bag} only if in {group}", terms, at_most=0.0)
            all_scoops = [(column, 1.0) for column in held.values()]
            sheet.row(f"scoops of {group}", all_scoops, at_most=most)
            all_bags = [(column, 1.0) for column in holds.values()]
            sheet.row(f"bags of {group}", all_bags, at_most=float(problem.most_bags))
            for pair in combinations(holds, 2) if problem.apart else ():
                if not may_meet(problem, pair):
                    apart = [(holds[bag], 1.0) for bag in pair]
                    sheet.row(f"{pair} apart in {group}", apart, at_most=1.0)

    def limits(self, group: int, plot: int, part: float) -> None:
        """What a bed gets against each side of its ranges."""
        f, sheet = self.figures, self.sheet
        measures = part * self.times[group] / f.measure
        for number, side in enumerate(f.sides[plot]):
            holds = f.contents[:, side.content] / side.scale
            terms = [
                (column, measures * float(holds[bag]))
                for (bag, g), column in self.mixed.items()
                if g == group and holds[bag] > 0
            ]
            terms += [
                (self.straight[bag, plot], float(holds[bag]))
                for bag in f.straight[plot]
                if holds[bag] > 0
            ]
            if side.price < inf:
                miss = sheet.column(f"miss {number} of {plot}", cost=side.price)
                terms.append((miss, -float(side.sign)))
            low, high = (side.bound, inf) if side.sign < 0 else (-inf, side.bound)
            sheet.row(f"side {number} of {plot}", terms, at_least=low, at_most=high)
