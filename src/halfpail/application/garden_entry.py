"""What a person wrote of a garden, amounts read but labels and crops not yet looked up.

Beside the exact amounts `typed` keeps the words they were read from, by the key they stand under
("weight", "need.N.aim", "tools.scoop"). It is an echo and no part of the value: where the amount
was changed since, the words no longer hold.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from fractions import Fraction

from halfpail.application.lime_question import BedUse, EarlierLime
from halfpail.application.need_question import WHOLE, NitrogenSources
from halfpail.application.warm_soil import WarmthQuestion
from halfpail.domain.bed import History
from halfpail.domain.garden import Preferences, Tools
from halfpail.domain.manure_interval import Contact, Treatment
from halfpail.domain.soil_test import SoilTest
from halfpail.findings import Fault

NO_SOURCES = NitrogenSources()


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedEntry:
    """One range typed by hand [kg/m²]; without a cap the most is the cap."""

    nutrient: str
    aim: Fraction
    most: Fraction
    least: Fraction = Fraction(0)
    cap: Fraction | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CropEntry:
    """One of several crops of a bed as typed: its share [0-1], turn, yield [kg/m²] and dates."""

    place: str
    crop: str
    share: Fraction = WHOLE
    succession: int = 1
    yield_kg_per_m2: Fraction | None = None
    planted: date | None = None
    harvest: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class YearEntry:
    """An earlier year of a bed as typed: all P2O5 given, and the harvest [both kg/m²]."""

    place: str
    year: int
    given_kg_per_m2: Fraction
    crop: str
    yield_kg_per_m2: Fraction | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GivenEntry:
    """What a bed got already this season as typed: a bag's name or a label, weight [kg], date."""

    place: str
    of: str
    mass_kg: Fraction
    on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class BedEntry:
    """One bed as typed; without needs they follow from its crops, soil test and history.

    A bed of several crops lists them and has no `crop` of its own. Dates that are None follow from
    the frost dates. `nitrate_n_mg_per_kg` is a nitrate test of this season; `use`, `earlier_lime`
    and `free_lime` matter to lime and sulfur.
    """

    name: str
    place: str
    area_m2: Fraction
    crop: str = ""
    history: History = History.FED
    compost_m_per_year: Fraction = Fraction(0)
    compost_years: int = 0
    yield_kg_per_m2: Fraction | None = None
    crops: tuple[CropEntry, ...] = ()
    container_l: Fraction | None = None
    soil_test: SoilTest | None = None
    nitrogen: NitrogenSources = NO_SOURCES
    years: tuple[YearEntry, ...] = ()
    needs: tuple[NeedEntry, ...] = ()
    planted: date | None = None
    harvest: date | None = None
    contact: Contact = Contact.SOIL
    nitrate_n_mg_per_kg: Fraction | None = None
    given: tuple[GivenEntry, ...] = ()
    use: BedUse | None = None
    earlier_lime: EarlierLime | None = None
    free_lime: bool = False
    straight_ok: bool = True
    typed: Mapping[str, str] = field(default_factory=dict, compare=False)


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
    treatment: Treatment = Treatment.UNKNOWN
    typed: Mapping[str, str] = field(default_factory=dict, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class GardenEntry:
    """A garden as typed, the faults found in reading it, and the line of each place.

    `climate` is how warm the place is; None where nothing is told.
    """

    name: str
    bags: tuple[BagEntry, ...]
    beds: tuple[BedEntry, ...]
    tools: Tools
    preferences: Preferences
    elemental_labels: bool = False
    climate: WarmthQuestion | None = None
    faults: tuple[Fault, ...] = ()
    lines: Mapping[str, int] = field(default_factory=dict, compare=False)
    typed: Mapping[str, str] = field(default_factory=dict, compare=False)

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
