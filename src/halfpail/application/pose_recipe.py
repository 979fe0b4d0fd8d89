"""From a wish for a recipe to the exact problem in scoops."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from halfpail.blending.families import (
    grade_band,
    misses_of_grade,
    misses_of_ratio,
    ratio_least,
    ratio_most,
)
from halfpail.blending.scoops import Demand, ScoopProblem
from halfpail.domain.matter import Nutrient
from halfpail.domain.recipe import GradeTarget, PerNitrogen, RatioTarget, RecipeWish
from halfpail.domain.stock import Bag
from halfpail.findings import Fault, Notice, Refusal, Severity

MOST_BAGS = 60
MOST_SCOOPS = 60

Figures = tuple[Fraction, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PosedRecipe:
    """The problem, the bags in its order, and what was left out on the way."""

    wish: RecipeWish
    problem: ScoopProblem
    bags: tuple[Bag, ...]
    notices: tuple[Notice, ...]


def pose_recipe(wish: RecipeWish) -> PosedRecipe:
    """The wish as demands, cost and distance per scoop.

    Bags to avoid, bags that cannot be had, bags without a price, and bags that are the same as
    an earlier one in every number, are left out; the last two are told.

    Raises:
        Refusal: the wish contradicts itself, or leaves no bag.
    """
    faults = [*_faults(wish)]
    if faults:
        raise Refusal(*faults)
    bags, notices = _usable_bags(wish)
    if not bags:
        raise Refusal(
            Fault(
                place="bags",
                read=", ".join(bag.name for bag in wish.bags),
                sentence="no bag is left to mix from",
                remedy="Name at least one bag with a price (0 if it is free) not to be avoided.",
            )
        )
    return PosedRecipe(wish=wish, problem=_problem(wish, bags), bags=bags, notices=notices)


def nutrients_of(wish: RecipeWish) -> tuple[str, ...]:
    """The nutrients a wish names, in the order of a label."""
    target = wish.target
    named = (
        {*target.percent, *target.tolerance}
        if isinstance(target, GradeTarget)
        else {*target.low, *target.aim, *target.high}
    )
    return tuple(nutrient.value for nutrient in Nutrient if nutrient in named)


def only_off_in(posed: PosedRecipe, nutrient: str, middle: Fraction) -> ScoopProblem:
    """The problem without one nutrient's limits, its distance being that nutrient's alone.

    `middle` is the number it is counted from [percent, or kg per kg N].
    """
    problem, scoop_l = posed.problem, posed.wish.scoop_l
    if isinstance(posed.wish.target, GradeTarget):
        share = tuple(bag.label.analysis.of(Nutrient(nutrient)) for bag in posed.bags)
        misses = misses_of_grade(middle, share, problem.miss_per)
    else:
        mass = tuple(bag.scoop_kg(scoop_l) for bag in posed.bags)
        content = _content(Nutrient(nutrient), posed.bags, mass)
        misses = misses_of_ratio(middle, content, problem.miss_per)
    others = tuple(demand for demand in problem.demands if demand.nutrient != nutrient)
    return replace(problem, demands=others, misses=(misses,))


def _problem(wish: RecipeWish, bags: tuple[Bag, ...]) -> ScoopProblem:
    mass = tuple(bag.scoop_kg(wish.scoop_l) for bag in bags)
    cost = tuple(_price(bag, wish) * m for bag, m in zip(bags, mass, strict=True))
    if isinstance(wish.target, GradeTarget):
        demands, misses = _of_grade(wish.target, bags, mass)
        cost_per = miss_per = mass
    else:
        cost_per = tuple(bag.usable_n.typical * m for bag, m in zip(bags, mass, strict=True))
        miss_per = (
            cost_per if wish.target.per is PerNitrogen.USABLE else _content(Nutrient.N, bags, mass)
        )
        demands, misses = _of_ratio(wish.target, bags, mass, miss_per)
    keys = tuple(bag.key for bag in bags)
    return ScoopProblem(
        bags=keys,
        demands=demands,
        cost=cost,
        cost_per=cost_per,
        misses=misses,
        miss_per=miss_per,
        most_scoops=wish.most_scoops,
        most_bags=wish.most_bags,
        apart=frozenset(pair for pair in wish.apart if pair <= set(keys)),
    )


def _of_grade(
    target: GradeTarget, bags: tuple[Bag, ...], mass: Figures
) -> tuple[tuple[Demand, ...], tuple[Figures, ...]]:
    demands: list[Demand] = []
    misses: list[Figures] = []
    for nutrient, percent in target.percent.items():
        share = tuple(bag.label.analysis.of(Nutrient(nutrient)) for bag in bags)
        misses.append(misses_of_grade(percent, share, mass))
        if nutrient in target.tolerance:
            demands += grade_band(nutrient, percent, target.tolerance[nutrient], share, mass)
    return tuple(demands), tuple(misses)


def _of_ratio(
    target: RatioTarget, bags: tuple[Bag, ...], mass: Figures, nitrogen: Figures
) -> tuple[tuple[Demand, ...], tuple[Figures, ...]]:
    def content(nutrient: str) -> Figures:
        return _content(Nutrient(nutrient), bags, mass)

    least = (ratio_least(n, low, content(n), nitrogen) for n, low in target.low.items())
    most = (ratio_most(n, high, content(n), nitrogen) for n, high in target.high.items())
    misses = (misses_of_ratio(aim, content(n), nitrogen) for n, aim in target.aim.items())
    return (*least, *most), tuple(misses)


def _content(nutrient: Nutrient, bags: tuple[Bag, ...], mass: Figures) -> Figures:
    return tuple(bag.label.analysis.of(nutrient) * m for bag, m in zip(bags, mass, strict=True))


def _price(bag: Bag, wish: RecipeWish) -> Fraction:
    """Money per kg; what only lies in the shed may be free. A bag without a price is left out."""
    if wish.shed_is_free and bag.shed_kg and (bag.offered == 0 or bag.price_per_kg is None):
        return Fraction(0)
    price = bag.price_per_kg
    assert price is not None
    return price


def _usable_bags(wish: RecipeWish) -> tuple[tuple[Bag, ...], tuple[Notice, ...]]:
    kept: dict[tuple[object, ...], Bag] = {}
    notices: list[Notice] = []
    for bag in wish.bags:
        if bag.avoid or bag.key in wish.avoid or (bag.offered == 0 and not bag.shed_kg):
            continue
        if bag.price_per_kg is None and not (wish.shed_is_free and bag.shed_kg):
            notices.append(_note(f"{bag.name} has no price and is left out; 0 means free."))
            continue
        twin = kept.setdefault(_make_up(bag, wish), bag)
        if twin is not bag:
            notices.append(
                _note(f"{bag.name} is the same as {twin.name} in every number; either will do.")
            )
    return tuple(kept.values()), tuple(notices)


def _make_up(bag: Bag, wish: RecipeWish) -> tuple[object, ...]:
    """All that a recipe can tell a bag by."""
    contents = tuple(bag.label.analysis.of(Nutrient(nutrient)) for nutrient in Nutrient)
    kept_from = frozenset(pair - {bag.key} for pair in wish.apart if bag.key in pair)
    scoop = bag.density.typical
    return (_price(bag, wish), contents, bag.usable_n.typical, scoop, kept_from)


def _note(sentence: str) -> Notice:
    return Notice(severity=Severity.NOTE, sentence=sentence)


def _faults(wish: RecipeWish) -> Iterator[Fault]:
    yield from _limit_faults(wish)
    yield from _bag_faults(wish)
    target = wish.target
    wished = target.percent if isinstance(target, GradeTarget) else target.aim
    if not wished:
        yield Fault(
            place="wish",
            read="",
            sentence="the wish names no nutrient to aim at",
            remedy="Name at least one, as in 4-4-4, 3-1-2 or a purpose.",
        )
    if isinstance(target, GradeTarget):
        yield from _grade_faults(target)
    else:
        yield from _ratio_faults(target)


def _limit_faults(wish: RecipeWish) -> Iterator[Fault]:
    for place, value, most in (
        ("most scoops", wish.most_scoops, MOST_SCOOPS),
        ("most bags", wish.most_bags, MOST_BAGS),
        ("number of bags", len(wish.bags), MOST_BAGS),
    ):
        if not 1 <= value <= most:
            yield Fault(
                place=place,
                read=str(value),
                sentence=f"must be between 1 and {most}",
                remedy=f"Give a whole number from 1 to {most}.",
            )


def _bag_faults(wish: RecipeWish) -> Iterator[Fault]:
    keys = [bag.key for bag in wish.bags]
    for key in sorted({key for key in keys if keys.count(key) > 1}):
        yield Fault(
            place="bags",
            read=key,
            sentence="two bags go by this name",
            remedy="Give each bag its own name.",
        )
    for pair in sorted(map(sorted, wish.apart)):
        if len(pair) != 2:
            yield Fault(
                place="bags to keep apart",
                read=", ".join(pair),
                sentence="a pair is two different bags",
                remedy="Name two bags that may not share a mix.",
            )
    for key in sorted(wish.avoid - set(keys)):
        yield Fault(
            place="bags to avoid",
            read=key,
            sentence="there is no such bag",
            remedy=f"The bags are {', '.join(keys)}.",
        )


def _grade_faults(target: GradeTarget) -> Iterator[Fault]:
    for nutrient in sorted(set(target.tolerance) - set(target.percent)):
        yield _odd(nutrient, "", "has a tolerance but no wished number")
    for nutrient, percent in target.percent.items():
        if not 0 <= percent <= 100:
            yield _odd(nutrient, str(percent), "must be between 0 and 100 %")
        if target.tolerance.get(nutrient, Fraction(0)) < 0:
            yield _odd(nutrient, str(target.tolerance[nutrient]), "a tolerance is not below 0")
    total = sum(target.percent.values(), Fraction(0))
    if total > 100:
        yield _odd("grade", str(float(total)), "the numbers add up to more than 100 %")


def _ratio_faults(target: RatioTarget) -> Iterator[Fault]:
    for nutrient in sorted({*target.low, *target.aim, *target.high}):
        sides = (target.low, target.aim, target.high)
        given = [side[nutrient] for side in sides if nutrient in side]
        if min(given) < 0 or given != sorted(given):
            read = ", ".join(str(float(side)) for side in given)
            yield _odd(nutrient, read, "low, aim and high must rise, from 0 or more")


def _odd(place: str, read: str, sentence: str) -> Fault:
    return Fault(place=place, read=read, sentence=sentence, remedy="Correct the wished numbers.")
