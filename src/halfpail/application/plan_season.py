"""The season plan: which mixes, which bags, how much for each bed, and how good a plan it is."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from halfpail.application.limits_met import held_back_by
from halfpail.application.ports import SeasonEffort, SeasonEngine
from halfpail.application.pose_season import MISS_WEIGHTS, MissWeights, pose_season, price_ceiling
from halfpail.application.season_answer import BedAnswer, MixAnswer, SeasonAnswer
from halfpail.application.season_working import season_working
from halfpail.application.tell_season import tell_bags, tell_beds, tell_mixes
from halfpail.domain.bed import Fit
from halfpail.domain.garden import Garden
from halfpail.domain.season import SeasonPlan, Unmet
from halfpail.findings import Notice, Severity
from halfpail.reference.cautions import caution
from halfpail.reference.materials import material

GOOD_ENOUGH = SeasonEffort(relative_gap=0.02)
MOST_MIXES_TRIED = 3
# Our default, not published: another mix is one more pail to stir, label and keep apart.
ANOTHER_MIX_SAVES = Fraction(5, 100)


def plan_season(
    garden: Garden,
    engine: SeasonEngine,
    effort: SeasonEffort = GOOD_ENOUGH,
    weights: MissWeights = MISS_WEIGHTS,
) -> SeasonAnswer | Unmet:
    """The plan of a season, told; or what stands in the way of any plan.

    Where the number of mixes is to be found, one mix more is taken only while it makes the plan
    better by a twentieth.
    """
    problem = pose_season(garden, weights)
    plan = engine.solve(problem, effort)
    if garden.preferences.mixes is None:
        for mixes in range(2, MOST_MIXES_TRIED + 1):
            better = engine.solve(replace(problem, mixes=mixes), effort)
            if not _is_worth_another_mix(plan, better):
                break
            plan = better
    return plan if isinstance(plan, Unmet) else tell(garden, plan, weights)


def _is_worth_another_mix(plan: SeasonPlan | Unmet, better: SeasonPlan | Unmet) -> bool:
    if isinstance(better, Unmet):
        return False
    return isinstance(plan, Unmet) or better.value < plan.value * (1 - ANOTHER_MIX_SAVES)


def tell(garden: Garden, plan: SeasonPlan, weights: MissWeights = MISS_WEIGHTS) -> SeasonAnswer:
    """Everything a gardener wants to know of a plan."""
    mixes, beds = tell_mixes(garden, plan), tell_beds(garden, plan)
    ceiling = price_ceiling(garden.preferences)
    return SeasonAnswer(
        garden=garden.name,
        currency=garden.preferences.currency,
        plan=plan,
        mixes=mixes,
        bags=tell_bags(garden, plan),
        beds=beds,
        better_possible=plan.value - plan.bound,
        held_back_by=held_back_by(garden, pose_season(garden, weights), plan),
        weights={
            "a kg of usable N short of the least": weights.short_of_least_n * ceiling,
            "a kg of usable N short of the aim": weights.short_of_aim_n * ceiling,
            "a kg of P2O5 above what a crop removes": weights.p2o5_surplus * ceiling,
            "a kg of K2O short of the aim": weights.short_of_aim_other * ceiling,
        },
        notices=tuple(_notices(garden, plan, mixes, beds)),
        working=season_working(garden, plan, mixes, beds),
    )


def _notices(
    garden: Garden,
    plan: SeasonPlan,
    mixes: tuple[MixAnswer, ...],
    beds: tuple[BedAnswer, ...],
) -> Iterator[Notice]:
    if not plan.feedings:
        yield Notice(severity=Severity.NOTE, sentence="Nothing is needed: buy no bag.")
    for mix in mixes:
        if not mix.pailful.rounds:
            yield Notice(
                severity=Severity.CAUTION,
                sentence=f"One round of mix {mix.number} rises above half the pail: halve it.",
            )
    for fitting, sentence in (
        (Fit.SHORT, "get less usable N than their least; no bag here gives more within the limits"),
        (Fit.TOO_MUCH, "get more than their most of some nutrient; see the table"),
    ):
        names = [bed.bed.name for bed in beds if any(each.word is fitting for each in bed.fits)]
        if names:
            yield Notice(severity=Severity.CAUTION, sentence=f"{', '.join(names)} {sentence}.")
    split = [bed.bed.name for bed in beds if bed.doses > 1]
    if split:
        sentence = f"In two doses or more, as the table says: {', '.join(split)}."
        yield Notice(severity=Severity.NOTE, sentence=sentence)
    for key in _caution_keys(garden, plan):
        yield caution(key)


def _caution_keys(garden: Garden, plan: SeasonPlan) -> Iterator[str]:
    """Cautions of what is stirred and spread, then those of every plan, each once."""
    used = {key for each in plan.stirs for key in each.scoops}
    used |= {feeding.of for feeding in plan.feedings if isinstance(feeding.of, str)}
    found = (
        key
        for bag in garden.bags
        if bag.key in used
        for made_of in bag.materials
        for key in material(made_of).cautions
    )
    yield from dict.fromkeys(found)
    yield from ("directions", "water_buffer", "soil_test", "phosphorus_law", "extension")
