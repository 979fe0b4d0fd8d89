"""What there is to do in a season, each on its day: samples, lime, stirring, feeding, planting."""

from collections.abc import Iterator, Sequence
from datetime import timedelta

from halfpail.application.dated_task import Task
from halfpail.application.schedule_doses import PlannedFeeding, Schedule
from halfpail.application.season_answer import MixAnswer, SeasonAnswer
from halfpail.application.tell_season import mix_name
from halfpail.quantities.dates import day_words
from halfpail.quantities.showing import show_mass, show_scoops, show_volume
from halfpail.quantities.units import System

# Our default, not published: a mix is stirred in the week before its first use.
STIR_BEFORE = timedelta(days=7)


def list_tasks(
    answer: SeasonAnswer, schedule: Schedule, tending: Sequence[Task], system: System
) -> tuple[Task, ...]:
    """The tasks of a season by their days; doses without a day are left out.

    `tending` is what the garden asks for beside stirring, planting and feeding.
    """
    found = [
        *_stirring(answer, schedule, system),
        *_planting(schedule),
        *_feeding(schedule, system),
        *tending,
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
