"""What a person wrote of a garden, amounts read but labels and crops not yet looked up."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from halfpail.domain.bed import History
from halfpail.domain.garden import Preferences, Tools
from halfpail.findings import Fault


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedEntry:
    """One range typed by hand [kg/m²]; without a cap the most is the cap."""

    nutrient: str
    aim: Fraction
    most: Fraction
    least: Fraction = Fraction(0)
    cap: Fraction | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BedEntry:
    """One bed as typed; without needs they follow from the crop and the history."""

    name: str
    place: str
    area_m2: Fraction
    crop: str = ""
    history: History = History.FED
    compost_m_per_year: Fraction = Fraction(0)
    compost_years: int = 0
    needs: tuple[NeedEntry, ...] = ()
    straight_ok: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class BagEntry:
    """One bag as typed; the label is text as printed. Money is in the garden's currency."""

    name: str
    place: str
    label: str
    bag_kg: Fraction | None = None
    price: Fraction | None = None
    list_price: Fraction | None = None
    offered: int | None = None
    shed_kg: Fraction = Fraction(0)
    scoop_weighs_kg: Fraction | None = None
    straight_ok: bool = False
    avoid: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class GardenEntry:
    """A garden as typed, the faults found in reading it, and the line of each place."""

    name: str
    bags: tuple[BagEntry, ...]
    beds: tuple[BedEntry, ...]
    tools: Tools
    preferences: Preferences
    elemental_labels: bool = False
    faults: tuple[Fault, ...] = ()
    lines: Mapping[str, int] = field(default_factory=dict, hash=False)

    def line_of(self, place: str) -> int | None:
        """Line of a place, or of the nearest thing around it that has a line."""
        place = place.partition(",")[0]
        while place and place not in self.lines:
            place = re.sub(r"(?:\[\d+\]|\.?[^.\[\]]+)$", "", place)
        return self.lines.get(place)

    def in_order(self, faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
        """Faults from the top of the text to its end, each with its line."""
        numbered = sorted(
            ((self.line_of(fault.place) or 0, fault) for fault in faults), key=lambda pair: pair[0]
        )
        return tuple(
            replace(fault, place=f"{fault.place} (line {line})" if line else fault.place)
            for line, fault in numbered
        )
