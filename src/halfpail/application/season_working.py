"""The working of a season plan: each grade, each bed and the money, to be repeated by hand."""

from collections.abc import Iterator
from fractions import Fraction

from halfpail.application.explain_mix import mix_working
from halfpail.application.pose_season import label_n_cap_kg_per_m2
from halfpail.application.season_answer import BedAnswer, FitAnswer, MixAnswer
from halfpail.application.tell_season import COUNTED
from halfpail.domain.garden import Garden, Preferences
from halfpail.domain.season import SeasonPlan
from halfpail.quantities.rounding import decimal
from halfpail.quantities.showing import show_area, show_mass, show_money, show_rate, show_scoops
from halfpail.quantities.units import System
from halfpail.reference.defaults import default
from halfpail.working import Step, Working


def season_working(
    garden: Garden,
    plan: SeasonPlan,
    mixes: tuple[MixAnswer, ...],
    beds: tuple[BedAnswer, ...],
) -> Working:
    """Every step from the labels to the amounts, in the order one would do it on paper."""
    units = garden.preferences.units
    return (
        *(step for mix in mixes for step in _mix_steps(mix, garden.preferences)),
        *(step for bed in beds for step in _bed_steps(bed, units)),
        *_money_steps(garden, plan),
    )


def _mix_steps(mix: MixAnswer, preferences: Preferences) -> Iterator[Step]:
    yield Step(reason=f"Mix {mix.number}, one round of it")
    yield from mix_working(mix.round, mix.pailful, preferences.units, preferences.currency)


def _bed_steps(answer: BedAnswer, units: System) -> Iterator[Step]:
    bed = answer.bed
    area = show_area(bed.area_m2, units)
    for found in answer.fits:
        need = found.need
        yield Step(
            reason=f"{bed.name}, {area}: what it should get of {need.nutrient}",
            sum=(
                f"least {show_rate(need.least, units)}, aim {show_rate(need.aim, units)}, "
                f"most {show_rate(need.most, units)}"
            ),
            citation=need.citation,
        )
    nitrogen = bed.need("N")
    if nitrogen is not None:
        times = default("label_n_times_usable_aim")
        yield Step(
            reason=f"{bed.name}: label N is held to a multiple of the aim",
            sum=(
                f"{decimal(times.value, 1)} x {show_rate(nitrogen.aim or nitrogen.most, units)} = "
                f"{show_rate(label_n_cap_kg_per_m2(nitrogen), units)}"
            ),
            citation=times.citation,
        )
    if not answer.feeds:
        return
    yield Step(
        reason=f"{bed.name}: what it gets, by the weight of a scoop",
        sum="\n".join(
            f"{show_scoops(feed.scoops)} of {feed.name} x {show_mass(feed.scoop_kg, units)} a "
            f"scoop = {show_mass(feed.mass_kg, units)}"
            for feed in answer.feeds
        ),
    )
    for found in answer.fits:
        yield _brought(found, answer, units)


def _brought(found: FitAnswer, answer: BedAnswer, units: System) -> Step:
    """The typical figure of one nutrient, as weights times shares over the area."""
    content = COUNTED[found.need.nutrient][1]
    terms = " + ".join(
        f"{show_mass(feed.mass_kg, units)} x {decimal(100 * feed.holds[content], 2)}%"
        for feed in answer.feeds
    )
    low, high = show_rate(found.low_kg_per_m2, units), show_rate(found.high_kg_per_m2, units)
    span = "" if found.low_kg_per_m2 == found.high_kg_per_m2 else f", between {low} and {high}"
    area = show_area(answer.bed.area_m2, units)
    return Step(
        reason=f"{answer.bed.name}: {content} it gets",
        sum=f"({terms}) / {area} = {show_rate(found.typical_kg_per_m2, units)}{span}",
    )


def _money_steps(garden: Garden, plan: SeasonPlan) -> Iterator[Step]:
    currency = garden.preferences.currency
    bags = {bag.key: bag for bag in garden.bags}
    lines = [
        f"{count} x {bags[key].name} at {show_money(bags[key].price or Fraction(0), currency)}"
        for key, count in plan.purchases.items()
        if count
    ]
    shed = "counts as paid for" if garden.preferences.shed_is_free else "is counted at its price"
    yield Step(
        reason=f"The money: whole bags; what is in the shed {shed}",
        sum="\n".join([*lines, f"together {show_money(plan.money, currency)}"]),
    )
    yield Step(
        reason=(
            "How good the plan is: no plan can bring money and misses together below the proven "
            f"bound ({plan.proven_by})"
        ),
        sum=(
            f"{show_money(plan.money, currency)} + {show_money(plan.missed, currency)} of misses - "
            f"{show_money(plan.bound, currency)} = "
            f"{show_money(plan.value - plan.bound, currency)}"
        ),
    )
