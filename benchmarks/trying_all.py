"""The oracle for recipes: every recipe tried one by one in whole numbers, straight from the bags.

Written apart from the search it checks: no demands, no rows, no floating point. Every figure of
a scoop is multiplied by one common number, so that sums are whole and quotients are compared
crosswise.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from math import gcd, lcm

from halfpail.domain.matter import Nutrient
from halfpail.domain.recipe import GradeTarget, PerNitrogen, RecipeWish
from halfpail.domain.stock import Bag


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """One recipe that meets the wish: scoops of each bag of the wish, cost and distance."""

    scoops: tuple[int, ...]
    cost: Fraction
    distance: Fraction


def all_recipes(wish: RecipeWish) -> list[Tried]:
    """Every recipe in lowest terms that meets the wish."""
    scoop = _Scoops(wish)
    at_hand = [
        number
        for number, bag in enumerate(wish.bags)
        if not bag.avoid and bag.key not in wish.avoid and scoop.price[number] is not None
    ]
    found: list[Tried] = []
    for size in range(1, min(wish.most_bags, wish.most_scoops) + 1):
        for chosen in combinations(at_hand, size):
            keys = {wish.bags[number].key for number in chosen}
            if any(pair <= keys for pair in wish.apart):
                continue
            for counts in parts(size, wish.most_scoops):
                if gcd(*counts) == 1:
                    found.extend(scoop.tried(chosen, counts))
    return found


def parts(size: int, most: int) -> Iterator[tuple[int, ...]]:
    """All ways to take at least one scoop of each of `size` bags, at most `most` in all."""
    if size == 0:
        yield ()
        return
    for first in range(1, most - size + 2):
        for rest in parts(size - 1, most - first):
            yield (first, *rest)


def best(recipes: list[Tried], *, cheapest: bool) -> Tried:
    """The first by the stated order of ties."""
    return min(recipes, key=lambda one: order(one, cheapest=cheapest))


def order(one: Tried, *, cheapest: bool) -> tuple[object, ...]:
    """Cost and distance, then fewer bags, fewer scoops, more of the bags listed first."""
    aims = (one.cost, one.distance) if cheapest else (one.distance, one.cost)
    used = sum(1 for count in one.scoops if count)
    return (*aims, used, sum(one.scoops), tuple(-count for count in one.scoops))


def front(recipes: list[Tried]) -> list[tuple[Fraction, Fraction]]:
    """Cost and distance of every recipe that no other beats in both, cheapest first."""
    points = {(one.cost, one.distance) for one in recipes}
    closest_by_cost: list[tuple[Fraction, Fraction]] = []
    for cost, distance in sorted(points):
        if all(distance < other for _, other in closest_by_cost[-1:]):
            closest_by_cost.append((cost, distance))
    return closest_by_cost


def different(recipes: list[Tried], most: int, *, cheapest: bool) -> list[Tried]:
    """In the stated order, recipes of which no set of bags holds another's."""
    taken: list[tuple[frozenset[int], Tried]] = []
    for one in sorted(recipes, key=lambda recipe: order(recipe, cheapest=cheapest)):
        bags = frozenset(number for number, count in enumerate(one.scoops) if count)
        if all(not bags <= other and not other <= bags for other, _ in taken):
            taken.append((bags, one))
        if len(taken) == most:
            break
    return [one for _, one in taken]


class _Scoops:
    """Whole-number figures of one scoop of each bag."""

    def __init__(self, wish: RecipeWish) -> None:
        self.wish = wish
        target = wish.target
        self.is_grade = isinstance(target, GradeTarget)
        self.price = [_price(bag, wish.shed_is_free) for bag in wish.bags]
        mass = [bag.density.typical * wish.scoop_l for bag in wish.bags]
        figures = {
            "mass": mass,
            "money": [(p or Fraction(0)) * m for p, m in zip(self.price, mass, strict=True)],
            "usable": [b.usable_n.typical * m for b, m in zip(wish.bags, mass, strict=True)],
        }
        for nutrient in Nutrient:
            figures[nutrient.value] = [
                bag.label.analysis.of(nutrient) * m for bag, m in zip(wish.bags, mass, strict=True)
            ]
        common = lcm(*(figure.denominator for row in figures.values() for figure in row))
        self.whole = {key: [int(f * common) for f in row] for key, row in figures.items()}
        if isinstance(target, GradeTarget):
            self.paid_by, self.counted_by = "mass", "mass"
            self.limits: list[tuple[str, Fraction, Fraction | None]] = [
                (n, (target.percent[n] - off) / 100, (target.percent[n] + off) / 100)
                for n, off in target.tolerance.items()
            ]
            self.aims = [(n, percent / 100) for n, percent in target.percent.items()]
        else:
            usable = target.per is PerNitrogen.USABLE
            self.paid_by, self.counted_by = "usable", "usable" if usable else "N"
            self.limits = [
                (n, target.low.get(n, Fraction(0)), target.high.get(n))
                for n in {*target.low, *target.high}
            ]
            self.aims = list(target.aim.items())

    def tried(self, chosen: tuple[int, ...], counts: tuple[int, ...]) -> Iterator[Tried]:
        """The recipe, if it meets the wish."""
        paid, per = (
            self._sum(self.paid_by, chosen, counts),
            self._sum(self.counted_by, chosen, counts),
        )
        if paid <= 0 or per <= 0:
            return
        for nutrient, low, high in self.limits:
            amount = self._sum(nutrient, chosen, counts)
            if amount * low.denominator < low.numerator * per:
                return
            if high is not None and amount * high.denominator > high.numerator * per:
                return
        away = [
            abs(Fraction(self._sum(nutrient, chosen, counts), per) - aim)
            for nutrient, aim in self.aims
        ]
        scoops = [0] * len(self.wish.bags)
        for number, count in zip(chosen, counts, strict=True):
            scoops[number] = count
        yield Tried(
            scoops=tuple(scoops),
            cost=Fraction(self._sum("money", chosen, counts), paid),
            distance=max(away) * (100 if self.is_grade else 1),
        )

    def _sum(self, figure: str, chosen: tuple[int, ...], counts: tuple[int, ...]) -> int:
        row = self.whole[figure]
        return sum(row[number] * count for number, count in zip(chosen, counts, strict=True))


def _price(bag: Bag, shed_is_free: bool) -> Fraction | None:
    if shed_is_free and bag.shed_kg > 0 and (bag.offered == 0 or bag.price is None):
        return Fraction(0)
    if bag.price == 0:
        return Fraction(0)
    return None if bag.price is None or not bag.bag_kg else bag.price / bag.bag_kg
