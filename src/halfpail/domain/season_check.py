"""Look over a season plan with exact sums: every hard limit, every bag, every coin.

Written apart from whatever made the plan, so that a slip there cannot hide here.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import combinations

from halfpail.domain.bed import Content
from halfpail.domain.season import (
    Feeding,
    Ingredient,
    Limit,
    SeasonPlan,
    SeasonProblem,
    Stir,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Breach:
    """Something a plan must not do: where, and what is wrong."""

    place: str
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonCheck:
    """What a plan really does: breaches, money, missed, and each bag's use [kg].

    `received` is what each bed gets of each content [kg].
    """

    breaches: tuple[Breach, ...]
    money: Fraction
    missed: Fraction
    used_kg: Mapping[str, Fraction] = field(hash=False)
    received: Mapping[tuple[str, Content], Fraction] = field(hash=False)


def check_season(problem: SeasonProblem, plan: SeasonPlan) -> SeasonCheck:
    """Recompute a plan [kg, money] from its scoops and list every rule it breaks.

    Money and missed that differ from what the plan says are breaches too.

    >>> from halfpail.domain.bed import Content
    >>> from halfpail.domain.season import Plot, Stir
    >>> meal = Ingredient(key="meal", contents={Content.N_LABEL: Fraction(1, 20)},
    ...     scoop_kg=Fraction(1), bag_kg=Fraction(5), price=Fraction(8), offered=1)
    >>> need = Limit(plot="east", content=Content.N_LABEL, at_least=Fraction(1, 10))
    >>> problem = SeasonProblem(ingredients=(meal,), plots=(Plot(key="east"),), limits=(need,),
    ...     mixes=1, most_scoops=4, most_bags=2)
    >>> plan = SeasonPlan(stirs=(Stir(scoops={"meal": 1}, rounds=2),),
    ...     feedings=(Feeding(plot="east", of=0, measures=7),), purchases={"meal": 1},
    ...     money=Fraction(8), missed=Fraction(0), bound=Fraction(8), proven_by="hand")
    >>> [breach.sentence for breach in check_season(problem, plan).breaches]
    ['gets 7/80 kg of label N, at least 1/10 kg must be given']
    """
    used_kg = _used_kg(problem, plan)
    received = _received(problem, plan)
    money = _money(problem, plan, used_kg)
    missed = sum(
        (
            _miss_kg(limit, received) * limit.price_per_kg
            for limit in problem.limits
            if limit.price_per_kg is not None
        ),
        Fraction(0),
    )
    breaches = (
        *_stir_breaches(problem, plan),
        *_feeding_breaches(problem, plan),
        *_bag_breaches(problem, plan, used_kg),
        *_limit_breaches(problem, received),
        *_figure_breaches(plan, money, missed),
    )
    return SeasonCheck(
        breaches=breaches, money=money, missed=missed, used_kg=used_kg, received=received
    )


def _by_key(problem: SeasonProblem) -> dict[str, Ingredient]:
    return {ingredient.key: ingredient for ingredient in problem.ingredients}


def _fed_kg(problem: SeasonProblem, plan: SeasonPlan, feeding: Feeding) -> dict[str, Fraction]:
    """Kilograms of each bag in one feeding, as the mix is by volume."""
    bags = _by_key(problem)
    scoops = feeding.measures * problem.measure
    if isinstance(feeding.of, str):
        return {feeding.of: scoops * bags[feeding.of].scoop_kg}
    recipe = plan.stirs[feeding.of].scoops
    total = sum(recipe.values())
    return {key: scoops * Fraction(n, total) * bags[key].scoop_kg for key, n in recipe.items()}


def _received(problem: SeasonProblem, plan: SeasonPlan) -> dict[tuple[str, Content], Fraction]:
    bags = _by_key(problem)
    got: defaultdict[tuple[str, Content], Fraction] = defaultdict(Fraction)
    for feeding in plan.feedings:
        for key, mass_kg in _fed_kg(problem, plan, feeding).items():
            for content, share in bags[key].contents.items():
                got[feeding.plot, content] += mass_kg * share
    return dict(got)


def _used_kg(problem: SeasonProblem, plan: SeasonPlan) -> dict[str, Fraction]:
    """Every stirred scoop counts as used, spread or left over; straight bags as spread."""
    bags = _by_key(problem)
    used = {key: Fraction(0) for key in bags}
    for stir in plan.stirs:
        for key, scoops in stir.scoops.items():
            used[key] += stir.rounds * scoops * bags[key].scoop_kg
    for feeding in plan.feedings:
        if isinstance(feeding.of, str):
            used[feeding.of] += feeding.measures * problem.measure * bags[feeding.of].scoop_kg
    return used


def _money(problem: SeasonProblem, plan: SeasonPlan, used_kg: Mapping[str, Fraction]) -> Fraction:
    total = Fraction(0)
    for ingredient in problem.ingredients:
        count = plan.purchases.get(ingredient.key, 0)
        from_shed = max(Fraction(0), used_kg[ingredient.key] - count * ingredient.bag_kg)
        total += count * ingredient.price + from_shed * ingredient.shed_price_per_kg
    return total


def _miss_kg(limit: Limit, received: Mapping[tuple[str, Content], Fraction]) -> Fraction:
    got = received.get((limit.plot, limit.content), Fraction(0))
    short = limit.at_least - got if limit.at_least is not None else Fraction(0)
    over = got - limit.at_most if limit.at_most is not None else Fraction(0)
    return max(short, over, Fraction(0))


def _limit_breaches(
    problem: SeasonProblem, received: Mapping[tuple[str, Content], Fraction]
) -> Iterator[Breach]:
    for limit in problem.limits:
        if limit.price_per_kg is None and _miss_kg(limit, received) > 0:
            got = received.get((limit.plot, limit.content), Fraction(0))
            short = limit.at_least is not None and got < limit.at_least
            wanted = (
                f"at least {limit.at_least} kg must be given"
                if short
                else f"at most {limit.at_most} kg may be given"
            )
            yield Breach(place=limit.plot, sentence=f"gets {got} kg of {limit.content}, {wanted}")


def _stir_breaches(problem: SeasonProblem, plan: SeasonPlan) -> Iterator[Breach]:
    bags = _by_key(problem)
    if len(plan.stirs) > problem.mixes:
        yield Breach(place="mixes", sentence=f"{len(plan.stirs)} mixes, {problem.mixes} allowed")
    for number, stir in enumerate(plan.stirs):
        place = f"mix {number + 1}"
        for sentence in _one_stir(problem, bags, stir):
            yield Breach(place=place, sentence=sentence)
        given = sum(f.measures for f in plan.feedings if f.of == number) * problem.measure
        stirred = stir.rounds * sum(stir.scoops.values())
        if given > stirred:
            yield Breach(place=place, sentence=f"{given} scoops given, {stirred} stirred")


def _one_stir(problem: SeasonProblem, bags: Mapping[str, Ingredient], stir: Stir) -> Iterator[str]:
    if stir.rounds < 1:
        yield "is not stirred at all"
    if any(scoops < 1 for scoops in stir.scoops.values()):
        yield "holds a bag with less than one scoop"
    if not 1 <= sum(stir.scoops.values()) <= problem.most_scoops:
        yield f"has {sum(stir.scoops.values())} scoops, {problem.most_scoops} allowed"
    if len(stir.scoops) > problem.most_bags:
        yield f"has {len(stir.scoops)} bags, {problem.most_bags} allowed"
    for key in stir.scoops:
        if not bags[key].may_mix:
            yield f"holds {key}, which may not be mixed"
    for pair in combinations(stir.scoops, 2):
        if frozenset(pair) in problem.apart:
            yield f"holds {pair[0]} with {pair[1]}, which must stay apart"


def _feeding_breaches(problem: SeasonProblem, plan: SeasonPlan) -> Iterator[Breach]:
    bags = _by_key(problem)
    plots = {plot.key: plot for plot in problem.plots}
    for (plot, of), times in Counter((f.plot, f.of) for f in plan.feedings).items():
        if times > 1:
            yield Breach(place=plot, sentence=f"is given {of} twice")
    for plot, count in Counter(f.plot for f in plan.feedings if isinstance(f.of, int)).items():
        if count > problem.mixes_per_plot:
            yield Breach(place=plot, sentence=f"is given {count} mixes")
    for feeding in plan.feedings:
        if feeding.measures < 1:
            yield Breach(place=feeding.plot, sentence="is given less than one measure")
        if isinstance(feeding.of, str) and not (
            plots[feeding.plot].straight_ok and bags[feeding.of].may_go_straight
        ):
            yield Breach(place=feeding.plot, sentence=f"may not be given {feeding.of} straight")


def _bag_breaches(
    problem: SeasonProblem, plan: SeasonPlan, used_kg: Mapping[str, Fraction]
) -> Iterator[Breach]:
    for ingredient in problem.ingredients:
        count = plan.purchases.get(ingredient.key, 0)
        if not 0 <= count <= ingredient.offered:
            yield Breach(
                place=ingredient.key, sentence=f"{count} bought, {ingredient.offered} offered"
            )
        there = count * ingredient.bag_kg + ingredient.shed_kg
        if used_kg[ingredient.key] > there:
            yield Breach(
                place=ingredient.key,
                sentence=f"{used_kg[ingredient.key]} kg used, {there} kg there",
            )
    spent = sum((plan.purchases.get(i.key, 0) * i.price for i in problem.ingredients), Fraction(0))
    if problem.budget is not None and spent > problem.budget:
        yield Breach(place="budget", sentence=f"{spent} spent, {problem.budget} allowed")


def _figure_breaches(plan: SeasonPlan, money: Fraction, missed: Fraction) -> Iterator[Breach]:
    if plan.money != money:
        yield Breach(place="money", sentence=f"{plan.money} said, {money} counted")
    if plan.missed != missed:
        yield Breach(place="missed", sentence=f"{plan.missed} said, {missed} counted")
    if plan.bound > money + missed:
        yield Breach(place="bound", sentence=f"{plan.bound} is above the value")
