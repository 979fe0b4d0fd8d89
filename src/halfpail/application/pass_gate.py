"""What is spread, as the gate of hard limits counts it, and what the gate says of it."""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import ceil

from halfpail.domain.matter import Nutrient
from halfpail.domain.mix import Mix, part_mass_kg
from halfpail.domain.safe_gate import BedFacts, Breach, Dose, Given, Per, breaches
from halfpail.domain.stock import Bag
from halfpail.findings import Notice, Severity
from halfpail.quantities.showing import show_rate
from halfpail.quantities.units import System
from halfpail.reference.defaults import default
from halfpail.reference.hard_limits import hard_limits
from halfpail.reference.label_rules import warned_above
from halfpail.reference.materials import material

NONE = Fraction(0)
_OVER = {Per.DOSE: "for a dose", Per.YEAR: "for a year", Per.ACCOUNT: "in all"}
_HAIR_KG_PER_M2 = Fraction(1, 10**9)
_ASH = "wood_ash"
_DOLOMITE = "dolomitic_lime"
_LIME = ("limestone", "caustic_lime")
_SULFUR = "sulfur"
_MAGNESIUM = ("epsom_salt", "kieserite")


def pass_gate(bed: BedFacts, doses: Sequence[Dose]) -> tuple[Breach, ...]:
    """Every shipped hard limit that the doses of one year break on a bed."""
    return breaches(hard_limits(), bed, doses)


def year_breaches(
    bed: BedFacts, planned: Dose, before: Sequence[Dose] = (), doses: int = 1
) -> tuple[Breach, ...]:
    """What a year's amounts break on a bed, in at least so many doses, and as quick nitrogen wants.

    What was given before counts for the year and the account, and no more as a dose.
    """
    quick = planned.amounts.get(Given.QUICK_N, NONE)
    parts = max(1, doses, ceil(quick / default("quick_n_per_dose").value))
    share = Dose(amounts={of: amount / parts for of, amount in planned.amounts.items()})
    shares = (share,) * parts
    return (
        *(one for one in pass_gate(bed, shares) if one.limit.per is Per.DOSE),
        *(one for one in pass_gate(bed, (*before, *shares)) if one.limit.per is not Per.DOSE),
    )


def share_let_through(bed: BedFacts, breach: Breach, before: Sequence[Dose] = ()) -> Fraction:
    """What share of planned amounts keeps under a limit that all of them break [0-1]."""
    of, there = counted(breach.limit.of), NONE
    if breach.limit.per is not Per.DOSE:
        there += sum((dose.amounts.get(of, NONE) for dose in before), NONE)
    if breach.limit.per is Per.ACCOUNT:
        there += bed.p2o5_surplus_kg_per_m2 - bed.p2o5_removed_kg_per_m2
    planned = breach.amount_kg_per_m2 - there
    room = breach.most_kg_per_m2 - there
    return max(NONE, min(Fraction(1), room / planned)) if planned > 0 else NONE


def stopped_on_all(bag: Bag, beds: Iterable[BedFacts]) -> Breach | None:
    """What keeps even a hair of a bag off every bed; None where one may have some."""
    hair = bag_dose(bag, _HAIR_KG_PER_M2)
    worst = None
    for bed in beds:
        found = pass_gate(bed, [hair])
        if not found:
            return None
        worst = worst or found[0]
    return worst


def counted(of: Given) -> Given:
    """What of a dose a limit counts: the account counts all P2O5."""
    return Given.P2O5_TOTAL if of is Given.P2O5_SURPLUS else of


def breach_notice(breach: Breach, system: System) -> Notice:
    """A broken hard limit in words, with both amounts."""
    limit = breach.limit
    return Notice(
        severity=Severity.STOP,
        sentence=f"{show_rate(breach.amount_kg_per_m2, system)} of {limit.of} is above the most "
        f"of {show_rate(breach.most_kg_per_m2, system)} {_OVER[limit.per]}: {limit.sentence}.",
        citation=limit.citation,
    )


def material_dose(key: str, rate_kg_per_m2: Fraction, cce: Fraction | None = None) -> Dose:
    """One spreading of a single material [kg/m²]; `cce` [kg/kg] where its bag says it.

    Lime counts by weight or by lime value, what is more; ash by its weight, and as lime by its
    lime value.
    """
    known = material(key)
    value = known.cce if cce is None else cce
    amounts: dict[Given, Fraction] = {}
    if key == _ASH:
        amounts = {Given.ASH: rate_kg_per_m2, Given.LIME: rate_kg_per_m2 * value}
    elif known.family in _LIME:
        amounts = {Given.LIME: rate_kg_per_m2 * max(Fraction(1), value)}
    elif known.family == _SULFUR:
        amounts = {Given.SULFUR: rate_kg_per_m2}
    elif key in _MAGNESIUM:
        amounts = {Given.MAGNESIUM: rate_kg_per_m2}
    if key == _DOLOMITE:
        amounts[Given.DOLOMITE] = rate_kg_per_m2
    return Dose(amounts=amounts)


def is_boron_material(bag: Bag) -> bool:
    """Whether a bag brings boron on purpose: a salt of it, or so much that a label must warn.

    What lies below that is the trace many blends guarantee.
    """
    salts = any(Nutrient.B in material(key).contents for key in bag.materials)
    return salts or bag.label.analysis.of(Nutrient.B) >= warned_above()[Nutrient.B].share


def bag_dose(bag: Bag, rate_kg_per_m2: Fraction) -> Dose:
    """One spreading of a bag [kg/m²]: its nutrients, and its weight where it is one material.

    What lime or sulfur a blend of several materials holds is not on its label and not counted.
    """
    analysis, usable = bag.label.analysis, bag.usable_n
    all_p2o5 = max(analysis.total_p2o5 or NONE, analysis.of(Nutrient.P2O5))
    nutrients = {
        Given.QUICK_N: usable.quick,
        Given.LABEL_N: usable.label,
        Given.P2O5_TOTAL: all_p2o5,
        Given.BORON: analysis.of(Nutrient.B),
        Given.BORON_MATERIAL: analysis.of(Nutrient.B) if is_boron_material(bag) else NONE,
    }
    amounts = {of: share * rate_kg_per_m2 for of, share in nutrients.items() if share}
    if len(bag.materials) == 1:
        amounts |= material_dose(bag.materials[0], rate_kg_per_m2).amounts
    return Dose(amounts=amounts)


def mix_dose(mix: Mix, rate_kg_per_m2: Fraction) -> Dose:
    """One spreading of a mix [kg/m²], each bag by its share of the weight."""
    return together(
        bag_dose(one.bag, rate_kg_per_m2 * part_mass_kg(one, mix.scoop_l) / mix.mass_kg)
        for one in mix.parts
    )


def together(doses: Iterable[Dose]) -> Dose:
    """Several things spread at one time, as one dose."""
    amounts: dict[Given, Fraction] = {}
    for dose in doses:
        for of, amount in dose.amounts.items():
            amounts[of] = amounts.get(of, NONE) + amount
    return Dose(amounts=amounts)
