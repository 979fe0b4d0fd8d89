"""A season as rows, one function per family of limits: the easiest season, and a plan held fixed.

The easiest season gives every bed a mix of its own in any amounts, out of whole bags. What cannot
be done there cannot be done with few mixes, and what it costs no few mixes beat. In a plan held
fixed only the amounts may move: its prices tell what a little more room would save.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from math import inf

from halfpail.blending.programme import Column, Programme, Row
from halfpail.domain.bed import Content
from halfpail.domain.season import Ingredient, Limit, Plot, SeasonPlan, SeasonProblem

Food = int | str
"""A mix by its number in the plan, or a bag by its key."""

BUDGET = "budget"


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonRows:
    """The programme, and where its columns and rows stand.

    `amounts` are columns [scoops] by food and bed, `bought` columns by bag, `supply` the rows of
    what there is, by food; `limits` are rows in the order of the problem's limits that were posed,
    each divided by its scale [kg].
    """

    programme: Programme
    amounts: Mapping[tuple[Food, str], int] = field(hash=False)
    bought: Mapping[str, int] = field(hash=False)
    supply: Mapping[Food, int] = field(hash=False)
    limits: tuple[tuple[Limit, int, float], ...]


def easiest_season(problem: SeasonProblem, *, priced: bool = True) -> SeasonRows:
    """Whole bags, and any amount of any bag for any bed that may have it, in a mix or straight.

    Without `priced` only the hard limits are posed.
    """
    foods: dict[Food, _Scoop] = {
        bag.key: _scoop_of({bag.key: Fraction(1)}, problem) for bag in _there(problem.ingredients)
    }
    reach: list[tuple[Food, str]] = [
        (bag.key, plot.key)
        for plot in problem.plots
        for bag in _there(problem.ingredients)
        if bag.may_mix or _straight(bag, plot)
    ]
    sheet = _Sheet(problem, foods)
    sheet.add_bags({bag.key: (0, bag.offered) for bag in problem.ingredients})
    sheet.add_amounts(reach)
    sheet.add_supply({})
    sheet.add_budget()
    sheet.add_limits(lambda limit: priced or limit.price_per_kg is None)
    return sheet.done()


def fixed_season(problem: SeasonProblem, plan: SeasonPlan) -> SeasonRows:
    """The plan with its recipes, rounds, whole bags, and mixes of each bed; only amounts move."""
    recipes = {
        number: {key: Fraction(n, sum(stir.scoops.values())) for key, n in stir.scoops.items()}
        for number, stir in enumerate(plan.stirs)
    }
    reach: list[tuple[Food, str]] = [
        (each.of, each.plot) for each in plan.feedings if isinstance(each.of, int)
    ]
    straight = [bag for bag in _there(problem.ingredients) if bag.may_go_straight]
    reach += [(bag.key, plot.key) for plot in problem.plots for bag in straight if plot.straight_ok]
    foods: dict[Food, _Scoop] = {n: _scoop_of(recipe, problem) for n, recipe in recipes.items()}
    foods |= {bag.key: _scoop_of({bag.key: Fraction(1)}, problem) for bag in straight}
    sheet = _Sheet(problem, foods)
    counts = {bag.key: plan.purchases.get(bag.key, 0) for bag in problem.ingredients}
    sheet.add_bags({key: (count, count) for key, count in counts.items()})
    sheet.add_amounts(reach)
    sheet.add_supply(_stirred_kg(problem, plan))
    sheet.add_stirred({n: s.rounds * sum(s.scoops.values()) for n, s in enumerate(plan.stirs)})
    sheet.add_limits(lambda limit: True)
    return sheet.done()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scoop:
    """One scoop of a food: what it weighs where it is a bag [kg], and what it holds [kg]."""

    mass_kg: Fraction
    holds: Mapping[Content, Fraction]


def _scoop_of(shares: Mapping[str, Fraction], problem: SeasonProblem) -> _Scoop:
    bags = {bag.key: bag for bag in problem.ingredients}
    holds: dict[Content, Fraction] = {}
    for key, share in shares.items():
        for content, part in bags[key].contents.items():
            mass_kg = share * bags[key].scoop_kg
            holds[content] = holds.get(content, Fraction(0)) + mass_kg * part
    mass_kg = sum((share * bags[key].scoop_kg for key, share in shares.items()), Fraction(0))
    return _Scoop(mass_kg=mass_kg, holds=holds)


def _there(bags: tuple[Ingredient, ...]) -> Iterator[Ingredient]:
    return (bag for bag in bags if bag.offered > 0 or bag.shed_kg > 0)


def _straight(bag: Ingredient, plot: Plot) -> bool:
    return bag.may_go_straight and plot.straight_ok


def _stirred_kg(problem: SeasonProblem, plan: SeasonPlan) -> dict[str, Fraction]:
    weights = {bag.key: bag.scoop_kg for bag in problem.ingredients}
    used: dict[str, Fraction] = {}
    for stir in plan.stirs:
        for key, scoops in stir.scoops.items():
            used[key] = used.get(key, Fraction(0)) + stir.rounds * scoops * weights[key]
    return used


class _Sheet:
    """Collects the columns and rows of a season."""

    def __init__(self, problem: SeasonProblem, foods: Mapping[Food, _Scoop]) -> None:
        self.problem, self.foods = problem, foods
        self.columns: list[Column] = []
        self.rows: list[Row] = []
        self.bought: dict[str, int] = {}
        self.shed: dict[str, int] = {}
        self.amounts: dict[tuple[Food, str], int] = {}
        self.supply: dict[Food, int] = {}
        self.limits: list[tuple[Limit, int, float]] = []

    def add_bags(self, counts: Mapping[str, tuple[int, int]]) -> None:
        """For each bag: whole bags bought, held to a range, and what the shed gives [kg]."""
        for bag in self.problem.ingredients:
            low, high = counts[bag.key]
            bags = Column(
                name=f"{bag.key} bought",
                low=low,
                high=high,
                cost=float(bag.price),
                whole=low < high,
            )
            self.bought[bag.key] = self._column(bags)
            shed = Column(
                name=f"{bag.key} from the shed",
                high=float(bag.shed_kg),
                cost=float(bag.shed_price_per_kg),
            )
            self.shed[bag.key] = self._column(shed)

    def add_amounts(self, reach: Iterable[tuple[Food, str]]) -> None:
        """For each food and bed: the amount given [scoops]."""
        for food, plot in reach:
            self.amounts[food, plot] = self._column(Column(name=f"{food} for {plot}"))

    def add_supply(self, stirred_kg: Mapping[str, Fraction]) -> None:
        """For each bag: stirred + sum(scoop * amount) <= bag weight * bought + shed [kg]."""
        for bag in self.problem.ingredients:
            terms = [
                (column, float(self.foods[food].mass_kg))
                for (food, _), column in self.amounts.items()
                if food == bag.key
            ]
            terms += [(self.bought[bag.key], -float(bag.bag_kg)), (self.shed[bag.key], -1.0)]
            self.supply[bag.key] = len(self.rows)
            self.rows.append(
                Row(
                    name=f"supply {bag.key}",
                    terms=tuple(terms),
                    at_most=-float(stirred_kg.get(bag.key, 0)),
                    because=bag.key,
                )
            )

    def add_stirred(self, scoops: Mapping[int, int]) -> None:
        """For each mix: sum(amount) <= scoops stirred."""
        for number, most in scoops.items():
            terms = [(c, 1.0) for (food, _), c in self.amounts.items() if food == number]
            self.supply[number] = len(self.rows)
            self.rows.append(Row(name=f"stirred {number}", terms=tuple(terms), at_most=most))

    def add_budget(self) -> None:
        """The budget: sum(price * bought) <= budget [money]."""
        if self.problem.budget is None:
            return
        terms = [(self.bought[bag.key], float(bag.price)) for bag in self.problem.ingredients]
        limit = float(self.problem.budget)
        self.rows.append(Row(name=BUDGET, terms=tuple(terms), at_most=limit, because=BUDGET))

    def add_limits(self, posed: Callable[[Limit], bool]) -> None:
        """For each limit: at least <= sum(holds * amount) + miss, or - miss <= at most [kg].

        Only a priced limit may be missed. A row is divided by the most a scoop holds.
        """
        for limit in filter(posed, self.problem.limits):
            held = {
                column: float(self.foods[food].holds.get(limit.content, 0))
                for (food, plot), column in self.amounts.items()
                if plot == limit.plot
            }
            scale = max(held.values(), default=0.0) or 1.0
            terms = [(column, kg / scale) for column, kg in held.items() if kg]
            at_least = -inf if limit.at_least is None else float(limit.at_least) / scale
            at_most = inf if limit.at_most is None else float(limit.at_most) / scale
            if limit.price_per_kg is not None:
                cost = float(limit.price_per_kg) * scale
                sides = ((1.0, at_least > -inf), (-1.0, at_most < inf))
                terms += [
                    (self._column(Column(name="missed", cost=cost)), sign)
                    for sign, is_posed in sides
                    if is_posed
                ]
            self.limits.append((limit, len(self.rows), scale))
            self.rows.append(
                Row(
                    name=f"limit {len(self.limits) - 1}",
                    terms=tuple(terms),
                    at_least=at_least,
                    at_most=at_most,
                    because=limit.because or str(limit.content),
                )
            )

    def done(self) -> SeasonRows:
        """The programme of all that was added."""
        return SeasonRows(
            programme=Programme(columns=tuple(self.columns), rows=tuple(self.rows)),
            amounts=self.amounts,
            bought=self.bought,
            supply=self.supply,
            limits=tuple(self.limits),
        )

    def _column(self, column: Column) -> int:
        self.columns.append(column)
        return len(self.columns) - 1
