"""What pages and commands ask of the store: drawers of a garden, diary, drafts and jobs.

Everything that changes something names the version it saw; if another window was faster, nothing
is changed and `Conflict` carries what stands there now. A `token` makes an addition safe to send
twice: the second time answers what the first one kept. All of it raises `StoreTrouble`.
"""

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Protocol, TypeVar

from halfpail.application.brought_in import Brought, Changes
from halfpail.application.garden_entry import BagEntry, BedEntry, GardenEntry
from halfpail.application.kept import (
    GardenSettings,
    Job,
    JobState,
    Kept,
    MixEntry,
    SeasonEntry,
    StoreFile,
)
from halfpail.application.whole_garden import WholeGarden
from halfpail.domain.diary import Event

T = TypeVar("T")


class Drawer(Protocol[T]):
    """Values of one kind, in the order they were added; what is removed goes to a bin."""

    def all(self) -> tuple[Kept[T], ...]:
        """Everything that is not in the bin."""
        ...

    def bin(self) -> tuple[Kept[T], ...]:
        """Everything that was removed, the latest first."""
        ...

    def get(self, key: int) -> Kept[T]:
        """One of them; `Missing` where it is not there."""
        ...

    def add(self, value: T, token: str = "") -> Kept[T]:
        """Keep a new one."""
        ...

    def change(self, key: int, version: int, value: T) -> Kept[T]:
        """Put a value in the place of the one that was seen."""
        ...

    def remove(self, key: int, version: int) -> None:
        """Move it to the bin."""
        ...

    def put_back(self, key: int) -> Kept[T]:
        """Take it out of the bin again."""
        ...


class DiaryBook(Protocol):
    """What really happened, by date; a batch or a purchase changes what is in the shed."""

    def all(self, since: date | None = None) -> tuple[Kept[Event], ...]:
        """Every event that was not undone, from a day on, by date and then as written."""
        ...

    def undone(self) -> tuple[Kept[Event], ...]:
        """Events that were undone, the latest first."""
        ...

    def record(self, event: Event, token: str = "") -> Kept[Event]:
        """Write an event down and move the stock; `Missing` where it names nothing known."""
        ...

    def undo(self, key: int) -> None:
        """Mark an event as undone and give the stock back."""
        ...

    def redo(self, key: int) -> Kept[Event]:
        """Write an undone event down again."""
        ...


class Imports(Protocol):
    """What files brought into one garden."""

    def get(self, token: str) -> Brought | None:
        """What was brought under a token; None where nothing was."""
        ...

    def latest(self) -> tuple[Brought, ...]:
        """What was brought lately, the newest first."""
        ...

    def bring(self, changes: Changes, token: str, file: str = "") -> Brought:
        """Keep everything or nothing; `file` is the name of the file it came from."""
        ...

    def take_back(self, token: str) -> Brought:
        """Put everything back as it was; what was changed since stays, and is named."""
        ...


class Shelf(Protocol):
    """One garden in the store."""

    @property
    def bags(self) -> Drawer[BagEntry]:
        """Its bags."""
        ...

    @property
    def beds(self) -> Drawer[BedEntry]:
        """Its beds."""
        ...

    @property
    def mixes(self) -> Drawer[MixEntry]:
        """The mixes that were kept."""
        ...

    @property
    def seasons(self) -> Drawer[SeasonEntry]:
        """The plans that were kept."""
        ...

    @property
    def diary(self) -> DiaryBook:
        """Its diary."""
        ...

    @property
    def imports(self) -> Imports:
        """What files brought into it."""
        ...

    def garden(self) -> GardenEntry:
        """The whole garden as typed, as a garden file would tell it."""
        ...

    def keep_mix(self, mix: MixEntry, bags: Sequence[BagEntry], token: str) -> Kept[MixEntry]:
        """Keep a mix with bags that come with it, all of it or nothing; once, if sent twice."""
        ...


