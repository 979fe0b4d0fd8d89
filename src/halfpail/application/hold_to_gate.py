"""A season plan before the gate of hard limits: what breaks one is cut, and the reason is told."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from math import ceil, floor

from halfpail.application.pass_gate import bag_dose, breach_notice, pass_gate, together
from halfpail.domain.bed import Bed
from halfpail.domain.garden import Garden
from halfpail.domain.safe_gate import Breach, Dose, Given, Per
from halfpail.domain.season import Feeding, SeasonPlan
from halfpail.domain.stock import Bag
from halfpail.findings import Notice, Severity
from halfpail.quantities.units import System
from halfpail.reference.defaults import default

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


def share_let_through(bed: Bed, breach: Breach, given_already: Fraction) -> Fraction:
    """What share of the planned amounts keeps under a limit that all of them break [0-1].

    `given_already` is what of the limited stuff was given before [kg/m²], and stays.
    """
    there = NONE if breach.limit.per is Per.DOSE else given_already
    if breach.limit.per is Per.ACCOUNT:
        there += bed.facts.p2o5_surplus_kg_per_m2 - bed.facts.p2o5_removed_kg_per_m2
    planned = breach.amount_kg_per_m2 - there
    room = breach.most_kg_per_m2 - there
    return max(NONE, min(WHOLE, room / planned)) if planned > 0 else NONE


def gate_breaches(bed: Bed, planned: Dose) -> tuple[Breach, ...]:
    """What a year's amounts break on a bed, in as many doses as its crop and quick nitrogen want.

    What was given before counts for the year and the account, and no more as a dose.
    """
    before = tuple(bag_dose(one.food, one.rate_kg_per_m2) for one in bed.given)
    quick = planned.amounts.get(Given.QUICK_N, NONE)
    parts = max(1, bed.doses, ceil(quick / default("quick_n_per_dose").value))
    share = Dose(amounts={of: amount / parts for of, amount in planned.amounts.items()})
    doses = (share,) * parts
    return (
        *(one for one in pass_gate(bed.facts, doses) if one.limit.per is Per.DOSE),
        *(one for one in pass_gate(bed.facts, before + doses) if one.limit.per is not Per.DOSE),
    )


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
        share = share_let_through(bed, breach, _given(bed, breach.limit.of))
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
        for breach in gate_breaches(bed, planned)
        if planned.amounts.get(_counted(breach.limit.of), NONE) > 0
    ]


def _counted(of: Given) -> Given:
    """What of a dose a limit counts: the account counts all P2O5."""
    return Given.P2O5_TOTAL if of is Given.P2O5_SURPLUS else of


def _given(bed: Bed, of: Given) -> Fraction:
    before = together(bag_dose(one.food, one.rate_kg_per_m2) for one in bed.given)
    return before.amounts.get(_counted(of), NONE)


def _cut(feeding: Feeding, breach: Breach, share: Fraction, foods: Foods) -> Feeding:
    """A feeding that brings the limited stuff, cut to a share of it in whole measures."""
    of = _counted(breach.limit.of)
    brings = any(bag_dose(bag, mass).amounts.get(of, NONE) for bag, mass in foods[feeding.of])
    return replace(feeding, measures=floor(feeding.measures * share)) if brings else feeding


def _told(bed: Bed, found: Sequence[Breach], units: System) -> Iterator[Notice]:
    for breach in found:
        said = breach_notice(breach, units)
        sentence = f"{bed.name}: cut to the limit. {said.sentence}"
        yield Notice(severity=Severity.STOP, sentence=sentence, citation=said.citation)
