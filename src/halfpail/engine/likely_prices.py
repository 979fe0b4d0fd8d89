"""Prices for a basket found on its likeliest recipes alone, which is quick.

With thousands of recipes on many beds one look at a matrix takes a second. A few hundred of them
say nearly the same; that no other recipe does better is for one look at all of them to tell.
"""

import numpy as np

from halfpail.blending.ports import Solver
from halfpail.engine.basket_prices import BasketPrices, Look
from halfpail.engine.bed_tables import costs_at, exact_costs
from halfpail.engine.few_recipes import chosen_cost, good_choices
from halfpail.engine.figures import Figures, Floats, Wholes
from halfpail.engine.pace import Pace
from halfpail.engine.recipes import Mixes
from halfpail.engine.stock import fixed_part, only_there

_LOOKS = 40
_WORTH_A_LOOK = 1e-3
_A_LITTLE = 1e-5


def likely_prices(
    figures: Figures, solver: Solver, pace: Pace, basket: Wholes, mixes: Mixes, worth: Floats
) -> Floats:
    """Better prices for a basket than `worth`, as far as these recipes tell."""
    prices = BasketPrices(solver, bags_there(figures, basket), _WORTH_A_LOOK)
    here, count = only_there(figures, basket), figures.problem.mixes
    looked: Floats | None = worth
    for _ in range(_LOOKS):
        if looked is None or pace.over():
            break
        table = exact_costs(here, mixes, looked)
        pace.spend(5.0 + table.size * 5e-3)
        if not np.isfinite(table.min(axis=0)).all():
            break
        rows = good_choices(table, count, 1)[0]
        chosen = mixes.only(np.array(rows))
        prices.learn(
            Look(
                worth=looked,
                height=fixed_part(figures, basket, looked) + chosen_cost(table, rows),
                slope=slope_of(figures, basket, chosen, looked),
                choice=frozenset(),
            )
        )
        looked = prices.next()
    return worth if prices.best is None else prices.best


def bags_there(figures: Figures, basket: Wholes) -> tuple[int, ...]:
    """The bags of which a basket or the shed holds any."""
    there_kg = basket * figures.bag_kg + figures.shed_kg
    return tuple(int(bag) for bag in np.flatnonzero(there_kg > 0))


def slope_of(figures: Figures, basket: Wholes, chosen: Mixes, worth: Floats) -> Floats:
    """How what these mixes cost moves with the price of each bag of the basket.

    A bag that is only mixed changes what a measure of a mix costs, and no more: all of these are
    read off one table.
    """
    here = only_there(figures, basket)
    straights = {bag for bags in here.straight for bag in bags}
    bags = bags_there(figures, basket)
    dearer = {bag: worth + _A_LITTLE * (np.arange(figures.bags) == bag) for bag in bags}
    mixed = [bag for bag in bags if bag not in straights]
    at_mixed = [worth, *(dearer[bag] for bag in mixed)]
    prices = np.array([chosen.share @ (each * here.measure_kg) for each in at_mixed])
    here_cost, *beds = (float(t.min(axis=0).sum()) for t in costs_at(here, chosen, worth, prices))
    cost = dict(zip(mixed, beds, strict=True))
    for bag in straights & set(bags):
        cost[bag] = float(exact_costs(here, chosen, dearer[bag]).min(axis=0).sum())
    before = fixed_part(figures, basket, worth)
    slope = np.zeros(figures.bags)
    for bag in bags:
        fixed = fixed_part(figures, basket, dearer[bag]) - before
        slope[bag] = (fixed + cost[bag] - here_cost) / _A_LITTLE
    return slope