class Drafts(Protocol):
    """What was typed into a form and not saved yet, by the key of the form."""

    def get(self, form: str) -> Mapping[str, str]:
        """The fields of a form as typed; nothing where there is no draft."""
        ...

    def keep(self, form: str, fields: Mapping[str, str]) -> None:
        """Keep what is typed."""
        ...

    def drop(self, form: str) -> None:
        """Forget a draft, since the form was saved or given up."""
        ...

    def keep_few(self, start: str, most: int) -> None:
        """Forget all but the newest of the drafts whose keys start so."""
        ...


class Jobs(Protocol):
    """Long pieces of work, each done by a process of its own."""

    def add(self, kind: str, question: str, token: str = "") -> Job:
        """A new job, waiting."""
        ...

    def get(self, key: int) -> Job:
        """One job; `Missing` where it is not there."""
        ...

    def sent_as(self, token: str) -> Job | None:
        """The job that was added with a token; None where there is none."""
        ...

    def latest(self, kind: str) -> Job | None:
        """The newest job of a kind."""
        ...

    def begin(self, key: int, pid: int) -> Job | None:
        """Take a waiting job; None where another process was faster."""
        ...

    def report(self, key: int, pid: int, progress: str) -> bool:
        """Tell how far it is; whether to go on."""
        ...

    def end(self, key: int, pid: int, state: JobState, result: str) -> bool:
        """Close a running job; whether it was still this process's own."""
        ...

    def ask_to_stop(self, key: int) -> None:
        """Ask for the best found so far; a job that waits is stopped at once."""
        ...

    def try_again(self, key: int) -> Job:
        """Let a failed or stopped job wait for another attempt."""
        ...

    def fail_lost(self, is_alive: Callable[[int], bool]) -> int:
        """Mark running jobs as failed whose process is gone; how many there were."""
        ...


class Backups(Protocol):
    """Backups of one data folder; the last ten stay."""

    def make(self, into: Path | None = None) -> StoreFile:
        """A backup of the store as it is now, among the others or in a file of its own."""
        ...

    def bring(self, content: bytes) -> StoreFile:
        """A backup from elsewhere, put among the others; refused where it cannot be restored."""
        ...

    def all(self) -> tuple[StoreFile, ...]:
        """Every good backup, the newest first."""
        ...

    def look_at(self, path: Path) -> StoreFile:
        """What a backup holds; refused where it cannot be restored."""
        ...

    def restore(self, path: Path) -> Path | None:
        """Put a backup in the place of the store; where the present one is kept, if there is one.

        The store must be opened anew afterwards.
        """
        ...


class Held(Protocol):
    """A data folder held for one server."""

    def tell(self, address: str) -> None:
        """Leave word of the address it is served under."""
        ...

    def let_go(self) -> None:
        """Leave it to the next server."""
        ...


class Store(Protocol):
    """Everything that is kept on this machine."""

    @property
    def read_only(self) -> bool:
        """Whether it can only be looked at."""
        ...

    @property
    def gardens(self) -> Drawer[GardenSettings]:
        """The gardens, without their bags and beds."""
        ...

    @property
    def drafts(self) -> Drafts:
        """What was typed and not saved yet."""
        ...

    @property
    def jobs(self) -> Jobs:
        """Long pieces of work."""
        ...

    def shelf(self, garden: int) -> Shelf:
        """The shelf of one garden; `Missing` where it is not there."""
        ...

    def put_in(self, entry: GardenEntry, *, is_sample: bool = False) -> int:
        """A garden as typed, all of it or nothing; answers its key."""
        ...

    def put_in_whole(self, whole: WholeGarden) -> int:
        """A garden with all that was kept of it, or nothing; answers its key."""
        ...

    def seen(self) -> frozenset[str]:
        """Keys of the notices that were shown and put away."""
        ...

    def put_away(self, notice: str) -> None:
        """Remember that a notice was seen."""
        ...
