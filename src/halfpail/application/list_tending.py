"""What a garden asks for beside its feedings: sowing indoors, planting, lime, soil samples.

What was done is told by notes of the diary: a note that begins with the words of a task takes off
the earliest task of these words.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date

from halfpail.application.date_plantings import date_plantings
from halfpail.application.dated_task import Task
from halfpail.application.place_in_season import Stand
from halfpail.domain.diary import Event, Noted
from halfpail.domain.frost_calendar import FrostDates
from halfpail.quantities.dates import day_words

LIME = "lime"
TENDING = ("plant", LIME, "soil test")


def list_sowings(stands: Mapping[str, Stand], frost: FrostDates) -> Iterator[Task]:
    """When crops that are set out as plants are sown indoors, all beds of a crop together.

    A bed whose planting day was typed is left out: the tables do not know when it was meant.
    """
    beds: dict[str, list[str]] = {}
    for bed, stand in stands.items():
        if stand.planting is not None:
            beds.setdefault(stand.crop.name, []).append(bed)
    for crop, names in beds.items():
        dates = date_plantings(crop, frost)
        if dates.indoors is None:
            continue
        until = dates.indoors.until
        yield Task(
            key=f"sow/{crop}",
            on=dates.indoors.start,
            kind="plant",
            title=f"Sow {crop.lower()} indoors: {', '.join(names)}",
            details=f"until {day_words(until)}" if until else "",
        )


def left_to_tend(tasks: Iterable[Task], since: date, events: Iterable[Event]) -> tuple[Task, ...]:
    """The tasks that are no feeding, from a day on, less those that notes say were done."""
    done: Counter[str] = Counter()
    notes = [event.note.casefold() for event in events if isinstance(event, Noted)]
    ahead = sorted((task for task in tasks if task.on >= since), key=lambda task: task.on)
    wanted = [task for task in ahead if task.kind in TENDING]
    words = sorted({words_of(task).casefold() for task in wanted}, key=len, reverse=True)
    for note in notes:
        said = next((one for one in words if note.startswith(one)), None)
        if said is not None:
            done[said] += 1
    return tuple(_left(wanted, done))


def words_of(task: Task) -> str:
    """The words of a task for the diary: without its amount, which depends on the units.

    >>> words_of(Task(key="a", on=date(2026, 11, 1), kind="lime",
    ...               title="Spread ground limestone: East, 4 lb"))
    'Spread ground limestone: East'
    """
    return task.title.rpartition(", ")[0] if task.kind == LIME else task.title


def _left(tasks: Sequence[Task], done: Counter[str]) -> Iterator[Task]:
    for task in tasks:
        words = words_of(task).casefold()
        if done[words]:
            done[words] -= 1
        else:
            yield task
