"""A plan in whole measures as a solver gave it, and the exact sums that make it a plan."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from halfpail.domain.season import Feeding, Ingredient, Limit, SeasonPlan, SeasonProblem, Stir
from halfpail.engine.recipes import Recipe


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """Measures by (mix, plot) and by (bag, plot); all by number."""

    recipes: tuple[Recipe, ...]
    mixed: Mapping[tuple[int, int], int]
    straight: Mapping[tuple[int, int], int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """A draft in exact sums; `broken` are the hard limits it breaks."""

    stirs: tuple[Stir, ...]
    feedings: tuple[Feeding, ...]
    purchases: Mapping[str, int]
    money: Fraction
    missed: Fraction
    broken: tuple[Limit, ...]

    @property
    def value(self) -> Fraction:
        """Money plus the weight of what is missed."""
        return self.money + self.missed


def settled(plan: SeasonPlan) -> Settled:
    """A plan that was answered before, as one of this search's own."""
    return Settled(
        stirs=plan.stirs,
        feedings=plan.feedings,
        purchases=plan.purchases,
        money=plan.money,
        missed=plan.missed,
        broken=(),
    )


def settle(problem: SeasonProblem, draft: Draft) -> Settled | None:
    """Fewest rounds and cheapest whole bags for a draft; None when there is not enough."""
    recipes, numbers = _used_recipes(draft)
    feedings = [
        Feeding(plot=problem.plots[b].key, of=numbers[r], measures=n)
        for (r, b), n in sorted(draft.mixed.items())
        if n > 0
    ] + [
        Feeding(plot=problem.plots[b].key, of=problem.ingredients[i].key, measures=n)
        for (i, b), n in sorted(draft.straight.items())
        if n > 0
    ]
    rounds = [
        ceil(sum(f.measures for f in feedings if f.of == number) * problem.measure / sum(recipe))
        for number, recipe in enumerate(recipes)
    ]
    used = _used(problem, recipes, rounds, feedings)
    bought = [_cheapest(bag, kg) for bag, kg in zip(problem.ingredients, used, strict=True)]
    if any(answer is None for answer in bought):
        return None
    counts = [answer[0] for answer in bought if answer]
    spent = sum(
        (n * bag.price for n, bag in zip(counts, problem.ingredients, strict=True)), Fraction(0)
    )
    if problem.budget is not None and spent > problem.budget:
        return None
    missed, broken = _limits(problem, recipes, feedings)
    return Settled(
        stirs=tuple(
            Stir(
                scoops={
                    bag.key: n for bag, n in zip(problem.ingredients, recipe, strict=True) if n
                },
                rounds=times,
            )
            for recipe, times in zip(recipes, rounds, strict=True)
        ),
        feedings=tuple(feedings),
        purchases={bag.key: n for bag, n in zip(problem.ingredients, counts, strict=True) if n > 0},
        money=sum((answer[1] for answer in bought if answer), Fraction(0)),
        missed=missed,
        broken=broken,
    )


def _used_recipes(draft: Draft) -> tuple[list[Recipe], dict[int, int]]:
    """The recipes somebody gets, and their new numbers."""
    numbers: dict[int, int] = {}
    for (r, _), n in sorted(draft.mixed.items()):
        if n > 0:
            numbers.setdefault(r, len(numbers))
    return [draft.recipes[r] for r in numbers], numbers


def _used(
    problem: SeasonProblem, recipes: list[Recipe], rounds: list[int], feedings: list[Feeding]
) -> list[Fraction]:
    """Kilograms of each bag: all that is stirred, and what goes straight onto beds."""
    used = []
    for i, bag in enumerate(problem.ingredients):
        scoops = Fraction(
            sum(recipe[i] * times for recipe, times in zip(recipes, rounds, strict=True))
        )
        scoops += problem.measure * sum(f.measures for f in feedings if f.of == bag.key)
        used.append(scoops * bag.scoop_kg)
    return used


def _cheapest(bag: Ingredient, used_kg: Fraction) -> tuple[int, Fraction] | None:
    """How many bags to buy beside the shed at least money; None when too few are offered."""
    fewest = max(0, ceil((used_kg - bag.shed_kg) / bag.bag_kg))
    most = min(bag.offered, max(fewest, ceil(used_kg / bag.bag_kg)))
    choices = [
        (n * bag.price + max(Fraction(0), used_kg - n * bag.bag_kg) * bag.shed_price_per_kg, n)
        for n in range(fewest, most + 1)
    ]
    if not choices:
        return None
    money, count = min(choices)
    return count, money


def _limits(
    problem: SeasonProblem, recipes: list[Recipe], feedings: list[Feeding]
) -> tuple[Fraction, tuple[Limit, ...]]:
    """The weight of the priced limits missed, and the hard limits broken."""
    given: dict[str, list[Fraction]] = {
        plot.key: [Fraction(0)] * len(problem.ingredients) for plot in problem.plots
    }
    keys = [bag.key for bag in problem.ingredients]
    for feeding in feedings:
        scoops = feeding.measures * problem.measure
        if isinstance(feeding.of, str):
            given[feeding.plot][keys.index(feeding.of)] += scoops
            continue
        recipe = recipes[feeding.of]
        for i, n in enumerate(recipe):
            given[feeding.plot][i] += scoops * Fraction(n, sum(recipe))
    missed, broken = Fraction(0), []
    for limit in problem.limits:
        got = sum(
            (
                scoops * bag.scoop_kg * bag.contents.get(limit.content, 0)
                for scoops, bag in zip(given[limit.plot], problem.ingredients, strict=True)
                if scoops
            ),
            Fraction(0),
        )
        miss = max(
            Fraction(0) if limit.at_least is None else limit.at_least - got,
            Fraction(0) if limit.at_most is None else got - limit.at_most,
            Fraction(0),
        )
        if miss and limit.price_per_kg is None:
            broken.append(limit)
        elif miss and limit.price_per_kg is not None:
            missed += miss * limit.price_per_kg
    return missed, tuple(broken)
