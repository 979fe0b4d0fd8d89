"""The drawings of one bed of a plan: need beside what it gets, and nitrogen through the year."""

from collections.abc import Iterator
from fractions import Fraction

from halfpail.application.season_answer import BedAnswer, FitAnswer
from halfpail.application.word_mix import Table
from halfpail.application.word_season import rate, rate_unit
from halfpail.quantities.dates import day_words
from halfpail.quantities.units import System
from halfpail.web.pages.charts import LineChart, RangeBar, RangeChart, Series
from halfpail.web.pages.first_chart import range_bar, ranges_chart
from halfpail.web.season_text import BedCurve

TICKS = 4
SHORT = Fraction(1, 20)


def need_chart(bed: BedAnswer, system: System) -> RangeChart:
    """Every range of a bed with what it gets."""
    title = f"{bed.bed.name}: what it gets, and the range that is right"
    return ranges_chart("need", title, tuple(_bars(bed, system)), system)


def _bars(bed: BedAnswer, system: System) -> Iterator[RangeBar]:
    for fit in bed.fits:
        nutrient = fit.need.nutrient
        label = "usable N" if nutrient == "N" else nutrient
        yield range_bar(label, fit.need, _given(fit), fit.word, system)


def _given(fit: FitAnswer) -> tuple[Fraction, Fraction, Fraction]:
    """Low, usual and high; of phosphorus all that reaches the soil, as in the tables."""
    if fit.need.nutrient == "P2O5":
        return (fit.high_kg_per_m2,) * 3
    return fit.low_kg_per_m2, fit.typical_kg_per_m2, fit.high_kg_per_m2


def supply_chart(curve: BedCurve, system: System) -> LineChart:
    """Nitrogen that has come beside nitrogen that was wanted, week by week."""
    wanted = tuple(Fraction(one.wanted_kg_per_m2) for one in curve.weeks)
    came = tuple(Fraction(one.came_kg_per_m2) for one in curve.weeks)
    days = [one.on for one in curve.weeks]
    long = max((days[-1] - days[0]).days, 1) if days else 1
    moments = tuple(Fraction((day - days[0]).days, long) for day in days)
    step = max(1, len(days) // TICKS)
    ticks = [(moments[at], f"{days[at].day} {days[at]:%b}") for at in range(0, len(days), step)]
    return LineChart(
        key="supply",
        title=f"{curve.bed}: nitrogen through the season",
        sentence=_sentence(wanted, came),
        unit=f"nitrogen so far, {rate_unit(system)}",
        moments=moments,
        ticks=tuple(ticks),
        series=(
            Series(name="wanted by the crop", values=tuple(_number(one, system) for one in wanted)),
            Series(name="come from what was given", values=tuple(_number(c, system) for c in came)),
        ),
        table=Table(
            headings=("week of", "wanted", "come"),
            rows=tuple(
                (day_words(day), rate(want, system), rate(come, system))
                for day, want, come in zip(days, wanted, came, strict=True)
            ),
        ),
    )


def _number(rate_kg_per_m2: Fraction, system: System) -> Fraction:
    return Fraction(rate(rate_kg_per_m2, system))


def _sentence(wanted: tuple[Fraction, ...], came: tuple[Fraction, ...]) -> str:
    most = max(wanted, default=Fraction(0))
    behind = [one for one, come in zip(wanted, came, strict=True) if one - come > SHORT * most]
    if not behind:
        return "It comes about as early as the crop wants it."
    return f"In {len(behind)} of {len(wanted)} weeks less has come than the crop wants by then."
