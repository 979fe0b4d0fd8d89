"""What the bags of a single mix cost for so many whole rounds of it."""

from collections.abc import Iterator
from math import inf

import numpy as np

from halfpail.engine.figures import Figures, Floats, Wholes
from halfpail.engine.mix_sets import Hand

_CLOSE = 1e-9
_TOGETHER = 8

Counted = tuple[int, int]
"""A straight bag and how many of it are bought."""


def money_of_rounds(
    figures: Figures,
    scoops: Wholes,
    chosen: tuple[int, ...],
    hand: Hand,
    worth: Floats,
    rounds: Floats,
    counted: Counted | None = None,
) -> Floats:
    """Least money for the bags by recipe and rounds, less what is there of straight ones.

    `worth` is what a kilogram of a straight bag is paid for where it is used. With `counted` just
    so many of one straight bag are bought. The money never falls with the rounds, and is inf where
    too few bags are there or can be paid.
    """
    f = figures
    straights = {bag for bags in f.straight for bag in bags}
    money, spent = np.zeros((2, len(scoops), len(rounds)))
    for bag in {*chosen, *hand.straight}:
        used = scoops[:, bag, None] * (rounds * f.measure_kg[bag] / f.measure)
        count = fewest_bags(f, used, bag)
        offered = 0 if bag in hand.closed else f.offered[bag]
        if bag in straights:
            least = 1.0 if bag in hand.opened else 0.0
            if counted is not None and counted[0] == bag:
                offered = least = counted[1]
            count = np.maximum(count, least)
            each = f.price[bag] - worth[bag] * f.bag_kg[bag]
            shed = min(0.0, f.shed_price[bag] - worth[bag]) * f.shed_kg[bag]
            bought = each * (count if each > 0 else np.maximum(count, offered))
            cost = bought + shed + worth[bag] * used
        else:
            cost = bag_money(f, used, count, bag)
        money += np.where(count > offered, inf, cost)
        spent += count * f.price[bag]
    money[spent > f.budget * (1 + _CLOSE)] = inf
    return money


def fewest_bags(figures: Figures, used_kg: Floats, bag: int) -> Floats:
    """Fewest bags to buy where so much is used, of one bag."""
    f = figures
    count: Floats = np.ceil((used_kg - f.shed_kg[bag]) / f.bag_kg[bag] - _CLOSE)
    return np.maximum(count, 0.0)


def bag_money(figures: Figures, used_kg: Floats, fewest: Floats, bag: int) -> Floats:
    """Least money for what is used, of one bag, where at least the `fewest` are bought.

    Where what is in the shed has a price too, more bags may spare it: as far as they are used up,
    or one more.
    """
    size, price, shed = figures.bag_kg[bag], figures.price[bag], figures.shed_price[bag]

    def money(count: Floats) -> Floats:
        rest = np.clip(used_kg - count * size, 0.0, figures.shed_kg[bag])
        total: Floats = count * price + rest * shed
        return total

    least = money(fewest)
    if shed > 0:
        whole = np.floor(used_kg / size + _CLOSE)
        for count in (whole, whole + 1.0):
            np.minimum(least, money(np.maximum(count, fewest)), out=least)
    return least


def round_numbers() -> Iterator[Floats]:
    """Numbers of rounds from one on, a few together."""
    start = 1
    while True:
        yield np.arange(start, start + _TOGETHER, dtype=float)
        start += _TOGETHER
