"""Why no plan meets a season's needs, and the smallest changes that would do, each tried out."""

from collections.abc import Callable, Iterator, Mapping
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import islice
from math import ceil

from halfpail.application.plan_season import GOOD_ENOUGH
from halfpail.application.ports import SeasonEffort, SeasonEngine
from halfpail.application.season_in_the_way import SeasonWords, hints_of, in_the_way
from halfpail.blending.ports import Solver
from halfpail.domain.bed import Content
from halfpail.domain.season import (
    Ingredient,
    Limit,
    SeasonPlan,
    SeasonProblem,
    Unmet,
)
from halfpail.domain.season_check import check_season
from halfpail.quantities.rounding import down_to

NONE = Fraction(0)
GRAM = Fraction(1, 1000)
MOST_REPAIRS = 3
MOST_MORE_MIXES = 2
MANY_BAGS = 40
SOUGHT_SHARE = Fraction(1, 10)
# A need that may give is weighed this many times heavier than anything else in the season.
_HEAVIER = 20
_NITROGEN = (Content.N_LOW, Content.N_TYPICAL, Content.N_HIGH, Content.N_LABEL)
_PRIMARY = (Content.N_LABEL, Content.P2O5_TOTAL, Content.K2O)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonRepair:
    """One change, said in words, and the plan that it makes possible.

    `problem` is the season with the change made; `plan` has been checked against it exactly.
    """

    sentence: str
    problem: SeasonProblem = field(repr=False)
    plan: SeasonPlan = field(repr=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mending:
    """What is in the way of a season, and what would help.

    `hints` need no search to see. `in_the_way` cannot all hold together, though without any one
    of them the others could. Of the repairs any single one does.
    """

    hints: tuple[str, ...]
    in_the_way: tuple[str, ...]
    repairs: tuple[SeasonRepair, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What a mending works with: an engine, a solver, how far to go, and how to say it."""

    engine: SeasonEngine
    solver: Solver
    words: SeasonWords
    effort: SeasonEffort = GOOD_ENOUGH


def mend_season(problem: SeasonProblem, unmet: Unmet, bench: Bench) -> Mending:
    """Why no plan keeps every hard limit of a season, and up to three repairs.

    `unmet` is what the engine answered to the season. A most is never offered to be passed: it is
    there to do no harm. A repair is told only with a plan that keeps the changed season exactly.
    """
    rows = in_the_way(problem, bench.solver, bench.words)
    wanted = {limit.content for limit in rows.limits if limit.at_least is not None}
    changes = _of_the_whole(problem, bench) if not rows.sentences else _of_supply(problem, bench)
    sought = (one for content in sorted(wanted) for one in _bag_sought(problem, content, bench))
    tried = [*islice(changes, MOST_REPAIRS - 1)]
    tried += islice(sought, MOST_REPAIRS - 1 - len(tried))
    return Mending(
        hints=tuple(hints_of(problem, bench.words)),
        in_the_way=rows.sentences or (_too_few(problem, unmet),),
        repairs=(*tried, *_less_asked(problem, bench)),
    )


def _too_few(problem: SeasonProblem, unmet: Unmet) -> str:
    mixes = "one mix" if problem.mixes == 1 else f"{problem.mixes} mixes"
    found = "" if unmet.proven else ", as far as was searched"
    return (
        f"only {mixes} in whole scoops{found}: with a mix of its own for every bed, in any "
        "amounts, the needs could be met"
    )


def _of_the_whole(problem: SeasonProblem, bench: Bench) -> Iterator[SeasonRepair]:
    """Changes that make room for more and other mixes."""
    for more in range(1, MOST_MORE_MIXES + 1):
        mixes = problem.mixes + more
        found = [*_tried(replace(problem, mixes=mixes), f"Stir {mixes} mixes.", bench)]
        yield from found
        if found:
            break
    yield from _straight(problem, bench)
    roomy = replace(problem, most_scoops=2 * problem.most_scoops, most_bags=problem.most_bags + 2)
    sentence = f"Allow {roomy.most_scoops} scoops and {roomy.most_bags} bags in a round of a mix."
    yield from _tried(roomy, sentence, bench)


def _straight(problem: SeasonProblem, bench: Bench) -> Iterator[SeasonRepair]:
    """Single-nutrient bags onto beds by themselves: as few of them as do as well as all."""
    keys = {bag.key for bag in problem.ingredients if not bag.may_go_straight and _is_single(bag)}
    plan = bench.engine.solve(_straight_too(problem, keys), bench.effort) if keys else None
    if isinstance(plan, SeasonPlan):
        used = {each.of for each in plan.feedings if isinstance(each.of, str)} & keys
        for key in sorted(used) if len(used) > 1 else ():
            fewer = bench.engine.solve(_straight_too(problem, used - {key}), bench.effort)
            if isinstance(fewer, SeasonPlan) and fewer.value <= plan.value:
                used, plan = used - {key}, fewer
        sentence = f"Give {', '.join(sorted(used))} straight to the beds."
        yield from _tried(_straight_too(problem, used), sentence, bench, plan)


def _straight_too(problem: SeasonProblem, keys: AbstractSet[str]) -> SeasonProblem:
    """The season with these bags allowed onto beds by themselves."""
    return _with_bags(
        problem,
        lambda bag: replace(bag, may_go_straight=bag.may_go_straight or bag.key in keys),
    )


def _is_single(bag: Ingredient) -> bool:
    return sum(1 for content in _PRIMARY if bag.contents.get(content)) == 1


def _of_supply(problem: SeasonProblem, bench: Bench) -> Iterator[SeasonRepair]:
    """A higher budget, or more bags of a kind that is on offer."""
    if problem.budget is not None:
        least = replace(
            problem,
            budget=None,
            limits=tuple(limit for limit in problem.limits if limit.price_per_kg is None),
        )
        plan = bench.engine.solve(least, bench.effort)
        if isinstance(plan, SeasonPlan):
            budget = Fraction(ceil(_spent(problem, plan)))
            sentence = f"Raise the budget to {bench.words.money(budget)}."
            yield from _tried(replace(problem, budget=budget), sentence, bench, plan)
    plenty = _with_bags(problem, lambda bag: replace(bag, offered=MANY_BAGS if bag.offered else 0))
    plan = bench.engine.solve(plenty, bench.effort)
    if isinstance(plan, SeasonPlan):
        more = {
            bag.key: plan.purchases.get(bag.key, 0) - bag.offered
            for bag in problem.ingredients
            if plan.purchases.get(bag.key, 0) > bag.offered
        }
        names = " and ".join(f"{count} more of {key}" for key, count in more.items())
        found = _with_bags(
            problem, lambda bag: replace(bag, offered=bag.offered + more.get(bag.key, 0))
        )
        yield from _tried(found, f"Find {names}.", bench, plan)


def _bag_sought(problem: SeasonProblem, content: Content, bench: Bench) -> Iterator[SeasonRepair]:
    """A bag that holds this and nothing else that is counted; its price is not counted in."""
    held = _NITROGEN if content in _NITROGEN else (content,)
    scoops = sorted(bag.scoop_kg for bag in problem.ingredients)
    what = "N" if content in _NITROGEN else content.value
    if not scoops:
        return
    bag = Ingredient(
        key=f"a bag with {what}",
        contents=dict.fromkeys(held, SOUGHT_SHARE),
        scoop_kg=scoops[len(scoops) // 2],
        bag_kg=scoops[len(scoops) // 2],
        price=NONE,
        offered=10 * MANY_BAGS,
        may_go_straight=True,
    )
    wider = replace(problem, ingredients=(*problem.ingredients, bag))
    plan = bench.engine.solve(wider, bench.effort)
    if isinstance(plan, SeasonPlan):
        used_kg = check_season(wider, plan).used_kg[bag.key]
        mass = bench.words.mass(used_kg * SOUGHT_SHARE)
        sentence = (
            f"Look for a bag that holds {what} and next to nothing else: {mass} of {what} would "
            "do, its price not counted in."
        )
        yield from _tried(wider, sentence, bench, plan)


def _less_asked(problem: SeasonProblem, bench: Bench) -> Iterator[SeasonRepair]:
    """Ask for less: hard needs may give, at a weight above all else, and give what they must."""
    weight = _HEAVIER * max(
        (limit.price_per_kg for limit in problem.limits if limit.price_per_kg is not None),
        default=Fraction(1),
    )
    dearest = max((bag.price / bag.bag_kg for bag in problem.ingredients), default=Fraction(1))
    soft = replace(
        problem,
        limits=tuple(
            replace(limit, price_per_kg=max(weight, 100 * _HEAVIER * dearest))
            if _is_hard_need(limit)
            else limit
            for limit in problem.limits
        ),
    )
    plan = bench.engine.solve(soft, bench.effort)
    if isinstance(plan, Unmet):
        return
    received = check_season(soft, plan).received
    gives = {
        limit: received.get((limit.plot, limit.content), NONE)
        for limit in problem.limits
        if _is_hard_need(limit)
        and received.get((limit.plot, limit.content), NONE) < (limit.at_least or NONE)
    }
    eased = replace(
        problem,
        limits=tuple(
            replace(limit, at_least=down_to(gives[limit], GRAM)) if limit in gives else limit
            for limit in problem.limits
        ),
    )
    yield from _tried(eased, _asked_words(gives, bench.words), bench, plan)


def _asked_words(gives: Mapping[Limit, Fraction], words: SeasonWords) -> str:
    parts = []
    for content in dict.fromkeys(limit.content for limit in gives):
        of_it = [limit for limit in gives if limit.content is content]
        less_kg = sum(((one.at_least or NONE) - down_to(gives[one], GRAM) for one in of_it), NONE)
        beds = ", ".join(limit.plot for limit in of_it)
        parts.append(f"{words.mass(less_kg)} less {content} ({beds})")
    return f"Ask for {'; '.join(parts)}."


def _is_hard_need(limit: Limit) -> bool:
    return limit.price_per_kg is None and bool(limit.at_least)


def _tried(
    problem: SeasonProblem, sentence: str, bench: Bench, known: SeasonPlan | None = None
) -> Iterator[SeasonRepair]:
    """The repair, if a plan keeps the changed season: one found for it, or one known already."""
    plans = [bench.engine.solve(problem, bench.effort)]
    if known is not None:
        plans.append(_recounted(problem, known))
    kept = [
        plan
        for plan in plans
        if isinstance(plan, SeasonPlan) and not check_season(problem, plan).breaches
    ]
    if kept:
        best = min(kept, key=lambda plan: plan.value)
        yield SeasonRepair(sentence=sentence, problem=problem, plan=best)


def _recounted(problem: SeasonProblem, plan: SeasonPlan) -> SeasonPlan:
    """A plan of another season with its money and misses in this one; nothing is proven of it."""
    check = check_season(problem, plan)
    return replace(
        plan, money=check.money, missed=check.missed, bound=NONE, proven_by="nothing yet"
    )


def _with_bags(problem: SeasonProblem, change: Callable[[Ingredient], Ingredient]) -> SeasonProblem:
    return replace(problem, ingredients=tuple(map(change, problem.ingredients)))


def _spent(problem: SeasonProblem, plan: SeasonPlan) -> Fraction:
    prices = {bag.key: bag.price for bag in problem.ingredients}
    return sum((prices[key] * count for key, count in plan.purchases.items()), NONE)
