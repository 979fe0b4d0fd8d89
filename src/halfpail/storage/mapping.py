"""Rows to values and back: one pair of functions for each kind, and no third shape between."""

import json
from collections.abc import Mapping
from dataclasses import fields, replace
from functools import lru_cache
from typing import Any, Protocol, TypeVar

from halfpail.application.garden_entry import BagEntry, BedEntry, GardenEntry
from halfpail.application.kept import GardenSettings, MixEntry, SeasonEntry
from halfpail.domain.diary import Bought, Event, Fed, Harvested, Made, Noted
from halfpail.domain.season import SeasonPlan
from halfpail.storage import models
from halfpail.storage.plain_data import from_plain, to_plain

T = TypeVar("T")

KINDS: Mapping[str, type[Event]] = {
    "bought": Bought,
    "made": Made,
    "fed": Fed,
    "harvested": Harvested,
    "noted": Noted,
}
_NAMED_IN: Mapping[type[Event], str] = {Bought: "bag", Made: "mix", Fed: "of"}
KIND_OF = {kind: name for name, kind in KINDS.items()}

# Where in the text an entry stood says nothing of the garden; the order of the rows tells it anew.
_PLACE = "place"

Columns = dict[str, Any]


class Mapper(Protocol[T]):
    """The pair of one kind."""

    @property
    def model(self) -> type[models.Row]:
        """The rows."""
        ...

    def to_row(self, value: T) -> Columns:
        """The columns of a value."""
        ...

    def from_row(self, row: Any) -> T:
        """The value of a row."""
        ...


def name_key(name: str) -> str:
    """A name without case and odd spaces: names that differ only so are the same name.

    >>> name_key(" North  Bed")
    'north bed'
    """
    return " ".join(name.split()).casefold()


class _ByColumns:
    """Fields that have a column of their name go there, the rest into `more`."""

    def __init__(self, model: type[models.Row], kind: type) -> None:
        self.model = model
        self.kind = kind
        own = {column.name for column in model._meta.concrete_fields}
        self.names = [one.name for one in fields(kind) if one.name != _PLACE]
        self.in_columns = [name for name in self.names if name in own]

    def to_row(self, value: Any) -> Columns:
        """The columns of an entry."""
        row = {name: to_plain(getattr(value, name)) for name in self.in_columns}
        rest = {name: one for name, one in to_plain(value).items() if name in self.names}
        row["more"] = {name: one for name, one in rest.items() if name not in row}
        return {**row, "name_key": name_key(value.name)}

    def from_row(self, row: Any) -> Any:
        """The entry of a row; its place is told by the list it stands in."""
        plain = {name: getattr(row, name) for name in self.in_columns} | row.more
        return from_plain(self.kind, {_PLACE: "", **plain})


class BagMapper(_ByColumns):
    """Bags as typed."""

    def __init__(self) -> None:
        super().__init__(models.Bag, BagEntry)


class BedMapper(_ByColumns):
    """Beds as typed."""

    def __init__(self) -> None:
        super().__init__(models.Bed, BedEntry)


class GardenMapper:
    """Gardens without their bags and beds."""

    model = models.Garden

    def to_row(self, value: GardenSettings) -> Columns:
        """The columns of a garden."""
        return {
            "name": value.about.name,
            "is_sample": value.is_sample,
            "about": garden_to_plain(replace(value.about, bags=(), beds=())),
            "answers": dict(value.answers),
        }

    def from_row(self, row: models.Garden) -> GardenSettings:
        """The garden of a row."""
        return GardenSettings(
            about=from_plain(GardenEntry, row.about), is_sample=row.is_sample, answers=row.answers
        )


class MixMapper:
    """Mixes that were kept; the rows come with their parts and the bags of these."""

    model = models.Mix

    def to_row(self, value: MixEntry) -> Columns:
        """The columns of a mix, its scoops left out."""
        return {
            "name": value.name,
            "name_key": name_key(value.name),
            "purpose": value.purpose,
            "note": value.note,
        }

    def from_row(self, row: models.Mix) -> MixEntry:
        """The mix of a row with its parts, bags under their present names."""
        parts = sorted(row.parts.all(), key=lambda part: part.pk)
        scoops = {part.bag.name: part.scoops for part in parts}
        return MixEntry(name=row.name, scoops=scoops, purpose=row.purpose, note=row.note)


class SeasonMapper:
    """Plans that were kept, as they were made."""

    model = models.Season

    def to_row(self, value: SeasonEntry) -> Columns:
        """The columns of a plan."""
        return {
            "name": value.name,
            "name_key": name_key(value.name),
            "made_on": value.made_on,
            "chosen": value.chosen,
            "note": value.note,
            "plan_as_made": to_plain(value.plan),
            "garden_as_planned": garden_to_plain(value.garden),
        }

    def from_row(self, row: models.Season) -> SeasonEntry:
        """The plan of a row."""
        return SeasonEntry(
            name=row.name,
            made_on=row.made_on,
            plan=from_plain(SeasonPlan, row.plan_as_made),
            garden=from_plain(GardenEntry, row.garden_as_planned),
            chosen=row.chosen,
            note=row.note,
        )


class DiaryMapper:
    """Events; the row's bed, bag and mix give the names they bear now."""

    model = models.DiaryLine

    def to_row(self, value: Event) -> Columns:
        """The columns of an event, what it points to left out."""
        return {"kind": KIND_OF[type(value)], "on": value.on, "event": to_plain(value)}

    def from_columns(self, kind: str, text: str, bed: str | None, what: str | None) -> Event:
        """The event of a row: its kind, its text, and the names of its bed and its bag or mix."""
        return _event(kind, text, bed, what)


@lru_cache(maxsize=5_000)
def _event(kind: str, text: str, bed: str | None, what: str | None) -> Event:
    """The event of a line, read once: a diary is read whole for each of its pages."""
    event = from_plain(KINDS[kind], json.loads(text))
    names = {"bed": bed} if bed else {}
    if what:
        names[_NAMED_IN[type(event)]] = what
    return replace(event, **names) if names else event  # type: ignore[arg-type]  # names alone


def garden_to_plain(entry: GardenEntry) -> Any:
    """A garden as typed as plain data, without where in a text it stood."""
    return to_plain(replace(entry, faults=(), lines={}))
