"""One mix, one mix and straight nitrogen, two mixes, three: the season laid side by side."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import floor

from halfpail.application.count_mixes import MOST_MIXES_TRIED, fewest_mixes, near, plans_by_mixes
from halfpail.application.plan_season import GOOD_ENOUGH, told, with_mixes
from halfpail.application.ports import SeasonEffort, SeasonEngine
from halfpail.application.pose_season import MISS_WEIGHTS, MissWeights, contents, pose_season
from halfpail.application.season_answer import BedAnswer, SeasonAnswer
from halfpail.blending.ports import Effort, Solver
from halfpail.blending.season_rows import easiest_season
from halfpail.domain.bed import Content, Fit
from halfpail.domain.garden import Garden
from halfpail.domain.season import SeasonPlan, Unmet
from halfpail.domain.stock import Bag
from halfpail.quantities.showing import show_money

NONE = Fraction(0)
MILLIONTH = Fraction(1, 10**6)
_COUNTED = ("no mix", "one mix", "two mixes", "three mixes", "four mixes")
_BOUND_NODES = 2000


@dataclass(frozen=True, slots=True, kw_only=True)
class WayToFeed:
    """One way to feed the garden, in the figures that tell it from the others.

    `fits` counts beds by nutrient and by how it fits them; `to_stir` counts mixes of more than
    one bag. `left_kg` is what stays of the bags bought and of the mixes stirred. Where there is
    no plan, `unmet` says why and the figures are None.
    """

    name: str
    mixes: int
    money: Fraction | None = None
    missed: Fraction | None = None
    better_possible: Fraction | None = None
    to_stir: int = 0
    bags_bought: int = 0
    left_kg: Fraction = NONE
    p2o5_over_removal_kg: Fraction = NONE
    fits: Mapping[str, Mapping[Fit, int]] = field(hash=False, default_factory=dict)
    unmet: str = ""

    @property
    def value(self) -> Fraction | None:
        """Money and misses together [money]."""
        if self.money is None or self.missed is None:
            return None
        return self.money + self.missed


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """The ways side by side.

    `found` is the way that the rule picks, `asked` the one the gardener asked for, if any.
    `no_better_than` is what not even a mix of its own for every bed gets below [money, misses
    counted in].
    """

    ways: tuple[WayToFeed, ...]
    found: str
    asked: str | None
    rule: str
    why_not_fewer: str
    no_better_than: Fraction
    supposed: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ComparedSeason:
    """The season the gardener asked for, or the one that was found, beside the other ways."""

    season: SeasonAnswer | Unmet
    comparison: Comparison


def compare_mixes(
    garden: Garden,
    engine: SeasonEngine,
    solver: Solver,
    effort: SeasonEffort = GOOD_ENOUGH,
    weights: MissWeights = MISS_WEIGHTS,
) -> ComparedSeason:
    """Solve the season with one mix, with straight nitrogen beside it, with two and with three.

    Each number of mixes is solved once. One mix alone forgets which bags may go straight. Where
    no bag may, bags that hold nitrogen only are supposed to, beside one mix.
    """
    wished = garden.preferences.mixes
    problem = pose_season(garden, weights)
    plans = plans_by_mixes(problem, engine, effort, max(MOST_MIXES_TRIED, wished or 0))
    found = fewest_mixes(plans, garden.preferences.another_mix_saves)
    answers = {mixes: told(with_mixes(garden, mixes), plans[mixes], weights) for mixes in plans}
    first, supposed = _beside(garden, answers[1], engine, effort, weights)
    counted = [way_of(_COUNTED[mixes], mixes, answers[mixes]) for mixes in answers if mixes > 1]
    ways = (*first, *counted)
    names = {mixes: _COUNTED[mixes] for mixes in answers}
    names[1] = first[0 if supposed else -1].name
    asked = wished or found
    comparison = Comparison(
        ways=ways,
        found=names[found],
        asked=None if wished is None else names[wished],
        rule=_rule(garden, plans),
        why_not_fewer=_why_not_fewer(answers, asked, names, garden.preferences.currency),
        no_better_than=_no_better_than(garden, solver, weights),
        supposed=supposed,
    )
    return ComparedSeason(season=answers[asked], comparison=comparison)


def way_of(name: str, mixes: int, answer: SeasonAnswer | Unmet) -> WayToFeed:
    """The figures of one way."""
    if isinstance(answer, Unmet):
        return WayToFeed(name=name, mixes=mixes, unmet=answer.sentence)
    bought = [bag for bag in answer.bags if bag.bought]
    return WayToFeed(
        name=name,
        mixes=mixes,
        money=answer.plan.money,
        missed=answer.plan.missed,
        better_possible=answer.better_possible,
        to_stir=sum(1 for mix in answer.mixes if len(mix.round.parts) > 1),
        bags_bought=sum(bag.bought for bag in bought),
        left_kg=sum((bag.left_kg for bag in bought), NONE)
        + sum((mix.left_kg for mix in answer.mixes), NONE),
        p2o5_over_removal_kg=p2o5_over_removal_kg(answer.beds),
        fits=_fits(answer.beds),
    )


def p2o5_over_removal_kg(beds: tuple[BedAnswer, ...]) -> Fraction:
    """P2O5 that beds get beyond what their crops remove, all beds together [kg]."""
    return sum(
        (
            max(NONE, bed.p2o5_given_kg_per_m2 - bed.p2o5_removed_kg_per_m2) * bed.bed.area_m2
            for bed in beds
        ),
        NONE,
    )


def _fits(beds: tuple[BedAnswer, ...]) -> dict[str, Mapping[Fit, int]]:
    counts: dict[str, Counter[Fit]] = {}
    for bed in beds:
        for each in bed.fits:
            counts.setdefault(each.need.nutrient, Counter())[each.word] += 1
    return {nutrient: {word: count[word] for word in Fit} for nutrient, count in counts.items()}


def _beside(
    garden: Garden,
    one_mix: SeasonAnswer | Unmet,
    engine: SeasonEngine,
    effort: SeasonEffort,
    weights: MissWeights,
) -> tuple[list[WayToFeed], str]:
    """One mix without and with straight bags, and what was supposed for it."""
    straight = [bag for bag in garden.bags if bag.straight_ok and not bag.avoid]
    nitrogen = [bag for bag in garden.bags if _is_nitrogen_only(bag) and not bag.avoid]
    all_nitrogen = all(_is_nitrogen_only(bag) for bag in straight)
    with_name = f"one mix and straight {'nitrogen' if all_nitrogen else 'bags'}"
    if straight:
        bare = _with_straight(garden, frozenset())
        alone = _solved(bare, engine, effort, weights)
        return [way_of(_COUNTED[1], 1, alone), way_of(with_name, 1, one_mix)], ""
    if not nitrogen:
        return [way_of(_COUNTED[1], 1, one_mix)], ""
    allowed = _with_straight(garden, frozenset(bag.key for bag in nitrogen))
    beside = _solved(allowed, engine, effort, weights)
    names = ", ".join(bag.name for bag in nitrogen)
    supposed = f"No bag may go on a bed by itself yet; here it is supposed of {names}."
    return [way_of(_COUNTED[1], 1, one_mix), way_of(with_name, 1, beside)], supposed


def _solved(
    garden: Garden, engine: SeasonEngine, effort: SeasonEffort, weights: MissWeights
) -> SeasonAnswer | Unmet:
    one = with_mixes(garden, 1)
    return told(one, engine.solve(pose_season(one, weights), effort), weights)


def _with_straight(garden: Garden, keys: frozenset[str]) -> Garden:
    bags = tuple(replace(bag, straight_ok=bag.key in keys) for bag in garden.bags)
    return replace(garden, bags=bags)


def _is_nitrogen_only(bag: Bag) -> bool:
    held = contents(bag)
    return held[Content.N_LABEL] > 0 and not held[Content.P2O5_TOTAL] and not held[Content.K2O]


def _rule(garden: Garden, plans: Mapping[int, SeasonPlan | Unmet]) -> str:
    saves, currency = garden.preferences.another_mix_saves, garden.preferences.currency
    values = [plan.value for plan in plans.values() if isinstance(plan, SeasonPlan)]
    amount = show_money(near(min(values, default=NONE), saves), currency)
    whose = "as you wish" if saves is not None else "a twentieth: our default, not published"
    return (
        f"The fewest mixes whose money and misses together come within {amount} of the best "
        f"({whose})."
    )


def _why_not_fewer(
    answers: Mapping[int, SeasonAnswer | Unmet],
    mixes: int,
    names: Mapping[int, str],
    currency: str,
) -> str:
    """What one mix less would cost, and which beds would go short for it."""
    answer, fewer = answers[mixes], answers.get(mixes - 1)
    if isinstance(answer, Unmet) or fewer is None:
        return ""
    name = names[mixes - 1].capitalize()
    if isinstance(fewer, Unmet):
        return f"{name} would not do: {fewer.sentence}"
    worse = fewer.plan.value - answer.plan.value
    if worse <= 0:
        return f"{name} would do as well."
    dearer, missed = fewer.plan.money - answer.plan.money, fewer.plan.missed - answer.plan.missed
    parts = [
        f"{show_money(abs(amount), currency)} {'more' if amount > 0 else 'less'} {of_what}"
        for amount, of_what in ((dearer, "in money"), (missed, "in misses"))
        if amount
    ]
    short = _short(fewer.beds) - _short(answer.beds)
    then = f"; then short: {', '.join(sorted(short))}" if short else ""
    return f"{name} would be {show_money(worse, currency)} worse: {' and '.join(parts)}{then}."


def _short(beds: tuple[BedAnswer, ...]) -> set[str]:
    return {
        f"{bed.bed.name} of {each.need.nutrient}"
        for bed in beds
        for each in bed.fits
        if each.word is Fit.SHORT
    }


def _no_better_than(garden: Garden, solver: Solver, weights: MissWeights) -> Fraction:
    """The proven value of a mix of its own for every bed, rounded down [money]."""
    programme = easiest_season(pose_season(garden, weights)).programme
    bound = solver.solve(programme, Effort(nodes=_BOUND_NODES)).bound
    return NONE if bound is None else floor(Fraction(bound) / MILLIONTH) * MILLIONTH
