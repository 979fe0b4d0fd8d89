"""Everything that is kept of one garden as one value, to be written to a file and read again."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Protocol

from halfpail.application.garden_entry import BagEntry, GardenEntry
from halfpail.application.kept import MixEntry, SeasonEntry
from halfpail.application.shared_pieces import SharedMix, SharedPlan
from halfpail.domain.diary import Event


@dataclass(frozen=True, slots=True, kw_only=True)
class WholeGarden:
    """A garden with its mixes, its diary and its plans.

    `answers` are what the pages asked once, as typed. `put_away` are bags that lie in the bin and
    that a kept mix still names. What else lies in the bin, and lines of the diary that were undone,
    stay behind.
    """

    garden: GardenEntry
    answers: Mapping[str, str] = field(default_factory=dict, hash=False)
    is_sample: bool = False
    put_away: tuple[BagEntry, ...] = ()
    mixes: tuple[MixEntry, ...] = ()
    diary: tuple[Event, ...] = ()
    seasons: tuple[SeasonEntry, ...] = ()


Piece = WholeGarden | SharedMix | SharedPlan


class JsonFiles(Protocol):
    """Writes gardens and shared pieces as JSON with a version, and reads them again."""

    def write(self, piece: Piece) -> bytes:
        """The file; the same value gives the same bytes."""
        ...

    def read(self, data: bytes) -> Piece:
        """What a file holds.

        Raises:
            Refusal: it is no such file, is broken, too long, or of a newer program.
        """
        ...


def without_text(entry: GardenEntry) -> GardenEntry:
    """A garden as typed, without where in a text it stood and what was wrong there."""
    return replace(entry, faults=(), lines={})
