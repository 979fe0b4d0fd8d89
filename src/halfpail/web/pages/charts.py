"""Drawings of numbers: ranges with what is given, stacked bars, lines over time.

Each chart has a title, one sentence that says what is seen, and its numbers as rows for the table
beside it. Places are reckoned here in the drawing's own units; the templates only write them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from halfpail.application.word_mix import Table
from halfpail.quantities.rounding import decimal

WIDTH = 320
ROW = 58
BAR_TOP, BAR = 26, 16
PLOT_LEFT, PLOT_TOP, PLOT_HEIGHT = 40, 12, 180
PATTERNS = 6
NONE = Fraction(0)


def place(value: Fraction) -> str:
    """A place in a drawing, to the tenth of its unit.

    >>> place(Fraction(1, 3))
    '0.3'
    """
    return decimal(value, 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class RangeBar:
    """One range with what is given beside it, all in one unit; `words` says it in words."""

    label: str
    words: str
    least: Fraction
    aim: Fraction
    most: Fraction
    low: Fraction
    given: Fraction
    high: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedBar:
    """A range bar with its places."""

    bar: RangeBar
    top: int
    range_x: str
    range_width: str
    aim_x: str
    given_width: str
    low_x: str
    high_x: str

    @property
    def label_y(self) -> int:
        """Where the words stand."""
        return self.top + 16

    @property
    def floor_y(self) -> int:
        """The line below the bar."""
        return self.bar_y + BAR + 4

    @property
    def bar_y(self) -> int:
        """Where the bar begins."""
        return self.top + BAR_TOP

    @property
    def middle_y(self) -> int:
        """The middle of the bar."""
        return self.bar_y + BAR // 2


@dataclass(frozen=True, slots=True, kw_only=True)
class RangeChart:
    """Bars of what is given over the range that is right."""

    key: str
    title: str
    sentence: str
    bars: tuple[RangeBar, ...]
    table: Table

    @property
    def height(self) -> int:
        """Height of the drawing."""
        return ROW * len(self.bars) + 4

    @property
    def placed(self) -> tuple[PlacedBar, ...]:
        """The bars with their places, each on a scale of its own that holds all of it."""
        return tuple(_placed(bar, ROW * row) for row, bar in enumerate(self.bars))


def _placed(bar: RangeBar, top: int) -> PlacedBar:
    scale = WIDTH / (max(bar.most, bar.high, bar.given, Fraction(1, 10**9)) * Fraction(21, 20))
    return PlacedBar(
        bar=bar,
        top=top,
        range_x=place(bar.least * scale),
        range_width=place(max((bar.most - bar.least) * scale, Fraction(1))),
        aim_x=place(bar.aim * scale),
        given_width=place(bar.given * scale),
        low_x=place(bar.low * scale),
        high_x=place(bar.high * scale),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Segment:
    """One piece of a stacked bar; `pattern` is the number of its fill, from 0."""

    x: str
    width: str
    pattern: int


@dataclass(frozen=True, slots=True, kw_only=True)
class StackedBar:
    """One bar made of pieces, each of one of the chart's kinds."""

    label: str
    words: str
    values: tuple[Fraction, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StackedChart:
    """Bars made of pieces; the pieces of all bars are of the same kinds."""

    key: str
    title: str
    sentence: str
    kinds: tuple[str, ...]
    bars: tuple[StackedBar, ...]
    table: Table

    @property
    def height(self) -> int:
        """Height of the drawing."""
        return ROW * len(self.bars) + 4

    @property
    def legend(self) -> tuple[tuple[int, str], ...]:
        """Each kind with the number of its fill."""
        return tuple((number % PATTERNS, kind) for number, kind in enumerate(self.kinds))

    @property
    def rows(self) -> tuple[tuple[StackedBar, int, int, tuple[Segment, ...]], ...]:
        """Each bar with where its label and its bar begin, and its pieces."""
        longest = max((sum(bar.values, NONE) for bar in self.bars), default=NONE)
        scale = WIDTH / longest if longest else NONE
        return tuple(
            (bar, ROW * row + 16, ROW * row + BAR_TOP, _segments(bar.values, scale))
            for row, bar in enumerate(self.bars)
        )


def _segments(values: Sequence[Fraction], scale: Fraction) -> tuple[Segment, ...]:
    starts = [sum(values[:number], NONE) * scale for number in range(len(values))]
    return tuple(
        Segment(x=place(start), width=place(value * scale), pattern=number % PATTERNS)
        for number, (start, value) in enumerate(zip(starts, values, strict=True))
        if value
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """One line: its name and its value at each of the chart's moments, None where unknown."""

    name: str
    values: tuple[Fraction | None, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LineChart:
    """Lines over time from nought upwards.

    `moments` are counted from nought to one along the width; `ticks` are words at some of them;
    `limit` is a level that should not be passed, in the unit of the values.
    """

    key: str
    title: str
    sentence: str
    unit: str
    moments: tuple[Fraction, ...]
    ticks: tuple[tuple[Fraction, str], ...]
    series: tuple[Series, ...]
    table: Table
    limit: Fraction | None = None
    limit_words: str = ""

    @property
    def height(self) -> int:
        """Height of the drawing."""
        return PLOT_TOP + PLOT_HEIGHT + 28

    @property
    def floor_y(self) -> int:
        """Where nought is."""
        return PLOT_TOP + PLOT_HEIGHT

    @property
    def top_words(self) -> str:
        """The highest number of the scale."""
        return decimal(self._highest, 2)

    @property
    def _highest(self) -> Fraction:
        known = [value for one in self.series for value in one.values if value is not None]
        return max((*known, self.limit or NONE), default=NONE) or Fraction(1)

    def _x(self, moment: Fraction) -> Fraction:
        return PLOT_LEFT + moment * (WIDTH - PLOT_LEFT - 8)

    def _y(self, value: Fraction) -> Fraction:
        return self.floor_y - value / self._highest * PLOT_HEIGHT

    @property
    def limit_y(self) -> str:
        """The height of the limit; nothing where there is none."""
        return "" if self.limit is None else place(self._y(self.limit))

    @property
    def placed_ticks(self) -> tuple[tuple[str, str], ...]:
        """Where each word below the drawing stands."""
        return tuple((place(self._x(moment)), words) for moment, words in self.ticks)

    @property
    def lines(self) -> tuple[tuple[int, str, str], ...]:
        """The number, name and points of each line; unknown values are left out."""
        return tuple(
            (number % PATTERNS, one.name, self._points(one))
            for number, one in enumerate(self.series)
        )

    def _points(self, series: Series) -> str:
        return " ".join(
            f"{place(self._x(moment))},{place(self._y(value))}"
            for moment, value in zip(self.moments, series.values, strict=True)
            if value is not None
        )
