"""Samples, lime and salts on their days: in autumn, in parts months apart, bed by bed."""

from dataclasses import replace
from datetime import date
from fractions import Fraction

from halfpail.application.advise_beds import advise_beds
from halfpail.application.dated_task import Task
from halfpail.application.list_soil_tasks import soil_tasks, spread_notices
from halfpail.application.open_garden import OpenedGarden, open_garden
from halfpail.application.schedule_doses import schedule_doses
from halfpail.application.season_on_paper import season_on_paper
from halfpail.domain.spreading import Spreading
from halfpail.garden_file.reader import read_text
from halfpail.quantities.units import System
from tests.documents.papers import FROST, answer

SOUR = """
[tools]
scoop = "1 cup"
pail = "5 gal"

[climate]
last_frost = "2027-05-10"
first_frost = "2027-10-01"

[[bags]]
name = "Blend"
label = "6-1-4"

[[beds]]
name = "North"
crop = "tomato"
size = "100 sq ft"
soil_test = { pH = 5.6, texture = "loam" }

[[beds]]
name = "South"
crop = "lettuce"
size = "100 sq ft"
soil_test = { pH = 6.6, year = 2024 }

[[beds]]
name = "West"
crop = "beet"
size = "100 sq ft"
"""


def opened() -> OpenedGarden:
    return open_garden(read_text(SOUR))


def tasks(garden: OpenedGarden, parts: int | None = None) -> list[Task]:
    lime = advise_beds(garden, System.US)
    if parts:
        limed = lime.beds[0]
        assert limed.answer and limed.answer.lime
        spreading = Spreading(part_kg_per_m2=Fraction(1, 5), parts=parts, months_apart=6)
        spread = replace(limed.answer.lime, spreading=spreading)
        limed = replace(limed, answer=replace(limed.answer, lime=spread))
        lime = replace(lime, beds=(limed, *lime.beds[1:]))
    return list(soil_tasks(garden, lime, {}, FROST))


def test_lime_goes_on_in_autumn_where_the_test_asks_for_it():
    (lime,) = [one for one in tasks(opened()) if one.kind == "lime"]
    assert lime.on == date(2027, 10, 22)
    assert "North" in lime.title and "limestone" in lime.title.lower() and " lb" in lime.title


def test_parts_come_months_apart():
    """Six months apart, as the home garden report of Pennsylvania State University has it."""
    found = [one for one in tasks(opened(), parts=3) if one.kind == "lime"]
    assert [one.on for one in found] == [date(2027, 10, 22), date(2028, 4, 22), date(2028, 10, 22)]
    assert "part 2 of 3" in found[1].details
    assert len({one.key for one in found}) == 3


def test_beds_without_a_test_and_with_an_old_one_are_sampled():
    never, again = [one for one in tasks(opened()) if one.kind == "soil test"]
    assert (never.title, never.on) == ("Take soil samples: West", FROST.first)
    assert again.title == "Take soil samples again: South"


def test_many_beds_are_counted_and_named_below():
    garden = opened()
    beds = tuple(replace(one, entry=replace(one.entry, soil_test=None)) for one in garden.beds)
    samples = tasks(replace(garden, beds=beds))[0]
    assert samples.title == "Take soil samples: 3 beds"
    assert samples.details.startswith("North, South, West: never tested.")


def test_who_parts_the_lime_is_named():
    """From 11 lb per 100 sq ft on in halves: home garden report, Pennsylvania State University."""
    report = 'soil_test = { pH = 5.0, buffer_pH = 6.0, buffer = "SMP" }'
    sour = open_garden(
        read_text(SOUR.replace('soil_test = { pH = 5.6, texture = "loam" }', report))
    )
    found = [one.sentence for one in spread_notices(advise_beds(sour, System.US))]
    assert any("Pennsylvania State University" in sentence for sentence in found)


def test_a_tested_garden_is_left_alone():
    beds = tuple(
        replace(one, entry=replace(one.entry, soil_test=opened().beds[0].entry.soil_test))
        for one in opened().beds
    )
    assert [one.kind for one in tasks(replace(opened(), beds=beds))] == ["lime"]


def test_planting_is_on_the_list_though_a_bed_is_not_fed():
    season = season_on_paper(opened(), replace(answer(), beds=(), mixes=()))
    titles = [one.title for one in season.tasks]
    assert "Sow tomatoes indoors: North" in titles
    assert "Plant tomatoes: North" in titles and "Plant lettuce: South" in titles
    assert schedule_doses(opened(), replace(answer(), beds=())).feedings == ()


def test_without_frost_dates_nothing_has_a_day():
    assert season_on_paper(replace(opened(), climate=None), replace(answer(), beds=())).tasks == ()
