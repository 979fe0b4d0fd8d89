"""What a short-fall on a bed may cost at most where bags may go straight onto it."""

from collections.abc import Iterator

from halfpail.engine.figures import Figures, Floats


def capped_prices(figures: Figures, plot: int, per_measure: Floats) -> Iterator[list[float]]:
    """Prices of the sides of a bed, capped by the worth of straight bags, one split at a time.

    Any split of a straight bag's worth over the sides it lifts gives a bound that is not too
    high: all to one side first, and what is left to the others in turn.
    """
    sides, bags = figures.sides[plot], figures.straight[plot]
    lifts = {
        n: {
            bag: figures.contents[bag, side.content] / side.scale
            for bag in bags
            if figures.contents[bag, side.content] > 0
        }
        for n, side in enumerate(sides)
        if side.sign < 0
    }
    lifted = [n for n, by_bag in lifts.items() if by_bag]
    orders = [[n, *(m for m in lifted if m != n)] for n in lifted] or [[]]
    for order in orders:
        left = {bag: float(per_measure[bag]) for bag in bags}
        price = [side.price for side in sides]
        for n in order:
            price[n] = min(
                price[n], min(max(left[bag], 0.0) / lift for bag, lift in lifts[n].items())
            )
            for bag, lift in lifts[n].items():
                left[bag] -= price[n] * lift
        yield price
