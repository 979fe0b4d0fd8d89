"""Prices of a basket's bags, on bounds whose highest point can be found by hand."""

import numpy as np

from halfpail.engine.basket_prices import BasketPrices, Look
from halfpail.solvers.highs import Highs

FALLING, RISING = frozenset({(1, 0)}), frozenset({(0, 1)})


def look(price: float) -> Look:
    """The least of 2 x price and 6 - price: highest at price 2, where both are 4."""
    rises = 2 * price <= 6 - price
    return Look(
        worth=np.array([price, 7.0]),
        height=min(2 * price, 6 - price),
        slope=np.array([2.0 if rises else -1.0, 0.0]),
        choice=RISING if rises else FALLING,
    )


def prices() -> BasketPrices:
    return BasketPrices(Highs(), (0,), 1e-6)


def test_looks_end_at_the_highest_bound():
    found = prices()
    found.learn(look(0.0))
    while (worth := found.next()) is not None:
        found.learn(look(float(worth[0])))
    assert found.best is not None
    assert abs(found.best[0] - 2) < 1e-6
    assert abs(found.height - 4) < 1e-6


def test_prices_of_other_bags_stay():
    found = prices()
    found.learn(look(0.0))
    worth = found.next()
    assert worth is not None
    assert worth[1] == 7.0


def test_a_price_is_never_below_nought():
    found = prices()
    found.learn(Look(worth=np.zeros(2), height=1.0, slope=np.array([-1.0, 0.0]), choice=FALLING))
    assert found.next() is None


def test_a_look_at_a_choice_that_cannot_win_is_forgotten():
    found = prices()
    for price in (0.0, 5.0):
        found.learn(look(price))
    found.forget({(0, 1)})
    assert [seen.choice for seen in found.seen] == [RISING]
