"""What is kept between two visits beside bags and beds, as values without a database."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from enum import StrEnum
from pathlib import Path
from typing import Generic, TypeVar

from halfpail.application.garden_entry import GardenEntry
from halfpail.domain.season import SeasonPlan

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept(Generic[T]):
    """A value in the store: its key, and the version that a change must name."""

    key: int
    version: int
    value: T


@dataclass(frozen=True, slots=True, kw_only=True)
class GardenSettings:
    """A garden without its bags and beds, which lie in drawers of their own.

    `answers` are what the pages asked once, as typed, by the name of the field.
    """

    about: GardenEntry
    is_sample: bool = False
    answers: Mapping[str, str] = field(default_factory=dict, hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class MixEntry:
    """A mix that was kept: whole scoops by the name of the bag, and what it is for."""

    name: str
    scoops: Mapping[str, int] = field(hash=False)
    purpose: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonEntry:
    """A plan that was kept as it was made, with the garden it was made for.

    `chosen` marks the plan that is followed.
    """

    name: str
    made_on: date
    plan: SeasonPlan
    garden: GardenEntry
    chosen: bool = False
    note: str = ""


class JobState(StrEnum):
    """How a long piece of work stands."""

    WAITING = "waiting"
    RUNNING = "running"
    DONE = "done"
    STOPPED = "stopped"
    FAILED = "failed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A long piece of work; `question`, `progress` and `result` are text in the kind's own form.

    `attempt` counts how often it was begun, `pid` and `heartbeat` tell the process at work on it.
    """

    key: int
    kind: str
    question: str
    state: JobState
    progress: str = ""
    result: str = ""
    pid: int | None = None
    heartbeat: datetime | None = None
    attempt: int = 0
    stop_asked: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class StoreFile:
    """What a file of the store holds: when it was made, the version of its form, and counts.

    The version is nought where nothing is in it yet. `loose` marks a plain copy of a file that was
    open: what stood beside it may be missing.
    """

    path: Path
    made_at: datetime
    version: int
    counts: tuple[tuple[str, int], ...]
    loose: bool = False
