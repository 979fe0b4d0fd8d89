"""Planting, lime and samples beside the feedings: sown by the tables, taken off by notes."""

from datetime import date

from halfpail.application.date_plantings import date_plantings
from halfpail.application.dated_task import Task
from halfpail.application.list_tending import left_to_tend, list_sowings
from halfpail.application.place_in_season import place_in_season
from halfpail.domain.diary import Noted
from halfpail.domain.frost_calendar import FrostDates

FROST = FrostDates(last=date(2027, 4, 22), first=date(2027, 10, 10))
MADE = date(2027, 1, 1)


def task(title: str, on: date, kind: str = "plant") -> Task:
    return Task(key=f"{title}/{on}", on=on, kind=kind, title=title)


def noted(words: str) -> Noted:
    return Noted(on=date(2027, 5, 1), note=words)


def stand(crop: str, planted: date | None = None):
    return place_in_season(crop, planted, None, FROST, "bed")


def test_beds_of_one_crop_are_sown_indoors_together_when_the_table_says():
    stands = {"East": stand("tomato"), "West": stand("tomato")}
    (sowing,) = list_sowings(stands, FROST)
    window = date_plantings("tomato", FROST).indoors
    assert window and sowing.on == window.start < FROST.last
    assert sowing.title == "Sow tomatoes indoors: East, West"


def test_what_is_sown_outdoors_or_on_a_typed_day_is_not_sown_indoors():
    stands = {"East": stand("radish"), "West": stand("tomato", date(2027, 6, 1))}
    assert list(list_sowings(stands, FROST)) == []


def test_what_lies_before_the_plan_and_what_is_a_feeding_is_left_out():
    tasks = [
        task("Plant pea: East", date(2026, 12, 31)),
        task("Feed East", date(2027, 5, 1), "feed"),
        task("Stir Mix 1", date(2027, 5, 1), "stir"),
        task("Take soil samples: East", date(2027, 10, 24), "soil test"),
    ]
    assert left_to_tend(tasks, MADE, ()) == (tasks[3],)


def test_a_note_takes_off_the_earliest_task_of_its_words():
    parts = [
        task("Spread ground limestone: East, 4 lb", date(2027, 11, 1), "lime"),
        task("Spread ground limestone: East, 4 lb", date(2028, 4, 1), "lime"),
    ]
    once = (noted("spread ground limestone: East, with the neighbour's spreader"),)
    assert left_to_tend(parts, MADE, once) == (parts[1],)
    assert left_to_tend(parts, MADE, (*once, *once)) == ()


def test_a_note_is_about_the_longest_words_it_begins_with():
    tasks = [
        task("Plant tomato: East", date(2027, 5, 1)),
        task("Plant tomato: East end", date(2027, 5, 2)),
    ]
    assert left_to_tend(tasks, MADE, (noted("Plant tomato: East end"),)) == (tasks[0],)
    assert left_to_tend(tasks, MADE, (noted("We saw a hedgehog"),)) == tuple(tasks)
