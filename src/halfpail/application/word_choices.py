"""What became of an old plan, amounts in a few sizes, and truly different plans, in words."""

from collections.abc import Sequence
from fractions import Fraction

from halfpail.application.group_doses import GroupedDoses
from halfpail.application.keep_plan import Kept
from halfpail.application.other_plans import OtherPlans
from halfpail.application.tell_season import mix_name
from halfpail.application.word_mix import Table
from halfpail.application.word_ways import NOTHING, bed_counts
from halfpail.domain.bed import Fit
from halfpail.quantities.showing import show_mass, show_money, show_scoops
from halfpail.quantities.units import System

NONE = Fraction(0)
NO_CUPS = "So few sizes would break a limit of some bed: the amounts stand as they were."


def kept_words(kept: Kept, saved: Fraction, enough: Fraction, currency: str) -> str:
    """What became of the old plan, where `saved` is what a new one saves [money]."""
    if kept is Kept.BROKEN:
        return f"{kept.capitalize()}:"
    saves, asked = show_money(saved, currency), show_money(enough, currency)
    said = f"{kept}: a new one saves {saves}, misses counted in; {asked} is asked of it."
    return said.capitalize()


def sizes_words(grouped: GroupedDoses) -> tuple[str, ...]:
    """The few sizes of each mix and bag."""
    return tuple(
        f"{mix_name(food) if isinstance(food, int) else food}: "
        + ", ".join(show_scoops(scoops) for scoops in each)
        for food, each in grouped.sizes.items()
    )


def worse_words(worse: Fraction, currency: str) -> str:
    """What few sizes cost [money]."""
    return (
        f"That is {show_money(worse, currency)} worse than an amount of its own for every bed, "
        "misses counted in."
    )


def others_table(others: OtherPlans, currency: str, units: System) -> Table:
    """The best plan and others for nearly the same, each with what it is best at."""
    rows = tuple(
        (
            plan.figures.name,
            ", ".join(plan.named) or NOTHING,
            show_money(plan.worse_money, currency) if plan.worse_money else NOTHING,
            show_money(plan.figures.money or NONE, currency),
            bed_counts(plan.figures.fits, Fit.SHORT),
            show_mass(plan.figures.p2o5_over_removal_kg, units)
            if plan.figures.p2o5_over_removal_kg
            else NOTHING,
            str(plan.figures.to_stir),
        )
        for plan in others.plans
    )
    headings = ("plan", "best at", "worse by", "money", "short", "P2O5 over", "stir")
    return Table(headings=headings, rows=rows)


def others_words(others: OtherPlans, currency: str) -> Sequence[str]:
    """How far from the best they may be, and the bags of each."""
    bags = (f"{plan.figures.name}: {', '.join(plan.bags)}." for plan in others.plans)
    within = show_money(others.within_money, currency)
    return (f"All within {within} of the best, misses counted in.", *bags)
