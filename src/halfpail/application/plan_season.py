"""The season plan: which mixes, which bags, how much for each bed, and how good a plan it is."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from halfpail.application.count_mixes import fewest_mixes, plans_by_mixes
from halfpail.application.hold_to_gate import hold_to_gate
from halfpail.application.keep_apart import cautions_of, clash_notices
from halfpail.application.limits_met import held_back_by
from halfpail.application.pass_gate import stopped_on_all
from halfpail.application.ports import SeasonEffort, SeasonEngine
from halfpail.application.pose_season import (
    MISS_WEIGHTS,
    MissWeights,
    is_at_hand,
    pose_season,
    price_ceiling,
)
from halfpail.application.season_answer import BedAnswer, MixAnswer, SeasonAnswer
from halfpail.application.season_working import season_working
from halfpail.application.tell_season import tell_bags, tell_beds, tell_mixes
from halfpail.domain.bed import Fit
from halfpail.domain.garden import Garden
from halfpail.domain.season import SeasonPlan, SeasonProblem, Unmet
from halfpail.domain.season_check import SeasonCheck, check_season
from halfpail.findings import Notice, Severity

GOOD_ENOUGH = SeasonEffort(relative_gap=0.02)
OF_EVERY_PLAN = ("directions", "water_buffer", "soil_test", "phosphorus_law", "extension")


def plan_season(
    garden: Garden,
    engine: SeasonEngine,
    effort: SeasonEffort = GOOD_ENOUGH,
    weights: MissWeights = MISS_WEIGHTS,
) -> SeasonAnswer | Unmet:
    """The plan of a season, told; or what stands in the way of any plan.

    Where the number of mixes is to be found, it is the fewest that come near enough to the best.
    """
    if garden.preferences.mixes is None:
        plans = plans_by_mixes(pose_season(garden, weights), engine, effort)
        mixes = fewest_mixes(plans, garden.preferences.another_mix_saves)
        return told(with_mixes(garden, mixes), plans[mixes], weights)
    return told(garden, engine.solve(pose_season(garden, weights), effort), weights)


def with_mixes(garden: Garden, mixes: int) -> Garden:
    """The garden, its owner wishing for at most so many mixes."""
    return replace(garden, preferences=replace(garden.preferences, mixes=mixes))


def told(
    garden: Garden, plan: SeasonPlan | Unmet, weights: MissWeights = MISS_WEIGHTS
) -> SeasonAnswer | Unmet:
    """The plan, told; or, unchanged, what stands in the way of one."""
    return plan if isinstance(plan, Unmet) else tell(garden, plan, weights)


def tell_again(garden: Garden, plan: SeasonPlan) -> SeasonAnswer:
    """A plan found earlier for this very garden, told.

    Raises:
        ValueError: the plan breaks a rule of the problem.
    """
    return tell(with_mixes(garden, garden.preferences.mixes or max(1, len(plan.stirs))), plan)


def tell(garden: Garden, plan: SeasonPlan, weights: MissWeights = MISS_WEIGHTS) -> SeasonAnswer:
    """Everything a gardener wants to know of a plan, after it has been checked exactly.

    Raises:
        ValueError: the plan breaks a rule of the problem, which no engine may let happen.
    """
    problem = pose_season(garden, weights)
    check = _checked(problem, plan)
    plan, stops = hold_to_gate(garden, plan)
    if stops:
        cut = check_season(problem, plan)
        plan = replace(plan, money=cut.money, missed=cut.missed)
        check = _checked(problem, plan)
    mixes, beds = tell_mixes(garden, plan), tell_beds(garden, plan, check)
    return SeasonAnswer(
        garden=garden.name,
        currency=garden.preferences.currency,
        plan=plan,
        mixes=mixes,
        bags=tell_bags(garden, plan, check),
        beds=beds,
        better_possible=plan.value - plan.bound,
        held_back_by=held_back_by(garden, problem, plan, check),
        weights=weights_in_money(weights, price_ceiling(garden.preferences)),
        notices=(*stops, *_notices(garden, plan, mixes, beds)),
        working=season_working(garden, plan, mixes, beds),
    )


def _checked(problem: SeasonProblem, plan: SeasonPlan) -> SeasonCheck:
    check = check_season(problem, plan)
    if check.breaches:
        raise ValueError(f"the plan breaks its own rules: {check.breaches}")
    return check


def weights_in_money(weights: MissWeights, ceiling_per_kg: Fraction) -> dict[str, Fraction]:
    """What a kilogram missed weighs beside money, in words [money per kg]."""
    told = {
        "usable N short of the least": weights.short_of_least_n,
        "usable N short of the aim": weights.short_of_aim_n,
        "P2O5 above what the crop removes": weights.p2o5_surplus,
        "K2O short of the aim": weights.short_of_aim_other,
    }
    return {words: weight * ceiling_per_kg for words, weight in told.items()}


def _notices(
    garden: Garden,
    plan: SeasonPlan,
    mixes: tuple[MixAnswer, ...],
    beds: tuple[BedAnswer, ...],
) -> Iterator[Notice]:
    yield from _left_out(garden)
    if not plan.feedings:
        yield Notice(severity=Severity.NOTE, sentence="Nothing is needed: buy no bag.")
    for mix in mixes:
        if not mix.pailful.rounds:
            sentence = f"One round of mix {mix.number} rises above half the pail: halve it."
            yield Notice(severity=Severity.CAUTION, sentence=sentence)
        yield from clash_notices([part.bag for part in mix.round.parts])
    yield from _bed_notices(beds)
    used = {key for each in plan.stirs for key in each.scoops}
    used |= {feeding.of for feeding in plan.feedings if isinstance(feeding.of, str)}
    yield from cautions_of([bag for bag in garden.bags if bag.key in used], *OF_EVERY_PLAN)


def _left_out(garden: Garden) -> Iterator[Notice]:
    """Bags at hand that the gate lets on no bed."""
    facts = [bed.facts for bed in garden.beds]
    for bag in garden.bags:
        breach = stopped_on_all(bag, facts) if is_at_hand(bag) else None
        if breach is not None:
            yield Notice(
                severity=Severity.STOP,
                sentence=f"{bag.name} is left out: {breach.limit.sentence}.",
                citation=breach.limit.citation,
            )


def _bed_notices(beds: tuple[BedAnswer, ...]) -> Iterator[Notice]:
    short = [bed.bed.name for bed in beds if any(each.word is Fit.SHORT for each in bed.fits)]
    if short:
        sentence = f"{', '.join(short)}: less than the least, and no bag here may give more."
        yield Notice(severity=Severity.CAUTION, sentence=sentence)
    over = [bed.bed.name for bed in beds if any(each.word is Fit.TOO_MUCH for each in bed.fits)]
    if over:
        sentence = f"{', '.join(over)}: more than the most, though below the stop."
        yield Notice(severity=Severity.CAUTION, sentence=sentence)
