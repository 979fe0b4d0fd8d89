"""The easiest season: every bed a mix of its own. What it cannot do, no few mixes can."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from math import inf

import numpy as np

from halfpail.blending.programme import Outcome, Programme
from halfpail.engine.figures import Figures, Floats
from halfpail.engine.rows import Sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnMixes:
    """The programme and where its columns and rows stand.

    `bought` and `shed` are columns by bag, `amount` columns [measures] by (bag, plot), `misses`
    columns by (plot, side); `supply` are rows by bag, `sides` rows by (plot, side),
    `budget` a row if there is one.
    """

    programme: Programme
    bought: tuple[int, ...]
    shed: tuple[int, ...]
    amount: dict[tuple[int, int], int]
    supply: tuple[int, ...]
    misses: dict[tuple[int, int], int]
    sides: dict[tuple[int, int], int]
    budget: int | None


def own_mixes(
    figures: Figures,
    *,
    whole: bool = True,
    elastic: bool = False,
    mixing: Collection[int] | None = None,
    straight: Collection[int] = (),
    opened: Collection[int] = (),
    closed: Collection[int] = (),
) -> OwnMixes:
    """Whole bags, every bed a mix of its own in whole measures: a lower bound on every plan.

    Without `whole` neither bags nor measures need be whole. With `elastic`, hard limits may give
    and the objective is only how much they give. With `mixing`, only these bags may be mixed and
    only those of `straight` may go straight onto beds; at least one bag is bought of each of
    `opened` and of each mixed one the shed has none of, and none of `closed`.
    """
    sheet = Sheet()
    money = 0.0 if elastic else 1.0
    bags = range(figures.bags)
    empty = [i for i in mixing or () if figures.shed_kg[i] <= 0]
    bought = tuple(
        sheet.column(
            f"bags of {i}",
            0.0 if i in closed else float(figures.offered[i]),
            low=1.0 if i in empty or i in opened else 0.0,
            cost=money * float(figures.price[i]),
            whole=whole,
        )
        for i in bags
    )
    shed = tuple(
        sheet.column(
            f"shed {i}", float(figures.shed_kg[i]), cost=money * float(figures.shed_price[i])
        )
        for i in bags
    )
    amount = {
        (i, b): sheet.column(f"{i} on {b}")
        for b in range(figures.plots)
        for i in bags
        if _may_reach(figures, i, b, mixing, straight)
    }
    supply = tuple(
        sheet.row(
            f"no more of {i} than is there",
            [
                (amount[i, b], float(figures.measure_kg[i]))
                for b in range(figures.plots)
                if (i, b) in amount
            ]
            + [(bought[i], -float(figures.bag_kg[i])), (shed[i], -1.0)],
            at_most=0.0,
        )
        for i in bags
    )
    if whole and not elastic:
        _whole_scoops(figures, sheet, amount, bought, shed)
        _whole_measures(figures, sheet, amount)
    misses, sides = _limits(figures, sheet, amount, elastic)
    budget = None
    if figures.budget < inf and not elastic:
        spent = [(bought[i], float(figures.price[i])) for i in bags]
        budget = sheet.row("within the budget", spent, at_most=figures.budget)
    return OwnMixes(
        programme=sheet.done(),
        bought=bought,
        shed=shed,
        amount=amount,
        supply=supply,
        misses=misses,
        sides=sides,
        budget=budget,
    )


def _whole_scoops(
    figures: Figures,
    sheet: Sheet,
    amount: dict[tuple[int, int], int],
    bought: tuple[int, ...],
    shed: tuple[int, ...],
) -> None:
    """All rounds together take a whole number of scoops of a bag that is only ever mixed."""
    straights = {bag for bags in figures.straight for bag in bags}
    for i in range(figures.bags):
        scoop_kg = float(figures.measure_kg[i] / figures.measure)
        column = sheet.column(f"scoops of {i}", whole=True)
        there = [(bought[i], -float(figures.bag_kg[i])), (shed[i], -1.0)]
        sheet.row(f"scoops of {i} there", [(column, scoop_kg), *there], at_most=0.0)
        if i not in straights:
            spread = [
                (amount[i, b], figures.measure) for b in range(figures.plots) if (i, b) in amount
            ]
            sheet.row(f"scoops of {i} spread", [*spread, (column, -1.0)], at_most=0.0)


def _whole_measures(figures: Figures, sheet: Sheet, amount: dict[tuple[int, int], int]) -> None:
    """A bed gets whole measures of each straight bag and of all its mix."""
    for b in range(figures.plots):
        mixed = [(amount[i, b], 1.0) for i in range(figures.bags) if (i, b) in amount]
        for i in figures.straight[b]:
            straight = sheet.column(f"{i} straight on {b}", whole=True)
            sheet.row(
                f"{i} straight of all {i}", [(amount[i, b], 1.0), (straight, -1.0)], at_least=0.0
            )
            mixed.append((straight, -1.0))
        total = sheet.column(f"measures of mix on {b}", whole=True)
        sheet.row(f"mix on {b}", [*mixed, (total, -1.0)], at_least=0.0, at_most=0.0)


def _may_reach(
    figures: Figures,
    bag: int,
    plot: int,
    mixing: Collection[int] | None,
    straight: Collection[int],
) -> bool:
    if mixing is None:
        return figures.useful(bag, plot)
    return bag in mixing or (bag in straight and bag in figures.straight[plot])


def _limits(
    figures: Figures, sheet: Sheet, amount: dict[tuple[int, int], int], elastic: bool
) -> tuple[dict[tuple[int, int], int], dict[tuple[int, int], int]]:
    """What each bed gets against each side of its ranges; a miss costs its price."""
    misses, rows = {}, {}
    for b, sides in enumerate(figures.sides):
        for s, side in enumerate(sides):
            hard = side.price == inf
            if elastic and not hard:
                continue
            terms = [
                (amount[i, b], figures.contents[i, side.content] / side.scale)
                for i in range(figures.bags)
                if (i, b) in amount and figures.contents[i, side.content] > 0
            ]
            if elastic or not hard:
                cost = side.scale if elastic else side.price
                misses[b, s] = sheet.column(f"miss {s} of {b}", cost=cost)
                terms.append((misses[b, s], -float(side.sign)))
            low, high = (side.bound, inf) if side.sign < 0 else (-inf, side.bound)
            rows[b, s] = sheet.row(f"side {s} of {b}", terms, at_least=low, at_most=high)
    return misses, rows


def with_basket(model: OwnMixes, low: Floats, high: Floats, less_shed: Floats) -> Programme:
    """The same programme, bags bought held between `low` and `high`, less in the shed [kg]."""
    columns = list(model.programme.columns)
    for i, column in enumerate(model.bought):
        columns[column] = replace(columns[column], low=float(low[i]), high=float(high[i]))
    for i, column in enumerate(model.shed):
        columns[column] = replace(
            columns[column], high=max(0.0, columns[column].high - float(less_shed[i]))
        )
    return replace(model.programme, columns=tuple(columns))


def prices_of(model: OwnMixes, outcome: Outcome) -> Floats:
    """Money per kilogram of each bag in the programme, from the prices of its outcome."""
    prices: Floats = np.maximum(0.0, -np.array([outcome.row_prices[r] for r in model.supply]))
    return prices


def worth_to_beds(figures: Figures, model: OwnMixes, outcome: Outcome) -> Floats:
    """Money per kilogram that each bag, in the programme or not, is worth to the keenest bed."""
    worth = np.zeros(figures.bags)
    for plot, sides in enumerate(figures.sides):
        wanted = np.zeros(figures.bags)
        for number, side in enumerate(sides):
            price = outcome.row_prices[model.sides[plot, number]] / side.scale
            wanted += price * figures.contents[:, side.content]
        np.maximum(worth, wanted / figures.measure_kg, out=worth)
    return worth


def wishes(model: OwnMixes, figures: Figures, point: Sequence[float]) -> tuple[Floats, Floats]:
    """What each bed would have its own mix made of (rows: shares of contents); its measures."""
    found = np.zeros((figures.plots, figures.contents.shape[1]))
    measures = np.zeros(figures.plots)
    for (bag, plot), column in model.amount.items():
        found[plot] += point[column] * figures.contents[bag]
        measures[plot] += point[column]
    return found / np.maximum(found.sum(axis=1, keepdims=True), 1e-12), measures
