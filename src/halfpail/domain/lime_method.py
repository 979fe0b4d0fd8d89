"""What a laboratory measures of a soil's acidity, and where a way to a lime requirement holds."""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from halfpail.sources import Citation


class Buffer(StrEnum):
    """The figure of a soil report that tells how much acid hides in the soil."""

    MEHLICH = "Mehlich buffer pH"
    ACIDITY = "Mehlich exchangeable acidity"
    ADAMS_EVANS = "Adams-Evans buffer pH"
    SMP = "SMP buffer pH"
    SIKORA = "Sikora buffer pH"


class Texture(StrEnum):
    """Texture of the soil, as far as lime and sulfur tables tell it apart."""

    SAND = "sand"
    SANDY_LOAM = "sandy loam"
    LOAM = "loam"
    CLAY_LOAM = "clay loam"
    CLAY = "clay"
    ORGANIC = "organic"


class Use(StrEnum):
    """Whether a published figure may be used for a bed."""

    BED = "for beds"
    SHOWN = "published, not used"


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """From a low to a high figure, both included; an open end is None."""

    low: Fraction | None = None
    high: Fraction | None = None

    def holds(self, value: Fraction) -> bool:
        """Whether a value [unit of the span] lies in it.

        >>> Span(low=Fraction(5)).holds(Fraction(4))
        False
        """
        return (self.low is None or value >= self.low) and (self.high is None or value <= self.high)


@dataclass(frozen=True, slots=True, kw_only=True)
class Validity:
    """Where a method holds: its reading, the soil pH, the target, the depth [m], and in words."""

    reading: Span
    soil_ph: Span
    target_ph: Span
    depth_m: Fraction | None = None
    condition: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LimeMethod:
    """One way to a lime requirement: what it reads, where it holds, and who says so."""

    key: str
    name: str
    buffer: Buffer | None
    validity: Validity
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class LimeNeed:
    """Pure calcium carbonate a soil needs [kg/m²], with the method that says so."""

    rate_kg_per_m2: Fraction
    method: LimeMethod
