"""What is asked about lime, and whether it can be so."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from halfpail.domain.label import Analysis
from halfpail.domain.lime_method import Buffer, Span, Texture
from halfpail.domain.liming_value import FinenessSystem
from halfpail.domain.soil_test import BufferReading
from halfpail.findings import Fault, Refusal
from halfpail.quantities.rounding import shortest
from halfpail.quantities.units import System, size_of

# What a soil, a buffer and a report can show at all; wider than any method.
SOIL_PH = Span(low=Fraction(3), high=Fraction(10))
BUFFER_PH = Span(low=Fraction(4), high=Fraction(8))
ACIDITY = Span(low=Fraction(0), high=Fraction(60))
TARGET_PH = Span(low=Fraction(4), high=Fraction(7))
_INCH = size_of("in")
DEPTH_M = Span(low=2 * _INCH, high=12 * _INCH)


class BedUse(StrEnum):
    """What a bed is kept for, as far as its one target pH goes."""

    ORDINARY = "most crops"
    POTATOES = "potatoes in rotation"
    ACID = "acid-loving crops only"
    CONTAINER = "container or bought mix"


class Found(StrEnum):
    """What a soil test says of calcium or magnesium."""

    LOW = "low"
    ENOUGH = "enough"
    UNTESTED = "not tested"


@dataclass(frozen=True, slots=True, kw_only=True)
class EarlierLime:
    """Lime already given, as pure calcium carbonate [kg/m²], and how many months ago."""

    rate_kg_per_m2: Fraction
    months: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class LimeProduct:
    """A liming material: its key in the materials table, and what the bag says of its value.

    `cce` [kg CaCO3 per kg] None means the table's; `effective` is the value a bag prints with
    fineness counted in [kg/kg]; `passing` the share through each mesh [0-1].
    """

    key: str
    cce: Fraction | None = None
    effective: Fraction | None = None
    passing: tuple[tuple[int, Fraction], ...] = ()
    system: FinenessSystem = FinenessSystem.NEW_YORK


@dataclass(frozen=True, slots=True, kw_only=True)
class PailMix:
    """A mix with lime in it: its analysis, lime by weight [0-1], and how much is spread [kg/m²]."""

    analysis: Analysis
    lime_share: Fraction
    rate_kg_per_m2: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class LimeQuestion:
    """One bed of `area_m2` and everything known of its acidity.

    Without `target_ph` the use of the bed sets it; without `product` the magnesium test picks the
    limestone. `method` is a key of the lime methods where one is wished.
    """

    soil_ph: Fraction
    area_m2: Fraction
    use: BedUse = BedUse.ORDINARY
    target_ph: Fraction | None = None
    buffer: BufferReading | None = None
    method: str = ""
    texture: Texture | None = None
    cec_meq_per_100_g: Fraction | None = None
    depth_m: Fraction | None = None
    earlier: EarlierLime | None = None
    product: LimeProduct | None = None
    calcium: Found = Found.UNTESTED
    magnesium: Found = Found.UNTESTED
    free_lime: bool = False
    planted: bool = True
    pail: PailMix | None = field(default=None, hash=False)
    system: System = System.US


def check_lime_question(question: LimeQuestion) -> None:
    """See that every figure can be so.

    Raises:
        Refusal: with every figure that cannot.
    """
    faults = tuple(_faults(question))
    if faults:
        raise Refusal(*faults)


def _faults(question: LimeQuestion) -> Iterator[Fault]:
    if not SOIL_PH.holds(question.soil_ph):
        yield _ph_fault("soil pH", question.soil_ph, SOIL_PH, "Soils lie between")
    if question.target_ph is not None and not TARGET_PH.holds(question.target_ph):
        yield _ph_fault("target pH", question.target_ph, TARGET_PH, "No garden bed aims outside")
    if question.buffer is not None:
        yield from _buffer_faults(question.buffer)
    if question.depth_m is not None and not DEPTH_M.holds(question.depth_m):
        yield Fault(
            place="depth",
            read=f"{shortest(question.depth_m / _INCH, 1)} in",
            sentence="Lime is worked 2 to 12 inches deep.",
            remedy="Write how deep you dig it in, such as 6 in, or leave it out.",
        )
    if question.use is BedUse.ACID and (question.target_ph or 0) > 6:
        yield Fault(
            place="target pH",
            read=_plain(question.target_ph or Fraction(0)),
            sentence="Acid-loving crops do not stand so sweet a soil.",
            remedy="Leave the target out, or give the bed another use.",
        )


def _buffer_faults(reading: BufferReading) -> Iterator[Fault]:
    if reading.buffer is Buffer.ACIDITY:
        if not ACIDITY.holds(reading.value):
            yield Fault(
                place="buffer",
                read=_plain(reading.value),
                sentence="Exchangeable acidity lies between 0 and 60 meq per 100 g.",
                remedy="Check the report: this figure may be a pH or a percentage.",
            )
    elif not BUFFER_PH.holds(reading.value):
        index = 60 <= reading.value <= 72
        yield Fault(
            place="buffer",
            read=_plain(reading.value),
            sentence="A buffer pH lies between 4 and 8.",
            remedy=f"A lime index of {_plain(reading.value)} is a buffer pH of "
            f"{_plain(reading.value / 10)}."
            if index
            else "Check the report: a buffer pH, not the acidity, is wanted here.",
        )


def _ph_fault(place: str, value: Fraction, span: Span, words: str) -> Fault:
    low, high = _plain(span.low or Fraction(0)), _plain(span.high or Fraction(0))
    return Fault(
        place=place,
        read=_plain(value),
        sentence=f"{words} pH {low} and {high}.",
        remedy=f"Write a pH from {low} to {high}, such as 6.2.",
    )


def _plain(value: Fraction) -> str:
    return shortest(value, 2)
