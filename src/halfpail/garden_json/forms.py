"""The shapes of the JSON files: one for each kind, checked by type while they are read."""

from collections.abc import Mapping
from datetime import date
from fractions import Fraction
from typing import Annotated

from msgspec import Meta, Struct

from halfpail.application.garden_entry import BagEntry, GardenEntry
from halfpail.application.kept import MixEntry, SeasonEntry
from halfpail.application.shared_pieces import SharedMix, SharedPlan
from halfpail.application.whole_garden import WholeGarden
from halfpail.domain.diary import Bought, Event, Fed, Harvested, Made, Noted
from halfpail.domain.season import SeasonPlan

VERSION = 1
MOST_LINES = 50_000


class Head(Struct, frozen=True):
    """What every file begins with: its kind, and the version of its form."""

    halfpail: str = ""
    version: int = 0


class Line(Struct, frozen=True, omit_defaults=True, forbid_unknown_fields=True):
    """A line of the diary, under the word for what was done."""

    bought: Bought | None = None
    made: Made | None = None
    fed: Fed | None = None
    harvested: Harvested | None = None
    noted: Noted | None = None

    @classmethod
    def of(cls, event: Event) -> "Line":
        """The line of an event."""
        return cls(
            bought=event if isinstance(event, Bought) else None,
            made=event if isinstance(event, Made) else None,
            fed=event if isinstance(event, Fed) else None,
            harvested=event if isinstance(event, Harvested) else None,
            noted=event if isinstance(event, Noted) else None,
        )

    @property
    def event(self) -> Event | None:
        """The one thing that was done; None where it is none or several."""
        told = [self.bought, self.made, self.fed, self.harvested, self.noted]
        found = [one for one in told if one is not None]
        return found[0] if len(found) == 1 else None


class GardenForm(Struct, frozen=True, forbid_unknown_fields=True):
    """A whole garden."""

    halfpail: str
    version: int
    garden: GardenEntry
    answers: Mapping[str, str]
    is_sample: bool
    put_away: tuple[BagEntry, ...]
    mixes: tuple[MixEntry, ...]
    diary: Annotated[tuple[Line, ...], Meta(max_length=MOST_LINES)]
    seasons: tuple[SeasonEntry, ...]

    @classmethod
    def of(cls, whole: WholeGarden) -> "GardenForm":
        """The form of a garden."""
        return cls(
            halfpail="garden",
            version=VERSION,
            garden=whole.garden,
            answers=whole.answers,
            is_sample=whole.is_sample,
            put_away=whole.put_away,
            mixes=whole.mixes,
            diary=tuple(map(Line.of, whole.diary)),
            seasons=whole.seasons,
        )

    @property
    def piece(self) -> WholeGarden:
        """The garden of the form."""
        return WholeGarden(
            garden=self.garden,
            answers=self.answers,
            is_sample=self.is_sample,
            put_away=self.put_away,
            mixes=self.mixes,
            diary=tuple(line.event for line in self.diary if line.event is not None),
            seasons=self.seasons,
        )


class MixForm(Struct, frozen=True, forbid_unknown_fields=True):
    """A mix handed on."""

    halfpail: str
    version: int
    mix: MixEntry
    bags: tuple[BagEntry, ...]
    scoop_l: Fraction
    elemental_labels: bool

    @classmethod
    def of(cls, shared: SharedMix) -> "MixForm":
        """The form of a mix."""
        return cls(
            halfpail="mix",
            version=VERSION,
            mix=shared.mix,
            bags=shared.bags,
            scoop_l=shared.scoop_l,
            elemental_labels=shared.elemental_labels,
        )

    @property
    def piece(self) -> SharedMix:
        """The mix of the form."""
        return SharedMix(
            mix=self.mix,
            bags=self.bags,
            scoop_l=self.scoop_l,
            elemental_labels=self.elemental_labels,
        )


class PlanForm(Struct, frozen=True, forbid_unknown_fields=True):
    """A plan handed on."""

    halfpail: str
    version: int
    name: str
    made_on: date
    plan: SeasonPlan
    garden: GardenEntry

    @classmethod
    def of(cls, shared: SharedPlan) -> "PlanForm":
        """The form of a plan."""
        return cls(
            halfpail="plan",
            version=VERSION,
            name=shared.name,
            made_on=shared.made_on,
            plan=shared.plan,
            garden=shared.garden,
        )

    @property
    def piece(self) -> SharedPlan:
        """The plan of the form."""
        return SharedPlan(name=self.name, made_on=self.made_on, plan=self.plan, garden=self.garden)


Form = GardenForm | MixForm | PlanForm
FORMS: Mapping[str, type[Form]] = {"garden": GardenForm, "mix": MixForm, "plan": PlanForm}
