"""A recipe as a problem in whole scoops: demands, cost and distance, all exact.

Everything here is a sum over scoops, or one such sum divided by another, so a recipe and its
double are the same; recipes are counted in lowest terms.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

Scoops = tuple[int, ...]
"""How many scoops of each bag, in the order of the problem's bags."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """The sum of `per_scoop` times scoops may not be above nought.

    `name` is short and tells the demands of one problem apart, `because` says it to a gardener,
    `nutrient` is the one it is about, if any.
    """

    name: str
    nutrient: str = ""
    because: str
    per_scoop: tuple[Fraction, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ScoopProblem:
    """Which recipes are allowed, what each costs and how far it is from the wish.

    The cost of a recipe is its sum of `cost` over its sum of `cost_per`; its distance the
    largest size of its sums of `misses` over its sum of `miss_per`. Both dividing sums must be
    above nought: a recipe without nitrogen has no ratio to it.
    """

    bags: tuple[str, ...]
    demands: tuple[Demand, ...]
    cost: tuple[Fraction, ...]
    cost_per: tuple[Fraction, ...]
    misses: tuple[tuple[Fraction, ...], ...]
    miss_per: tuple[Fraction, ...]
    most_scoops: int
    most_bags: int
    apart: frozenset[frozenset[str]] = frozenset()

    def broken(self, scoops: Scoops) -> tuple[Demand, ...]:
        """The demands this recipe does not meet."""
        return tuple(d for d in self.demands if total(d.per_scoop, scoops) > 0)

    def is_within(self, scoops: Scoops) -> bool:
        """Whether a recipe keeps to scoops, bags, and what may not share a mix."""
        used = frozenset(bag for bag, count in zip(self.bags, scoops, strict=True) if count)
        return (
            0 < sum(scoops) <= self.most_scoops
            and len(used) <= self.most_bags
            and not any(pair <= used for pair in self.apart)
        )

    def allows(self, scoops: Scoops) -> bool:
        """Whether a recipe meets every demand and every limit."""
        return (
            self.is_within(scoops)
            and total(self.cost_per, scoops) > 0
            and total(self.miss_per, scoops) > 0
            and not self.broken(scoops)
        )

    def cost_of(self, scoops: Scoops) -> Fraction:
        """Money for a unit of what is paid for (a kg of mix, or of usable N)."""
        return total(self.cost, scoops) / total(self.cost_per, scoops)

    def distance_of(self, scoops: Scoops) -> Fraction:
        """The largest distance of a named nutrient from its number."""
        most = max((abs(total(miss, scoops)) for miss in self.misses), default=Fraction(0))
        return most / total(self.miss_per, scoops)


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """A recipe with its exact cost and distance."""

    scoops: Scoops
    cost: Fraction
    distance: Fraction

    @property
    def bags(self) -> frozenset[int]:
        """Numbers of the bags in it."""
        return frozenset(number for number, count in enumerate(self.scoops) if count)

    @property
    def plainness(self) -> tuple[int, int, Scoops]:
        """What settles a tie: fewer bags, fewer scoops, then more of the bags listed first."""
        return len(self.bags), sum(self.scoops), tuple(-count for count in self.scoops)

    @property
    def by_cost(self) -> tuple[Fraction, Fraction, tuple[int, int, Scoops]]:
        """Order of cheapness; a tie goes to the closer, then to the plainer recipe."""
        return self.cost, self.distance, self.plainness

    @property
    def by_distance(self) -> tuple[Fraction, Fraction, tuple[int, int, Scoops]]:
        """Order of closeness; a tie goes to the cheaper, then to the plainer recipe."""
        return self.distance, self.cost, self.plainness


def total(per_scoop: Sequence[Fraction], scoops: Scoops) -> Fraction:
    """The sum of a figure over a recipe.

    >>> total((Fraction(1, 2), Fraction(2)), (3, 1))
    Fraction(7, 2)
    """
    used = [(figure, count) for figure, count in zip(per_scoop, scoops, strict=True) if count]
    below = lcm(*(figure.denominator for figure, _ in used))
    above = sum(figure.numerator * (below // figure.denominator) * count for figure, count in used)
    return Fraction(above, below)


def lowest_terms(scoops: Scoops) -> Scoops:
    """The same recipe in the fewest scoops.

    >>> lowest_terms((4, 0, 6))
    (2, 0, 3)
    """
    common = gcd(*scoops) or 1
    return tuple(count // common for count in scoops)


def weigh(problem: ScoopProblem, recipes: Iterable[Scoops]) -> list[Weighed]:
    """The allowed ones among these recipes, each once, in lowest terms, weighed exactly."""
    scales = _Scales(problem)
    different = dict.fromkeys(map(lowest_terms, recipes))
    return [weighed for scoops in different if (weighed := scales.weighed(scoops))]


class _Scales:
    """A problem in whole numbers, which add up faster than fractions: for many recipes at once.

    `factors` hold what turns the quotients of these numbers into cost and distance.
    """

    def __init__(self, problem: ScoopProblem) -> None:
        self.problem = problem
        self.demands = [_in_whole(demand.per_scoop)[0] for demand in problem.demands]
        self.cost, cost_scale = _in_whole(problem.cost)
        self.cost_per, per_scale = _in_whole(problem.cost_per)
        flat, miss_scale = _in_whole([miss for row in problem.misses for miss in row])
        bags = len(problem.bags)
        self.misses = [flat[at : at + bags] for at in range(0, len(flat), bags)]
        self.miss_per, miss_per_scale = _in_whole(problem.miss_per)
        self.factors = Fraction(per_scale, cost_scale), Fraction(miss_per_scale, miss_scale)

    def weighed(self, scoops: Scoops) -> Weighed | None:
        """A recipe with its cost and distance; None where it is not allowed."""
        used = [(at, count) for at, count in enumerate(scoops) if count]

        def total_of(figures: Sequence[int]) -> int:
            return sum(figures[at] * count for at, count in used)

        paid, per = total_of(self.cost_per), total_of(self.miss_per)
        if not self.problem.is_within(scoops) or paid <= 0 or per <= 0:
            return None
        if any(total_of(demand) > 0 for demand in self.demands):
            return None
        cost, distance = self.factors
        most = max((abs(total_of(miss)) for miss in self.misses), default=0)
        return Weighed(
            scoops=scoops,
            cost=cost * Fraction(total_of(self.cost), paid),
            distance=distance * Fraction(most, per),
        )


def _in_whole(figures: Sequence[Fraction]) -> tuple[list[int], int]:
    """Figures multiplied by one number, so that all are whole, and that number."""
    scale = lcm(*(figure.denominator for figure in figures))
    return [int(figure * scale) for figure in figures], scale


def undominated(recipes: Iterable[Weighed]) -> list[Weighed]:
    """The recipes no other beats in both cost and distance, the cheapest first.

    Of recipes alike in both only the plainest stays.
    """
    front: list[Weighed] = []
    for recipe in sorted(recipes, key=lambda one: one.by_cost):
        if not front or recipe.distance < front[-1].distance:
            front.append(recipe)
    return front


def truly_different(recipes: Iterable[Weighed], most: int) -> list[Weighed]:
    """The first recipes of an ordered list of which none holds all the bags of another."""
    chosen: list[Weighed] = []
    for recipe in recipes:
        if len(chosen) == most:
            break
        if not any(one.bags <= recipe.bags or recipe.bags <= one.bags for one in chosen):
            chosen.append(recipe)
    return chosen


def whole_numbers(figures: Sequence[Fraction]) -> tuple[int, ...]:
    """Figures multiplied by one positive factor, so that all are whole and as small as can be.

    >>> whole_numbers((Fraction(1, 2), Fraction(-3, 4)))
    (2, -3)
    """
    scale = lcm(*(figure.denominator for figure in figures))
    numbers = [int(figure * scale) for figure in figures]
    common = gcd(*numbers) or 1
    return tuple(number // common for number in numbers)
