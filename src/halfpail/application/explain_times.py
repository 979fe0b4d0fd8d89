"""How the dates and doses of a bed are reached, step by step."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from halfpail.application.place_in_season import Stand
from halfpail.domain.feeding_search import SHORT_WEIGHS
from halfpail.domain.feeding_times import Balance, Food, Visit
from halfpail.domain.uptake import half_way_day
from halfpail.quantities.showing import show_rate
from halfpail.quantities.units import System
from halfpail.reference.defaults import default
from halfpail.working import Step, Working


def times_working(
    stand: Stand,
    aim_kg_per_m2: Fraction,
    foods: Sequence[Food],
    visits: Sequence[Visit],
    met: Balance,
) -> Working:
    """The steps from the crop's dates to what is short and what waits [kg/m²]."""
    steps = [*_date_steps(stand), _stage_step(stand, aim_kg_per_m2)]
    steps += _visit_steps(foods, visits)
    return (*steps, _balance_step(met))


def _date_steps(stand: Stand) -> Iterator[Step]:
    yield Step(
        reason=f"{stand.crop.name}: planted"
        + (", the first day of its window." if stand.planting else ", as typed."),
        sum=stand.planted.isoformat(),
        citation=stand.planting.citation if stand.planting else None,
    )
    days = (stand.harvest - stand.planted).days
    yield Step(
        reason=f"{stand.crop.name}: harvested"
        + (", the middle of its days to maturity." if stand.maturity else ", as typed."),
        sum=f"{stand.harvest.isoformat()}, {days} days later",
        citation=stand.maturity.citation if stand.maturity else None,
    )


def _stage_step(stand: Stand, aim_kg_per_m2: Fraction) -> Step:
    stages = stand.stages
    lengths = (
        stages.initial_days,
        stages.development_days,
        stages.middle_days,
        stages.late_days,
    )
    half = half_way_day(stages, stand.row.habit)
    return Step(
        reason="Stages stretched to these days; uptake follows an S-shaped curve, half of it by "
        f"day {half:.0f} (our proposal).",
        sum=f"{' + '.join(f'{days:.0f}' for days in lengths)} days, in all "
        f"{show_rate(aim_kg_per_m2, System.US)} usable N",
        citation=stand.row.citation,
    )


def _visit_steps(foods: Sequence[Food], visits: Sequence[Visit]) -> Iterator[Step]:
    for visit in visits:
        measures = [
            (food, visit.measures[food.key]) for food in foods if food.key in visit.measures
        ]
        quick = sum((count * food.quick_n_kg_per_m2 for food, count in measures), Fraction(0))
        total = sum((count * food.n_kg_per_m2 for food, count in measures), Fraction(0))
        cap = default("quick_n_per_dose")
        yield Step(
            reason=f"{visit.on.isoformat()}: "
            + ", ".join(f"{count} measures of {food.key}" for food, count in measures)
            + ". Quick N stays under the limit of a dose.",
            sum=f"label N {show_rate(total, System.US)}, quick N {show_rate(quick, System.US)}, "
            f"limit {show_rate(cap.value, System.US)}",
            citation=cap.citation,
        )


def _balance_step(met: Balance) -> Step:
    short, waiting, left = (
        show_rate(Fraction(figure).limit_denominator(10**9), System.US)
        for figure in (met.short, met.waiting, met.left)
    )
    return Step(
        reason="Chosen so that what is short and what waits in the ground, day by day, is least; "
        f"a day short weighs {SHORT_WEIGHS:.0f} days of waiting (our choice).",
        sum=f"most short {short} on {met.short_on.isoformat()}\n"
        f"most waiting {waiting} on {met.waiting_on.isoformat()}\n"
        f"left two months after harvest {left}",
    )
