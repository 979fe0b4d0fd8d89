"""A season plan before the gate of hard limits: what breaks one is cut, and the reason is told."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from math import floor

from halfpail.application.pass_gate import (
    bag_dose,
    breach_notice,
    counted,
    share_let_through,
    together,
    year_breaches,
)
from halfpail.domain.bed import Bed
from halfpail.domain.garden import Garden
from halfpail.domain.safe_gate import Breach, Dose
from halfpail.domain.season import Feeding, SeasonPlan
from halfpail.domain.stock import Bag
from halfpail.findings import Notice, Severity
from halfpail.quantities.units import System

NONE = Fraction(0)
WHOLE = Fraction(1)

Foods = dict[int | str, tuple[tuple[Bag, Fraction], ...]]


def hold_to_gate(garden: Garden, plan: SeasonPlan) -> tuple[SeasonPlan, tuple[Notice, ...]]:
    """The plan with whatever breaks a hard limit cut to it, and a stop for each cut.

    Amounts are cut in whole measures; a bed that may have none of a food gets none of it. What
    the plan buys and stirs stays as it is.
    """
    kept: list[Feeding] = []
    notices: list[Notice] = []
    foods = _foods(garden, plan)
    for bed in garden.beds:
        feedings = [feeding for feeding in plan.feedings if feeding.plot == bed.key]
        held, found = _held(bed, feedings, foods, garden)
        kept.extend(held)
        notices.extend(_told(bed, found, garden.preferences.units))
    if not notices:
        return plan, ()
    return replace(plan, feedings=tuple(kept)), tuple(notices)


def _foods(garden: Garden, plan: SeasonPlan) -> Foods:
    """Each mix and bag as kilograms of each bag in one measure."""
    bags = {bag.key: bag for bag in garden.bags}
    tools = garden.tools
    foods: Foods = {
        key: ((bag, tools.measure * bag.scoop_kg(tools.scoop_l)),) for key, bag in bags.items()
    }
    for number, stirred in enumerate(plan.stirs):
        total = sum(stirred.scoops.values())
        foods[number] = tuple(
            (bags[key], tools.measure * Fraction(scoops, total) * bags[key].scoop_kg(tools.scoop_l))
            for key, scoops in stirred.scoops.items()
        )
    return foods


def _held(
    bed: Bed, feedings: Sequence[Feeding], foods: Foods, garden: Garden
) -> tuple[list[Feeding], list[Breach]]:
    """The feedings cut until nothing is broken any more, and what was broken."""
    found: list[Breach] = []
    held = list(feedings)
    while broken := _broken(bed, held, foods):
        breach = broken[0]
        found.append(breach)
        share = share_let_through(bed.facts, breach, _before(bed))
        held = [_cut(one, breach, share, foods) for one in held]
        held = [one for one in held if one.measures]
    return held, found


def _broken(bed: Bed, feedings: Sequence[Feeding], foods: Foods) -> list[Breach]:
    """What the planned amounts break; what was given before cannot be cut any more."""
    if not feedings:
        return []
    planned = together(
        bag_dose(bag, one.measures * mass_kg / bed.area_m2)
        for one in feedings
        for bag, mass_kg in foods[one.of]
    )
    return [
        breach
        for breach in year_breaches(bed.facts, planned, _before(bed), bed.doses)
        if planned.amounts.get(counted(breach.limit.of), NONE) > 0
    ]


def _before(bed: Bed) -> tuple[Dose, ...]:
    return tuple(bag_dose(one.food, one.rate_kg_per_m2) for one in bed.given)


def _cut(feeding: Feeding, breach: Breach, share: Fraction, foods: Foods) -> Feeding:
    """A feeding that brings the limited stuff, cut to a share of it in whole measures."""
    of = counted(breach.limit.of)
    brings = any(bag_dose(bag, mass).amounts.get(of, NONE) for bag, mass in foods[feeding.of])
    return replace(feeding, measures=floor(feeding.measures * share)) if brings else feeding


def _told(bed: Bed, found: Sequence[Breach], units: System) -> Iterator[Notice]:
    for breach in found:
        said = breach_notice(breach, units)
        sentence = f"{bed.name}: cut to the limit. {said.sentence}"
        yield Notice(severity=Severity.STOP, sentence=sentence, citation=said.citation)
