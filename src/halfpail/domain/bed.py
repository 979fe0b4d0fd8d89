"""Beds and the range of each nutrient they should get in a season."""

from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum
from fractions import Fraction

from halfpail.domain.safe_gate import BedFacts
from halfpail.domain.stock import Bag
from halfpail.sources import Citation


class Content(StrEnum):
    """What a bed's ranges are counted in.

    Nitrogen has four readings: a need is checked on the low figure of what a bag gives, the
    aim on the typical one, the burn limit on the high one, and a total limit on label nitrogen.
    Phosphorus has two: a need counts what is available, a limit all that reaches the soil.
    """

    N_LOW = "usable N, low"
    N_TYPICAL = "usable N, typical"
    N_HIGH = "usable N, high"
    N_LABEL = "label N"
    P2O5 = "P2O5"
    P2O5_TOTAL = "P2O5, all of it"
    K2O = "K2O"
    CA = "Ca"
    MG = "Mg"
    S = "S"


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedRange:
    """Range of one nutrient for a bed and season [kg per m²]: least, aim, most, and the hard cap.

    `nutrient` is "N" (usable), "P2O5", "K2O", "Ca", "Mg" or "S".
    """

    nutrient: str
    least: Fraction
    aim: Fraction
    most: Fraction
    cap: Fraction
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class GivenFood:
    """So much of a bag or of an old mix that a bed got already this season [kg/m²], and when."""

    food: Bag
    rate_kg_per_m2: Fraction
    on: date


NOTHING_KNOWN = BedFacts()


@dataclass(frozen=True, slots=True, kw_only=True)
class Bed:
    """A piece of ground, its crop and what it should still get.

    `facts` are what the gate of hard limits is told of it. `given` has been taken off the needs.
    """

    key: str
    name: str
    area_m2: Fraction
    crop: str
    needs: tuple[NeedRange, ...]
    straight_ok: bool = True
    group: str = ""
    doses: int = 1
    facts: BedFacts = NOTHING_KNOWN
    given: tuple[GivenFood, ...] = ()

    def need(self, nutrient: str) -> NeedRange | None:
        """The range of one nutrient; None where the bed has none for it."""
        return next((need for need in self.needs if need.nutrient == nutrient), None)


class Fit(StrEnum):
    """What a bed gets beside its range, in a word."""

    SHORT = "short"
    RIGHT = "right"
    TOO_MUCH = "too much"


def fit(need: NeedRange, low: Fraction, high: Fraction) -> Fit:
    """The word for what a bed gets: `low` is held against the least, `high` against the most.

    All in the same unit [kg/m²]; for what has no low and high figure the two are the same.

    >>> from halfpail.sources import Mark
    >>> need = NeedRange(nutrient="N", least=Fraction(1), aim=Fraction(2), most=Fraction(3),
    ...                  cap=Fraction(3), citation=Citation(mark=Mark.PROPOSAL))
    >>> str(fit(need, low=Fraction(1, 2), high=Fraction(2)))
    'short'
    """
    if high > need.most:
        return Fit.TOO_MUCH
    return Fit.SHORT if low < need.least else Fit.RIGHT


class History(StrEnum):
    """What the ground got in the last three years."""

    FED = "fed"
    VIRGIN = "virgin"


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What is known of a bed without a soil test: its history, and compost year by year [m]."""

    history: History = History.FED
    compost_m_per_year: Fraction = Fraction(0)
    compost_years: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class UntestedRanges:
    """Ranges [kg/m²] for ground without a soil test, and what a layer of compost brings.

    `n` is the range of the crop's group. The cap of `p2o5_fed` is its most, which is what the
    crop removes, and the running surplus at which phosphorus stops. `compost_p2o5_kg_per_m3` is
    the P2O5 in a cubic metre of moist compost as spread.
    """

    n: NeedRange
    p2o5_fed: NeedRange
    p2o5_virgin: NeedRange
    k2o: NeedRange
    compost_p2o5_kg_per_m3: Fraction


def needs_without_test(ranges: UntestedRanges, ground: Ground) -> tuple[NeedRange, ...]:
    """The ranges [kg/m²] of a bed without a soil test: N by its crop, P2O5, K2O by its history.

    Phosphorus from compost already given, less what crops removed, counts as a running surplus
    and narrows the range. Where that surplus has reached the stop the bed gets nitrogen only,
    until a test says otherwise.

    >>> from halfpail.sources import Mark
    >>> def need(nutrient, least, aim, most, cap):
    ...     figures = [Fraction(each) for each in (least, aim, most, cap)]
    ...     return NeedRange(nutrient=nutrient, least=figures[0], aim=figures[1], most=figures[2],
    ...                      cap=figures[3], citation=Citation(mark=Mark.PROPOSAL))
    >>> ranges = UntestedRanges(n=need("N", 1, 2, 3, 3), p2o5_fed=need("P2O5", 0, 0, 1, 5),
    ...                         p2o5_virgin=need("P2O5", 0, 1, 3, 5), k2o=need("K2O", 0, 1, 2, 2),
    ...                         compost_p2o5_kg_per_m3=Fraction(100))
    >>> ground = Ground(compost_m_per_year=Fraction(2, 100), compost_years=3)
    >>> [int(each.cap) for each in needs_without_test(ranges, ground)]
    [3, 2, 2]
    """
    stop = ranges.p2o5_fed.cap - ranges.p2o5_fed.most
    surplus = compost_surplus_kg_per_m2(ranges, ground)
    if surplus >= stop:
        return (ranges.n, _nothing(ranges.p2o5_fed), _nothing(ranges.k2o))
    virgin = ground.history is History.VIRGIN and not surplus
    p2o5 = ranges.p2o5_virgin if virgin else ranges.p2o5_fed
    return (ranges.n, replace(p2o5, cap=p2o5.cap - surplus), ranges.k2o)


def compost_surplus_kg_per_m2(ranges: UntestedRanges, ground: Ground) -> Fraction:
    """P2O5 that compost brought beyond what crops removed [kg/m²], never below nought.

    >>> from halfpail.sources import Mark
    >>> none = NeedRange(nutrient="P2O5", least=Fraction(0), aim=Fraction(0), most=Fraction(0),
    ...                  cap=Fraction(0), citation=Citation(mark=Mark.PROPOSAL))
    >>> ranges = UntestedRanges(n=none, p2o5_fed=none, p2o5_virgin=none, k2o=none,
    ...                         compost_p2o5_kg_per_m3=Fraction(4))
    >>> ground = Ground(compost_m_per_year=Fraction(1, 100), compost_years=3)
    >>> compost_surplus_kg_per_m2(ranges, ground)
    Fraction(3, 25)
    """
    a_year = ground.compost_m_per_year * ranges.compost_p2o5_kg_per_m3 - ranges.p2o5_fed.most
    return max(Fraction(0), a_year * ground.compost_years)


def _nothing(need: NeedRange) -> NeedRange:
    none = Fraction(0)
    return replace(need, least=none, aim=none, most=none, cap=none)
