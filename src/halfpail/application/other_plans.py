"""Truly different plans for nearly the same, and three named choices among them.

A plan is truly different if it does without some bag of the best one, or with fewer mixes. So each
bag of the best is left out in turn, and then one mix: the best of what is left is the best plan
without it, and among these is the best of all truly different plans.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from halfpail.application.compare_mixes import WayToFeed, way_of
from halfpail.application.plan_season import GOOD_ENOUGH, tell, with_mixes
from halfpail.application.ports import SeasonEffort, SeasonEngine
from halfpail.application.pose_season import pose_season
from halfpail.application.season_answer import SeasonAnswer
from halfpail.domain.garden import Garden
from halfpail.domain.season import SeasonPlan

NONE = Fraction(0)
# Our default, not published: nobody looks at a plan that is more than half as bad again.
WITHIN_SHARE = Fraction(1, 2)
BEST = "the best"


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherPlan:
    """A plan beside the best: how much worse it is, which bags it uses, and what it is best at.

    `worse_money` counts misses in. `named` tells what no other plan here does better.
    """

    figures: WayToFeed
    bags: tuple[str, ...]
    worse_money: Fraction
    named: tuple[str, ...]
    plan: SeasonPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherPlans:
    """The best plan and others within a sum of it, the best first [money]."""

    plans: tuple[OtherPlan, ...]
    within_money: Fraction

    @property
    def choices(self) -> tuple[OtherPlan, ...]:
        """Those that are best at something: at most three."""
        return tuple(plan for plan in self.plans if plan.named)


def other_plans(
    garden: Garden,
    answer: SeasonAnswer,
    engine: SeasonEngine,
    effort: SeasonEffort = GOOD_ENOUGH,
    within: Fraction | None = None,
) -> OtherPlans:
    """Plans without one or another bag of the best plan, as long as they are not much worse.

    Args:
        garden: the garden, with the number of mixes of the answer.
        answer: the best plan, told.
        engine: what solves the season.
        effort: how far to go for each bag left out.
        within: how much worse a plan may be, misses counted in [money]; a half of the best
            where nothing is said.
    """
    best = answer.plan
    room = best.value * WITHIN_SHARE if within is None else within
    found = {_make_up(best): (BEST, best)}
    for title, fewer in _with_less(garden, best):
        plan = engine.solve(pose_season(fewer), effort)
        if isinstance(plan, SeasonPlan) and plan.value <= best.value + room:
            known = found.get(_make_up(plan))
            if known is None or plan.value < known[1].value:
                found[_make_up(plan)] = (title, plan)
    plans = sorted(found.values(), key=lambda pair: (pair[1].value, pair[0]))
    others = [_told(garden, title, plan, best) for title, plan in plans]
    return OtherPlans(plans=tuple(_named(others)), within_money=room)


def _with_less(garden: Garden, best: SeasonPlan) -> Iterator[tuple[str, Garden]]:
    """The garden without one bag or one mix of the best plan, and how to call that."""
    names = {bag.key: bag.name for bag in garden.bags}
    for key in _bags_of(best):
        bags = tuple(bag for bag in garden.bags if bag.key != key)
        yield f"without {names[key]}", replace(garden, bags=bags)
    if len(best.stirs) > 1:
        yield "with one mix less", with_mixes(garden, len(best.stirs) - 1)


def _make_up(plan: SeasonPlan) -> tuple[object, ...]:
    """What tells plans apart: their bags, and how many mixes."""
    return (*_bags_of(plan), len(plan.stirs))


def _bags_of(plan: SeasonPlan) -> tuple[str, ...]:
    """The bags a plan uses, in their order."""
    mixed = {key for each in plan.stirs for key in each.scoops}
    return tuple(sorted(mixed | {each.of for each in plan.feedings if isinstance(each.of, str)}))


def _told(garden: Garden, title: str, plan: SeasonPlan, best: SeasonPlan) -> OtherPlan:
    names = {bag.key: bag.name for bag in garden.bags}
    mixes = len(plan.stirs)
    return OtherPlan(
        figures=way_of(title, mixes, tell(with_mixes(garden, max(1, mixes)), plan)),
        bags=tuple(names[key] for key in _bags_of(plan)),
        worse_money=plan.value - best.value,
        named=(),
        plan=plan,
    )


def _named(plans: list[OtherPlan]) -> Iterator[OtherPlan]:
    """Each plan with what it is best at; of equals the one that is better as a whole."""
    best_at = {
        "least money": min(plans, key=lambda one: one.figures.money or NONE),
        "least P2O5 to build up": min(plans, key=lambda one: one.figures.p2o5_over_removal_kg),
        "fewest bags and mixes": min(plans, key=lambda one: (len(one.bags), one.figures.to_stir)),
    }
    for plan in plans:
        names = tuple(name for name, one in best_at.items() if one is plan)
        yield replace(plan, named=names)
