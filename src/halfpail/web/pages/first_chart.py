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
    bars = tuple(_bars(answer, way, system))
    return RangeChart(
        key="given",
        title="What the ground gets, and the range that is right",
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
    yield _bar("usable N", limits.n, nitrogen, way.n_fit, system)
    yield _bar("P2O5", limits.p2o5, (given.p2o5,) * 3, way.p2o5_fit, system)
    yield _bar("K2O", limits.k2o, (given.k2o,) * 3, way.k2o_fit, system)


def _bar(label: str, need: NeedRange, given: Given, word: Fit, system: System) -> RangeBar:
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
