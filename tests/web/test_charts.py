"""Drawings: places follow from the numbers, and each has its words, its patterns and its table."""

from dataclasses import dataclass
from fractions import Fraction
from xml.etree import ElementTree

import pytest
from django.template.loader import render_to_string

from halfpail.application.word_mix import Table
from halfpail.web.pages.charts import (
    LineChart,
    RangeBar,
    RangeChart,
    Series,
    StackedBar,
    StackedChart,
)
from tests.web.reading_pages import Page, inline

TABLE = Table(headings=("", "a", "b"), rows=(("x", "1", "2"),))


@dataclass(frozen=True)
class Drawn:
    template: str
    chart: RangeChart | StackedChart | LineChart

    @property
    def html(self) -> str:
        return render_to_string(f"halfpail/charts/{self.template}.html", {"chart": self.chart})


def a_range(given: int) -> RangeChart:
    low, aim, most = Fraction(1), Fraction(2), Fraction(4)
    bar = RangeBar(
        label="N",
        words=f"{given}, right",
        least=low,
        aim=aim,
        most=most,
        low=Fraction(given),
        given=Fraction(given),
        high=Fraction(given),
    )
    return RangeChart(key="r", title="Need", sentence="N is right.", bars=(bar,), table=TABLE)


def a_stack() -> StackedChart:
    bars = (
        StackedBar(label="Bed 1", words="4", values=(Fraction(1), Fraction(3))),
        StackedBar(label="Bed 2", words="2", values=(Fraction(0), Fraction(2))),
    )
    return StackedChart(
        key="s", title="Given", sentence="Two beds.", kinds=("meal", "mix"), bars=bars, table=TABLE
    )


def lines(limit: Fraction | None = None) -> LineChart:
    return LineChart(
        key="l",
        title="P account",
        sentence="It rises.",
        unit="lb per 100 sq ft",
        moments=(Fraction(0), Fraction(1, 2), Fraction(1)),
        ticks=((Fraction(0), "2025"), (Fraction(1), "2027")),
        series=(
            Series(name="given", values=(Fraction(0), Fraction(1), Fraction(2))),
            Series(name="removed", values=(Fraction(0), None, Fraction(1))),
        ),
        table=TABLE,
        limit=limit,
        limit_words="stop",
    )


CHARTS = [
    Drawn("range", a_range(3)),
    Drawn("stacked", a_stack()),
    Drawn("lines", lines()),
    Drawn("lines", lines(Fraction(4))),
]


@pytest.mark.parametrize("drawn", CHARTS, ids=lambda drawn: drawn.template)
def test_each_is_named_described_and_tabled(drawn):
    page = Page(drawn.html)
    (drawing,) = page.all("svg", role="img")
    title, description = drawing.attributes["aria-labelledby"].split()
    assert page.by_id(title).text == drawn.chart.title
    assert page.by_id(description).text == drawn.chart.sentence
    assert drawn.chart.sentence in page.all("figcaption")[0].text
    assert page.by_id(f"{drawn.chart.key}-numbers").tag == "details"
    assert inline(page) == []


@pytest.mark.parametrize("drawn", CHARTS, ids=lambda drawn: drawn.template)
def test_each_drawing_is_whole(drawn):
    html = drawn.html
    ElementTree.fromstring(html[html.index("<svg") : html.index("</svg>") + len("</svg>")])


def test_a_given_amount_stands_inside_or_outside_its_range():
    inside, outside = a_range(3).placed[0], a_range(8).placed[0]
    for one, fits in ((inside, True), (outside, False)):
        end = float(one.range_x) + float(one.range_width)
        assert (float(one.range_x) <= float(one.given_width) <= end) is fits
        assert float(one.given_width) <= 320 and end <= 320


def test_a_range_of_nothing_can_be_drawn():
    nothing = RangeBar(
        label="P2O5",
        words="none, right",
        **dict.fromkeys(("least", "aim", "most", "low", "given", "high"), Fraction(0)),
    )
    chart = RangeChart(key="n", title="t", sentence="s", bars=(nothing,), table=TABLE)
    assert chart.placed[0].given_width == "0.0"


def test_pieces_stand_end_to_end_and_nought_has_none():
    first, second = (pieces for *_, pieces in a_stack().rows)
    assert [(piece.x, piece.width, piece.pattern) for piece in first] == [
        ("0.0", "80.0", 0),
        ("80.0", "240.0", 1),
    ]
    assert [(piece.x, piece.width, piece.pattern) for piece in second] == [("0.0", "160.0", 1)]


def test_a_stack_of_nothing_can_be_drawn():
    bars = (StackedBar(label="Bed", words="none", values=(Fraction(0),)),)
    chart = StackedChart(key="s", title="t", sentence="s", kinds=("meal",), bars=bars, table=TABLE)
    assert chart.rows[0][3] == ()


def test_lines_run_from_the_floor_to_the_top():
    chart = lines()
    (_, _, given), (_, _, removed) = chart.lines
    assert given == "40.0,192.0 176.0,102.0 312.0,12.0"
    assert removed == "40.0,192.0 312.0,102.0"  # an unknown value is left out
    assert chart.top_words == "2.00"
    assert lines(Fraction(4)).limit_y == "12.0"


def test_lines_of_nothing_can_be_drawn():
    chart = LineChart(
        key="l", title="t", sentence="s", unit="lb", moments=(), ticks=(), series=(), table=TABLE
    )
    assert chart.lines == () and chart.limit_y == ""
