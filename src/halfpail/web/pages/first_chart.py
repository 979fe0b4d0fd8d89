"""What the ground gets beside what is right, drawn for the first answer."""

from collections.abc import Iterator
from fractions import Fraction

from halfpail.application.answer_first import FirstAnswer
from halfpail.application.feed_ground import Way
from halfpail.application.word_mix import Table
from halfpail.domain.bed import Fit, NeedRange
from halfpail.quantities.showing import show_rate
from halfpail.quantities.units import System
from halfpail.web.pages.charts import RangeBar, RangeChart

Given = tuple[Fraction, Fraction, Fraction]


def given_chart(answer: FirstAnswer, system: System) -> RangeChart:
    """Usable N, P2O5 and K2O of the advised way, each over its range."""
    way = answer.advised.way
    title = "What the ground gets, and the range that is right"
    return ranges_chart("given", title, tuple(_bars(answer, way, system)), system)


def ranges_chart(key: str, title: str, bars: tuple[RangeBar, ...], system: System) -> RangeChart:
    """Bars over their ranges, all of them rates [kg/m²]; a bar's words end with how it fits."""
    return RangeChart(
        key=key,
        title=title,
        sentence=" ".join(f"{bar.label} is {bar.words.rpartition(', ')[2]}." for bar in bars),
        bars=bars,
        table=Table(
            headings=("", "given", "least", "aim", "most"),
            rows=tuple(
                (
                    bar.label,
                    bar.words,
                    *(show_rate(r, system) for r in (bar.least, bar.aim, bar.most)),
                )
                for bar in bars
            ),
        ),
    )


def _bars(answer: FirstAnswer, way: Way, system: System) -> Iterator[RangeBar]:
    limits, given = answer.limits, way.given
    nitrogen = (given.n_low, given.n, given.n_high)
    yield range_bar("usable N", limits.n, nitrogen, way.n_fit, system)
    yield range_bar("P2O5", limits.p2o5, (given.p2o5,) * 3, way.p2o5_fit, system)
    yield range_bar("K2O", limits.k2o, (given.k2o,) * 3, way.k2o_fit, system)


def range_bar(label: str, need: NeedRange, given: Given, word: Fit, system: System) -> RangeBar:
    """What is given (low, usual, high) over its range, all rates [kg/m²]."""
    low, usual, high = given
    return RangeBar(
        label=label,
        words=f"{show_rate(usual, system)}, {word}",
        least=need.least,
        aim=need.aim,
        most=need.most,
        low=low,
        given=usual,
        high=high,
    )
