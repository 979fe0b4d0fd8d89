"""What there is to do in a season, each on its day: samples, lime, stirring, feeding, planting."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from halfpail.application.date_feedings import PlannedFeeding, Schedule
from halfpail.application.season_answer import MixAnswer, SeasonAnswer
from halfpail.application.tell_season import mix_name
from halfpail.domain.frost_calendar import FrostDates
from halfpail.quantities.dates import day_words
from halfpail.quantities.showing import show_mass, show_scoops, show_volume
from halfpail.quantities.units import System

# Our defaults, not published: soil is sampled when the beds are cleared, lime has the winter to
# work, and a mix is stirred in the week before its first use.
SAMPLE_AFTER_FROST = timedelta(days=0)
LIME_AFTER_FROST = timedelta(days=21)
STIR_BEFORE = timedelta(days=7)


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One thing to do on a day; `key` stays the same while the task is the same task."""

    key: str
    on: date
    kind: str
    title: str
    details: str = ""


def list_tasks(
    answer: SeasonAnswer, schedule: Schedule, frost: FrostDates, system: System
) -> tuple[Task, ...]:
    """The tasks of a season in the order of their days; doses without a day are left out."""
    found = [
        *_stirring(answer, schedule, system),
        *_planting(schedule),
        *_feeding(schedule, system),
        *_after_harvest(frost),
    ]
    return tuple(sorted(found, key=lambda task: (task.on, task.kind, task.key)))


def _stirring(answer: SeasonAnswer, schedule: Schedule, system: System) -> Iterator[Task]:
    for number, mix in enumerate(answer.mixes):
        name = mix_name(number)
        days = [one.on for one in schedule.feedings if one.of == name and one.on]
        if days:
            yield Task(
                key=f"stir/{name}",
                on=min(days) - STIR_BEFORE,
                kind="stir",
                title=f"Stir {name}",
                details=_recipe(mix, system),
            )


def _recipe(mix: MixAnswer, system: System) -> str:
    scoops = " + ".join(f"{part.scoops} {part.bag.name}" for part in mix.round.parts)
    pails = "" if mix.pails is None else f", in {mix.pails} pail{'s' * (mix.pails != 1)}"
    rounds = f"{mix.rounds} round{'s' * (mix.rounds != 1)}"
    return f"{rounds} of {scoops} (scoops), {show_mass(mix.made_kg, system)}{pails}"


def _planting(schedule: Schedule) -> Iterator[Task]:
    for bed, stand in schedule.stands.items():
        yield Task(
            key=f"plant/{bed}",
            on=stand.planted,
            kind="plant",
            title=f"Plant {stand.crop.name.lower()}: {bed}",
            details=f"harvest from about {day_words(stand.harvest)}",
        )


def _feeding(schedule: Schedule, system: System) -> Iterator[Task]:
    for one in schedule.feedings:
        if one.on is not None:
            yield Task(
                key=f"feed/{one.bed}/{one.of}/{one.dose}",
                on=one.on,
                kind="feed",
                title=f"Feed {one.bed}: {show_scoops(one.scoops)} of {one.of}",
                details=_dose_words(one, system),
            )


def _dose_words(one: PlannedFeeding, system: System) -> str:
    dose = f", dose {one.dose} of {one.doses}" if one.doses > 1 else ""
    return f"{show_volume(one.volume_l, system)}, {show_mass(one.mass_kg, system)}{dose}"


def _after_harvest(frost: FrostDates) -> Iterator[Task]:
    yield Task(
        key="soil test",
        on=frost.first + SAMPLE_AFTER_FROST,
        kind="soil test",
        title="Take soil samples of the beds without a test and send them to a laboratory",
    )
    yield Task(
        key="lime",
        on=frost.first + LIME_AFTER_FROST,
        kind="lime",
        title="Spread lime, if the soil test asks for it: never more than it says",
    )


def by_week(tasks: Sequence[Task]) -> dict[date, list[Task]]:
    """Tasks under the Monday of their week, in the order of their days.

    >>> task = Task(key="a", on=date(2027, 5, 13), kind="feed", title="Feed")
    >>> list(by_week([task]))
    [datetime.date(2027, 5, 10)]
    """
    weeks: dict[date, list[Task]] = {}
    for task in sorted(tasks, key=lambda one: one.on):
        weeks.setdefault(task.on - timedelta(days=task.on.weekday()), []).append(task)
    return weeks
