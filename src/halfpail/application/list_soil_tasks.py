"""What the soil asks for, on days: samples for the laboratory, lime and what else a test says.

Lime is spread in the autumn, in as many parts as its amount asks for, months apart. Epsom salt
goes on when the bed is planted, since it would wash down over the winter (our default).
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta

from halfpail.application.advise_beds import BedLime, GardenLime
from halfpail.application.advise_lime import EPSOM, Spread
from halfpail.application.dated_task import Task
from halfpail.application.open_garden import OpenedGarden
from halfpail.application.place_in_season import Stand
from halfpail.application.print_handout import source_words
from halfpail.domain.frost_calendar import FrostDates
from halfpail.findings import Notice, Severity
from halfpail.quantities.dates import months_later
from halfpail.quantities.showing import show_mass, show_rate
from halfpail.quantities.units import System
from halfpail.reference.defaults import default

LIKE_BEDS = "Beds that are alike may share one sample; send it to a laboratory."


def soil_tasks(
    opened: OpenedGarden, lime: GardenLime, stands: Mapping[str, Stand], frost: FrostDates
) -> Iterator[Task]:
    """Samples to take and what to spread for pH, calcium and magnesium, bed by bed."""
    yield from _samples(opened, frost)
    autumn = frost.first + timedelta(days=int(default("lime_after_frost").value))
    for bed in lime.beds:
        for spread in bed.answer.spreads if bed.answer else ():
            stand = stands.get(bed.bed)
            at_planting = spread.material.key == EPSOM and stand is not None
            first = stand.planted if at_planting and stand else autumn
            yield from _spreadings(bed, spread, first, lime.system)


def _samples(opened: OpenedGarden, frost: FrostDates) -> Iterator[Task]:
    holds = int(default("soil_test_holds").value)
    on = frost.first + timedelta(days=int(default("sample_after_frost").value))
    untested = [one.bed.name for one in opened.beds if one.entry.soil_test is None]
    old = [
        one.bed.name
        for one in opened.beds
        if one.entry.soil_test
        and one.entry.soil_test.year is not None
        and on.year - one.entry.soil_test.year >= holds
    ]
    if untested:
        yield Task(
            key="soil test",
            on=on,
            kind="soil test",
            title=f"Take soil samples: {_beds(untested)}",
            details=f"{_named(untested, 'never tested')} {LIKE_BEDS}",
        )
    why = f"a soil test holds 2 to {holds} years"
    if old:
        yield Task(
            key="soil test again",
            on=on,
            kind="soil test",
            title=f"Take soil samples again: {_beds(old)}",
            details=f"{_named(old, why)} {LIKE_BEDS}",
        )


def _beds(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{len(names)} beds"


def _named(names: Sequence[str], why: str) -> str:
    """Why, with the beds where the title only counts them."""
    if len(names) == 1:
        return f"{why[0].upper()}{why[1:]}."
    return f"{', '.join(names)}: {why}."


def spread_notices(lime: GardenLime) -> Iterator[Notice]:
    """What must be minded where something is spread, and by whose rule it comes in parts."""
    yield from (one for one in lime.notices if one.severity is not Severity.NOTE)
    for bed in lime.beds:
        for spread in bed.answer.spreads if bed.answer else ():
            rule = spread.spreading.rule
            if rule and spread.spreading.parts > 1:
                yield Notice(
                    severity=Severity.NOTE,
                    sentence=f"{bed.bed}: {spread.material.name.lower()} in parts by this rule: "
                    f"{source_words(rule.citation)}.",
                    citation=rule.citation,
                )


def _spreadings(bed: BedLime, spread: Spread, first: date, system: System) -> Iterator[Task]:
    spreading, name = spread.spreading, spread.material.name.lower()
    for number in range(spreading.parts):
        share = f", part {number + 1} of {spreading.parts}" if spreading.parts > 1 else ""
        rate = show_rate(spreading.part_kg_per_m2, system)
        yield Task(
            key=f"spread/{bed.bed}/{spread.material.key}/{number + 1}",
            on=months_later(first, number * spreading.months_apart),
            kind="lime",
            title=f"Spread {name}: {bed.bed}, {show_mass(spread.part_kg, system)}",
            details=f"{rate}{share}, {spread.because}.",
        )
