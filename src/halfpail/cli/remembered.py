"""What planning and weighing found for a garden, kept in a file beside it for the next time."""

from dataclasses import dataclass, replace
from hashlib import sha256
from pathlib import Path

from halfpail import __version__
from halfpail.application.date_season import DatedFeed
from halfpail.application.garden_entry import GardenEntry
from halfpail.application.warm_soil import WarmthQuestion
from halfpail.application.weigh_for_shop import ForTheShop
from halfpail.application.whole_garden import without_text
from halfpail.domain.season import SeasonPlan
from halfpail.findings import Fault, Notice, Refusal
from halfpail.wiring import services


@dataclass(frozen=True, slots=True, kw_only=True)
class Remembered:
    """What was found: the plan, its dated feedings with what to mind of them, and for the shop.

    `of` is a mark of the garden, its climate and the program it was found by.
    """

    of: str
    plan: SeasonPlan
    feeds: tuple[DatedFeed, ...]
    notices: tuple[Notice, ...]
    shop: ForTheShop | None = None


def mark_of(entry: GardenEntry, climate: WarmthQuestion | None) -> str:
    """A mark that is another one as soon as anything of the garden or the program is."""
    plain = replace(without_text(entry), typed={}, climate=climate)
    told = services().to_text(plain)
    return sha256(f"{__version__}\n{told}".encode()).hexdigest()


def recall(path: Path | None, mark: str) -> Remembered | None:
    """What a file remembers of this very garden; None where it is of another, or no such file."""
    if path is None or not path.is_file():
        return None
    try:
        found = services().from_text(Remembered, path.read_text(encoding="utf-8"))
    except (OSError, ValueError, TypeError, KeyError, AttributeError):
        return None
    return found if found.of == mark else None


def remember(path: Path | None, found: Remembered) -> None:
    """Write down what was found, where a file is named for it.

    Raises:
        Refusal: it cannot be written.
    """
    if path is None:
        return
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(services().to_text(found), encoding="utf-8")
    except OSError as error:
        said = f"It cannot be written: {error.strerror}."
        raise Refusal(Fault(place="--remember", read=str(path), sentence=said)) from None
